#pragma once
/// @file
/// Private to lib/print: accidentals within a text.

#include <string_view>

namespace sectio::page {

/// How an accidental is set beside letters: the Noto fonts draw ♯ low and ♭ small, as if for a line
/// of mathematics; here they are as tall as on a staff, and their middle is that of a capital.
struct Accidental {
    std::string_view sign;
    double scale; ///< of the size of type
    double rise;  ///< likewise
};

struct FoundAccidental {
    std::size_t at = std::string_view::npos;
    const Accidental* accidental = nullptr;
};

/// The first accidental in a text that may be taken apart at it: one whose letters are all below
/// U+0590, where writing from right to left begins.
FoundAccidental find_accidental(std::string_view text);

} // namespace sectio::page
