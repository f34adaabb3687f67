#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/base/utf8.hpp>

#include <algorithm>
#include <array>

namespace sectio {

namespace {

struct Twin {
    char32_t sign;
    std::u32string_view ascii;
};

/// Unicode signs and what they read as. A superscript is an exponent: see fold().
constexpr std::array twins{
    Twin{U'×', U"x"},      Twin{U'✕', U"x"},      Twin{U'−', U"-"},      Twin{U'–', U"-"},
    Twin{U'‐', U"-"},      Twin{U'‑', U"-"},      Twin{U'＋', U"+"},     Twin{U'¢', U"c"},
    Twin{U'∶', U":"},      Twin{U'⁄', U"/"},      Twin{U'∕', U"/"},      Twin{U'÷', U"/"},
    Twin{U'·', U"*"},      Twin{U'⋅', U"*"},      Twin{U'“', U"\""},     Twin{U'”', U"\""},
    Twin{U'„', U"\""},     Twin{U'«', U"\""},     Twin{U'»', U"\""},     Twin{U'♯', U"#"},
    Twin{U'♭', U"b"},      Twin{U'𝄪', U"##"},     Twin{U'𝄫', U"bb"},     Twin{U'\u00A0', U" "},
    Twin{U'\u2002', U" "}, Twin{U'\u2003', U" "}, Twin{U'\u2009', U" "}, Twin{U'\u200A', U" "},
    Twin{U'\u202F', U" "}, Twin{U'\t', U" "},     Twin{U'\n', U" "},     Twin{U'\r', U" "},
};

constexpr std::u32string_view superscripts = U"⁰¹²³⁴⁵⁶⁷⁸⁹";

/// What `c` reads as, `in_superscript` telling whether a superscript stood before it.
std::u32string fold(char32_t c, bool& in_superscript) {
    const std::size_t digit = superscripts.find(c);
    const bool raised = digit != std::u32string_view::npos || c == U'⁻';
    const std::u32string caret = raised && !in_superscript ? U"^" : U"";
    in_superscript = raised;
    if (raised)
        return caret + (c == U'⁻' ? U'-' : static_cast<char32_t>(U'0' + digit));
    const auto twin =
        std::find_if(twins.begin(), twins.end(), [c](const Twin& t) { return t.sign == c; });
    return twin != twins.end() ? std::u32string(twin->ascii) : std::u32string(1, c);
}

} // namespace

bool is_digit(char32_t c) {
    return c >= U'0' && c <= U'9';
}

std::size_t character_count(std::string_view text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0) != 0x80; // no byte that continues one
    }));
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view space = " \t\r\n";
    const std::size_t first = text.find_first_not_of(space);
    return first == text.npos ? std::string_view()
                              : text.substr(first, text.find_last_not_of(space) - first + 1);
}

bool is_letter(char32_t c) {
    return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z') || c >= 0xC0;
}

TextCursor::TextCursor(std::string_view text, Place place) : text_(text), start_(std::move(place)) {
    bool in_superscript = false;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = utf8_length(text, at);
        if (length == 0)
            throw error(message::not_utf8, "", this->place(characters_.size()));
        const char32_t c = utf8_character(text, at, length);
        for (const char32_t folded :
             length == 1 && c >= 0x20 ? std::u32string(1, c) : fold(c, in_superscript))
            characters_.push_back({folded, at});
        in_superscript = in_superscript && length > 1;
        at += length;
    }
}

char32_t TextCursor::peek(std::size_t ahead) const {
    return next_ + ahead < characters_.size() ? characters_[next_ + ahead].folded : U'\0';
}

void TextCursor::skip_spaces() {
    while (!at_end() && peek() == U' ')
        ++next_;
}

bool TextCursor::accept(char32_t c) {
    skip_spaces();
    if (at_end() || peek() != c)
        return false;
    ++next_;
    return true;
}

bool TextCursor::word_here(std::string_view word) const {
    for (std::size_t i = 0; i < word.size(); ++i)
        if (peek(i) != static_cast<unsigned char>(word[i]))
            return false;
    return !is_letter(peek(word.size()));
}

bool TextCursor::accept_word(std::string_view word) {
    skip_spaces();
    if (!word_here(word))
        return false;
    next_ += word.size();
    return true;
}

std::string TextCursor::digits() {
    std::string run;
    for (; is_digit(peek()); ++next_)
        run += static_cast<char>(peek());
    return run;
}

std::string_view TextCursor::written(std::size_t begin, std::size_t end) const {
    const auto offset = [this](std::size_t i) {
        return i < characters_.size() ? characters_[i].offset : text_.size();
    };
    return text_.substr(offset(begin), offset(end) - offset(begin));
}

std::string_view TextCursor::piece(std::size_t position) const {
    std::size_t end = position;
    while (end < characters_.size() && characters_[end].folded != U' ')
        ++end;
    return end == position ? text_ : written(position, end);
}

Place TextCursor::place(std::size_t position) const {
    Place here = start_;
    // Characters that fold to two count once: compare byte offsets of what was read.
    std::size_t column = 0;
    for (std::size_t i = 0; i < std::min(position, characters_.size()); ++i)
        column += i == 0 || characters_[i].offset != characters_[i - 1].offset ? 1 : 0;
    here.column = std::max<std::size_t>(start_.column, 1) + column;
    return here;
}

void TextCursor::expect_end() {
    skip_spaces();
    if (!at_end())
        throw failure(message::unexpected_text, next_);
}

bool has_sign(std::string_view text) {
    return text.starts_with('+') || text.starts_with('-') || text.starts_with("−")
           || text.starts_with("–");
}

bool is_decimal_comma(std::string_view text, std::size_t comma) {
    constexpr std::string_view digits = "0123456789";
    if (comma >= text.size() || text[comma] != ',')
        return false;
    const std::string_view before = text.substr(0, comma), after = text.substr(comma + 1);
    const std::string_view head = before.substr(0, before.find_last_not_of(digits) + 1);
    const bool alone = head.empty() || head.ends_with("−")
                       || std::string_view(" \t\n=:;,+-").find(head.back()) != head.npos;
    const std::string_view rest =
        after.substr(std::min(after.find_first_not_of(digits), after.size()));
    const std::string_view next = trimmed(rest);
    return alone && head.size() < before.size() && rest.size() < after.size()
           && !next.starts_with('=') && !next.starts_with(':');
}

} // namespace sectio
