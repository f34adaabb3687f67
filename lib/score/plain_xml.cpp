#include <sectio/base/limits.hpp>
#include <sectio/score/xml.hpp>

#include <algorithm>
#include <array>
#include <deque>
#include <vector>

namespace sectio::score {

namespace {

/// What a byte may be part of. Only ASCII has names here; other letters are left to read_xml().
enum Kind : unsigned char {
    text = 1,       ///< text as it is; & < ] and all beyond ASCII are looked at
    value = 2,      ///< a quoted value as it is
    name_start = 4, ///< Name, its first character
    name_part = 8,
    space = 16,
};

constexpr std::array<unsigned char, 256> kinds = [] {
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

bool is(char c, Kind kind) {
    return (kinds[static_cast<unsigned char>(c)] & kind) != 0;
}

/// Char of XML 1.0, production 2.
bool is_character(unsigned long c) {
    return c == 9 || c == 10 || c == 13 || (c >= 0x20 && c < 0xD800) || (c >= 0xE000 && c < 0xFFFE)
           || (c >= 0x10000 && c < 0x110000);
}

void put_utf8(std::string& out, unsigned long c) {
    const auto put = [&](unsigned long byte) { out += static_cast<char>(byte); };
    if (c < 0x80)
        return put(c);
    if (c < 0x800)
        put(0xC0 | c >> 6);
    else if (c < 0x10000) {
        put(0xE0 | c >> 12);
        put(0x80 | (c >> 6 & 0x3F));
    } else {
        put(0xF0 | c >> 18);
        put(0x80 | (c >> 12 & 0x3F));
        put(0x80 | (c >> 6 & 0x3F));
    }
    put(0x80 | (c & 0x3F));
}

/// Ends the reading: what stands here is for read_xml().
struct NotPlain {};

/// The bytes end with a zero, which no table has: every loop stops there.
class PlainReading : public XmlCursor {
  public:
    PlainReading(const std::string& bytes, XmlHandler& handler)
        : begin_(bytes.c_str()), end_(begin_ + bytes.size()), at_(begin_), handler_(handler) {}

    void run() {
        if (std::string_view(at_, left()).starts_with("\xEF\xBB\xBF"))
            at_ += 3;
        declaration();
        misc(true);
        require(*at_ == '<' && is(at_[1], name_start));
        tag();
        while (!open_.empty())
            content();
        misc(false);
        require(at_ == end_);
    }

    /// Errors are told by read_xml(), with their places.
    Place place() const override { return {}; }

  private:
    static void require(bool plain) {
        if (!plain)
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
        while (is(*at_, space))
            ++at_;
        return at_ != from;
    }

    std::string_view name() {
        const char* from = at_;
        require(is(*at_, name_start));
        while (is(*at_, name_part))
            ++at_;
        return {from, static_cast<std::size_t>(at_ - from)};
    }

    /// A literal of which every byte is plain; no references.
    std::string_view literal() {
        const char quote = *at_;
        require(quote == '"' || quote == '\'');
        const char* from = ++at_;
        while (is(*at_, value))
            ++at_;
        require(*at_ == quote);
        return {from, static_cast<std::size_t>(at_++ - from)};
    }

    /// XMLDecl: version 1.0, no encoding or UTF-8.
    void declaration() {
        if (!std::string_view(at_, left()).starts_with("<?xml") || !is(at_[5], space))
            return;
        at_ += 5;
        pseudo_attribute("version", {"1.0"}, true);
        pseudo_attribute("encoding", {"UTF-8", "utf-8"}, false);
        pseudo_attribute("standalone", {"yes", "no"}, false);
        spaces();
        expect("?>");
    }

    void pseudo_attribute(std::string_view wanted, std::initializer_list<std::string_view> values,
                          bool needed) {
        const char* from = at_;
        if (!spaces() || !accept(wanted)) {
            require(!needed);
            at_ = from;
            return;
        }
        spaces();
        expect("=");
        spaces();
        const std::string_view found = literal();
        require(std::find(values.begin(), values.end(), found) != values.end());
    }

    /// Comments, instructions and white space outside the root, and before it the document type.
    void misc(bool before) {
        for (;;) {
            spaces();
            if (accept("<!--"))
                comment();
            else if (accept("<?"))
                instruction();
            else if (before && accept("<!DOCTYPE"))
                document_type(before);
            else
                return;
        }
    }

    /// Without an internal subset; the address is not looked at.
    void document_type(bool& allowed) {
        allowed = false;
        require(spaces());
        name();
        const bool apart = spaces();
        if (accept("PUBLIC")) {
            require(apart && spaces());
            public_literal();
            require(spaces());
            literal();
        } else if (accept("SYSTEM")) {
            require(apart && spaces());
            literal();
        }
        spaces();
        expect(">");
    }

    /// PubidLiteral of XML 1.0, production 13, as the DTDs of MusicXML have it.
    void public_literal() {
        for (const char c : literal())
            require(is(c, name_part) || c == ' ' || c == '/' || c == '+');
    }

    void comment() {
        for (;;) {
            while (*at_ != '-' && (is(*at_, text) || *at_ == '<' || *at_ == '&' || *at_ == ']'))
                ++at_;
            if (accept("-->"))
                return;
            require(!std::string_view(at_, left()).starts_with("--"));
            if (*at_ == '-')
                ++at_;
            else
                beyond_ascii();
        }
    }

    void instruction() {
        const std::string_view target = name();
        require(target.size() != 3 || (target[0] != 'x' && target[0] != 'X'));
        require(is(*at_, space) || std::string_view(at_, left()).starts_with("?>"));
        for (;;) {
            while (*at_ != '?' && (is(*at_, text) || *at_ == '<' || *at_ == '&' || *at_ == ']'))
                ++at_;
            if (accept("?>"))
                return;
            if (*at_ == '?')
                ++at_;
            else
                beyond_ascii();
        }
    }

    /// One character of more than one byte, checked by Unicode 15, table 3-7.
    void beyond_ascii() {
        const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(at_[i]); };
        const unsigned char lead = byte(0);
        require(lead >= 0xC2 && lead <= 0xF4);
        const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
        unsigned long code = lead & (0x7FU >> length);
        for (std::size_t i = 1; i < length; ++i) {
            require((byte(i) & 0xC0) == 0x80); // the zero at the end is none
            code = code << 6 | (byte(i) & 0x3FU);
        }
        require(is_character(code) && (length != 3 || code >= 0x800)
                && (length != 4 || code >= 0x10000));
        at_ += length;
    }

    /// A reference to a character, or to one of XML's own five.
    unsigned long reference() {
        struct Known {
            std::string_view name;
            char character;
        };
        constexpr std::array<Known, 5> known{
            {{"&amp;", '&'}, {"&lt;", '<'}, {"&gt;", '>'}, {"&quot;", '"'}, {"&apos;", '\''}}};
        for (const Known& entity : known)
            if (accept(entity.name))
                return static_cast<unsigned char>(entity.character);
        expect("&#");
        const unsigned long base = accept("x") ? 16 : 10;
        unsigned long code = 0;
        const char* from = at_;
        for (int digit = digit_of(*at_); digit >= 0 && digit < static_cast<int>(base);
             digit = digit_of(*++at_)) {
            code = code * base + static_cast<unsigned long>(digit);
            require(code < 0x110000);
        }
        require(at_ != from && is_character(code));
        expect(";");
        return code;
    }

    static int digit_of(char c) {
        if (c >= '0' && c <= '9')
            return c - '0';
        const char small = static_cast<char>(c | 0x20);
        return small >= 'a' && small <= 'f' ? small - 'a' + 10 : -1;
    }

    /// Text up to the next tag or comment, and that.
    void content() {
        for (;;) {
            while (is(*at_, text))
                ++at_;
            if (*at_ == '<')
                break;
            if (*at_ == '&') {
                reference();
                simple_ = false;
            } else if (*at_ == ']') {
                require(!std::string_view(at_, left()).starts_with("]]>"));
                ++at_;
            } else {
                beyond_ascii();
            }
        }
        markup();
    }

    void markup() {
        if (at_[1] == '/')
            return end_tag();
        if (is(at_[1], name_start))
            return tag();
        require(!wanted_); // the text goes on behind it
        if (accept("<!--"))
            return comment();
        expect("<?");
        instruction();
    }

    void tag() {
        const char* from = at_++;
        const std::string_view tag_name = name();
        const bool empty = attributes();
        require(open_.size() < limits::xml_nesting);
        wanted_ =
            handler_.start({tag_name, XmlAttributes(attributes_), offset(from), false}, *this);
        text_from_ = at_;
        simple_ = true;
        if (!empty)
            return open_.push_back(tag_name);
        handler_.end(offset(at_), {}, *this);
        wanted_ = false;
    }

    /// Up to the end of the tag; whether that was />.
    bool attributes() {
        attributes_.clear();
        decoded_.clear();
        for (;;) {
            const bool apart = spaces();
            if (*at_ == '>') {
                ++at_;
                return false;
            }
            if (accept("/>"))
                return true;
            require(apart);
            const std::string_view attribute = name();
            require(!XmlAttributes(attributes_).find(attribute));
            spaces();
            expect("=");
            spaces();
            attributes_.push_back({attribute, attribute_value()});
        }
    }

    std::string_view attribute_value() {
        const char quote = *at_;
        require(quote == '"' || quote == '\'');
        const char* from = ++at_;
        bool simple = true;
        while (*at_ != quote) {
            if (is(*at_, value) || *at_ == '"' || *at_ == '\'') {
                ++at_;
                continue;
            }
            simple = false;
            if (*at_ == '&')
                reference();
            else if (is(*at_, space))
                ++at_;
            else
                beyond_ascii();
        }
        const std::string_view raw(from, static_cast<std::size_t>(at_++ - from));
        return simple ? raw : kept(decoded(raw, true));
    }

    /// Values that are not in the document as they are; a deque's strings stay where they are.
    std::string_view kept(std::string value) { return decoded_.emplace_back(std::move(value)); }

    /// References replaced and line ends made one (XML 1.0, 2.11); in a value, white space is
    /// blanks (3.3.3). `raw` has been checked.
    std::string decoded(std::string_view raw, bool in_value) {
        std::string out;
        const char* const back = at_;
        for (at_ = raw.data(); at_ != raw.data() + raw.size();) {
            if (*at_ == '&') {
                put_utf8(out, reference());
                continue;
            }
            if (*at_ == '\r') {
                out += in_value ? ' ' : '\n';
                at_ += at_ + 1 != raw.data() + raw.size() && at_[1] == '\n' ? 2 : 1;
                continue;
            }
            out += in_value && is(*at_, space) ? ' ' : *at_;
            ++at_;
        }
        at_ = back;
        return out;
    }

    void end_tag() {
        const char* from = at_;
        at_ += 2;
        expect(open_.back());
        spaces();
        expect(">");
        open_.pop_back();
        if (!wanted_)
            return handler_.end(offset(from), {}, *this);
        wanted_ = false;
        const std::string_view raw(text_from_, static_cast<std::size_t>(from - text_from_));
        if (simple_ && raw.find('\r') == std::string_view::npos)
            return handler_.end(offset(from), raw.substr(0, limits::score_text_bytes), *this);
        const std::string text = decoded(raw, false);
        handler_.end(offset(from), std::string_view(text).substr(0, limits::score_text_bytes),
                     *this);
    }

    const char *begin_, *end_, *at_;
    XmlHandler& handler_;
    std::vector<std::string_view> open_;
    std::vector<XmlAttribute> attributes_;
    std::deque<std::string> decoded_;
    const char* text_from_ = nullptr;
    bool wanted_ = false; ///< the text since the last start tag
    bool simple_ = true;  ///< and it stands in the document as it is
};

} // namespace

bool read_plain_xml(const std::string& bytes, XmlHandler& handler) {
    try {
        PlainReading(bytes, handler).run();
        return true;
    } catch (const NotPlain&) {
        return false;
    }
}

} // namespace sectio::score
