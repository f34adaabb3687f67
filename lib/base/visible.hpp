#pragma once
/// @file
/// Text shown as what it is: characters that command terminals or turn lines around are named.

#include <string>
#include <string_view>

namespace sectio {

/// `text` with every control character, every one that breaks the line or reorders what stands
/// around it, and every one that is none, as "<U+202E>", and bytes that are no UTF-8 as "<byte
/// 9B>". Source of the list: Unicode UAX #9, 2 (embeddings, overrides, isolates and marks), Unicode
/// Technical Report 36, 3, and the Unicode Standard, 23.7 (noncharacters).
std::string visible(std::string_view text);

/// A code point that no text is to hold, such as U+FFFE.
bool is_noncharacter(char32_t c);

} // namespace sectio
