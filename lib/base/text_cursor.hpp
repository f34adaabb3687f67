#pragma once
/// @file
/// Reading a short text character by character, with places for errors. Used by the parsers of
/// expressions and pitches.

#include <sectio/base/error.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// A position in UTF-8 text. Signs that have an ASCII twin are seen as the twin ("×" as "x", "−" as
/// "-", every space as " "), so that parsers know ASCII only; pieces for errors stay as written.
class TextCursor {
  public:
    /// `place` is where the text begins. @throws Error not_utf8
    TextCursor(std::string_view text, Place place);

    bool at_end() const { return next_ == characters_.size(); }
    /// The character here (folded to its ASCII twin), 0 at the end; `ahead` characters further on.
    char32_t peek(std::size_t ahead = 0) const;
    void skip(std::size_t count = 1) { next_ += count; }
    void skip_spaces();
    /// Skips spaces and, if it stands next, `c`; says whether it did.
    bool accept(char32_t c);
    /// Skips spaces and, if it stands next as a whole word, `word`.
    bool accept_word(std::string_view word);
    /// True where `word` stands here and no letter follows it.
    bool word_here(std::string_view word) const;
    /// A run of decimal digits, possibly empty.
    std::string digits();

    std::size_t position() const { return next_; }
    void rewind(std::size_t position) { next_ = position; }
    /// The text as written from `begin` (a position) to here.
    std::string_view written(std::size_t begin) const { return written(begin, next_); }
    std::string_view written(std::size_t begin, std::size_t end) const;
    /// The text as written from here to its end.
    std::string_view rest() const { return written(next_, characters_.size()); }
    /// The run without spaces that stands at `position`, or the whole text where nothing does.
    std::string_view piece(std::size_t position) const;
    Place place(std::size_t position) const;

    /// The error `id` about what stands at `position`.
    template <typename... Args>
    Error failure(Message id, std::size_t position, const Args&... args) const {
        return error(id, piece(position), place(position), args...);
    }
    /// Throws unexpected_text unless only spaces are left.
    void expect_end();

  private:
    struct Character {
        char32_t folded;
        std::size_t offset; ///< in bytes
    };
    std::string_view text_;
    Place start_;
    std::vector<Character> characters_;
    std::size_t next_ = 0;
};

bool is_digit(char32_t c);
/// Characters (code points) of valid UTF-8, as places count them.
std::size_t character_count(std::string_view text);
/// `text` without blanks, tabs and ends of lines at either end.
std::string_view trimmed(std::string_view text);

/// Whether it begins with `+`, `-`, the minus sign or the en dash that stands for it.
bool has_sign(std::string_view text);

/// Whether the comma at `comma` is that of a decimal number, as in `57,4mm` and `E4 -29,5`, and
/// parts no list: a number alone before it, a digit right after it, and no label, as in `2,3=E4`.
bool is_decimal_comma(std::string_view text, std::size_t comma);
/// Letters for names: ASCII letters and everything above ASCII that is no sign of the grammar.
bool is_letter(char32_t c);

} // namespace sectio
