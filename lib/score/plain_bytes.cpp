#include <sectio/score/plain_bytes.hpp>

namespace sectio::score {

namespace {

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

int digit_of(char c) {
    if (c >= '0' && c <= '9')
        return c - '0';
    const char small = static_cast<char>(c | 0x20);
    return small >= 'a' && small <= 'f' ? small - 'a' + 10 : -1;
}

} // namespace

std::string_view PlainBytes::literal() {
    const char quote = *at_;
    require(quote == '"' || quote == '\'');
    const char* from = ++at_;
    while (plain::is(*at_, plain::value))
        ++at_;
    require(*at_ == quote);
    return {from, static_cast<std::size_t>(at_++ - from)};
}

void PlainBytes::comment() {
    for (;;) {
        while (*at_ != '-'
               && (plain::is(*at_, plain::text) || *at_ == '<' || *at_ == '&' || *at_ == ']'))
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

void PlainBytes::instruction() {
    const std::string_view target = name();
    require(target.size() != 3 || (target[0] != 'x' && target[0] != 'X'));
    require(plain::is(*at_, plain::space) || std::string_view(at_, left()).starts_with("?>"));
    for (;;) {
        while (*at_ != '?'
               && (plain::is(*at_, plain::text) || *at_ == '<' || *at_ == '&' || *at_ == ']'))
            ++at_;
        if (accept("?>"))
            return;
        if (*at_ == '?')
            ++at_;
        else
            beyond_ascii();
    }
}

void PlainBytes::beyond_ascii() {
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

unsigned long PlainBytes::reference() {
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

std::string PlainBytes::decoded(std::string_view raw, bool in_value) {
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
        out += in_value && plain::is(*at_, plain::space) ? ' ' : *at_;
        ++at_;
    }
    at_ = back;
    return out;
}

} // namespace sectio::score
