#pragma once
/// @file
/// Private to lib/score: the bytes of a plain XML document, piece by piece.

#include <array>
#include <string>
#include <string_view>

namespace sectio::score {

namespace plain {

/// What a byte may be part of. Only ASCII has names here; other letters are left to read_xml().
enum Kind : unsigned char {
    text = 1,       ///< text as it is; & < ] and all beyond ASCII are looked at
    value = 2,      ///< a quoted value as it is
    name_start = 4, ///< Name, its first character
    name_part = 8,
    space = 16,
};

inline constexpr std::array<unsigned char, 256> kinds = [] {
    std::array<unsigned char, 256> table{};
    for (int c = 0x20; c < 0x80; ++c)
        table[static_cast<std::size_t>(c)] = text | value;
    for (const char c : {'\t', '\n', '\r'})
        table[static_cast<unsigned char>(c)] = text | space;
    table[' '] |= space;
    for (const char c : {'<', '&', ']'})
        table[static_cast<unsigned char>(c)] &= static_cast<unsigned char>(~text);
    for (const char c : {'<', '&', '"', '\''})
        table[static_cast<unsigned char>(c)] &= static_cast<unsigned char>(~value);
    for (int c = 'a'; c <= 'z'; ++c)
        table[static_cast<std::size_t>(c)] |= name_start | name_part;
    for (int c = 'A'; c <= 'Z'; ++c)
        table[static_cast<std::size_t>(c)] |= name_start | name_part;
    for (const char c : {'_', ':'})
        table[static_cast<unsigned char>(c)] |= name_start | name_part;
    for (int c = '0'; c <= '9'; ++c)
        table[static_cast<std::size_t>(c)] |= name_part;
    for (const char c : {'-', '.'})
        table[static_cast<unsigned char>(c)] |= name_part;
    return table;
}();

inline bool is(char c, Kind kind) {
    return (kinds[static_cast<unsigned char>(c)] & kind) != 0;
}

} // namespace plain

/// Ends the reading: what stands here is for read_xml().
struct NotPlain {};

/// Reads on through bytes that end with a zero, which no table has: every loop stops there.
class PlainBytes {
  public:
    explicit PlainBytes(const std::string& bytes)
        : begin_(bytes.c_str()), end_(begin_ + bytes.size()), at_(begin_) {}

  protected:
    static void require(bool holds) {
        if (!holds)
            throw NotPlain{};
    }

    std::size_t left() const { return static_cast<std::size_t>(end_ - at_); }
    std::size_t offset(const char* at) const { return static_cast<std::size_t>(at - begin_); }

    bool accept(std::string_view piece) {
        if (!std::string_view(at_, left()).starts_with(piece))
            return false;
        at_ += piece.size();
        return true;
    }
    void expect(std::string_view piece) { require(accept(piece)); }

    bool spaces() {
        const char* from = at_;
        while (plain::is(*at_, plain::space))
            ++at_;
        return at_ != from;
    }

    std::string_view name() {
        const char* from = at_;
        require(plain::is(*at_, plain::name_start));
        while (plain::is(*at_, plain::name_part))
            ++at_;
        return {from, static_cast<std::size_t>(at_ - from)};
    }

    /// A literal of which every byte is plain; no references.
    std::string_view literal();
    /// The rest of a comment, and of an instruction.
    void comment();
    void instruction();
    /// One character of more than one byte, checked by Unicode 15, table 3-7.
    void beyond_ascii();
    /// A reference to a character, or to one of XML's own five.
    unsigned long reference();
    /// References replaced and line ends made one (XML 1.0, 2.11); in a value, white space is
    /// blanks (3.3.3). `raw` has been checked.
    std::string decoded(std::string_view raw, bool in_value);

    const char *begin_, *end_, *at_;
};

} // namespace sectio::score
