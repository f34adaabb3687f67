#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_file.hpp>

#include <utf8proc.h>

#include <algorithm>
#include <array>

namespace sectio {

namespace {

/// UTF-16 after its mark, `high` being the place of a unit's upper byte. Source: RFC 2781, 2.2.
std::string from_utf16(std::string_view bytes, std::size_t high, const std::string& name) {
    const auto refused = [&] { return error(message::not_utf8, "", {name}); };
    const auto unit = [&](std::size_t at) {
        if (at + 1 >= bytes.size())
            throw refused();
        const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(bytes[at + i]); };
        return static_cast<utf8proc_int32_t>(byte(high) << 8 | byte(1 - high));
    };
    const auto begins_pair = [](auto value) { return value >= 0xD800 && value < 0xDC00; };
    const auto ends_pair = [](auto value) { return value >= 0xDC00 && value < 0xE000; };
    std::string text;
    for (std::size_t at = 2; at < bytes.size(); at += 2) {
        utf8proc_int32_t value = unit(at);
        if (begins_pair(value) && at + 2 < bytes.size() && ends_pair(unit(at + 2)))
            value = 0x10000 + ((value - 0xD800) << 10) + unit(at += 2) - 0xDC00;
        else if (begins_pair(value) || ends_pair(value))
            throw refused();
        std::array<utf8proc_uint8_t, 4> coded{};
        const auto size = utf8proc_encode_char(value, coded.data());
        text.append(coded.begin(), coded.begin() + size);
    }
    return text;
}

} // namespace

std::string plain_text(std::string bytes, const std::string& name) {
    if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF"))
        bytes = from_utf16(bytes, bytes[0] == '\xFF' ? 1 : 0, name);
    else
        bytes.erase(0, bytes.size() - without_byte_order_mark(bytes).size());
    if (bytes.find('\0') != bytes.npos)
        throw error(message::not_utf8, "", {name});
    if (bytes.find('\n') == bytes.npos)
        std::replace(bytes.begin(), bytes.end(), '\r', '\n');
    return bytes;
}

std::string read_text(const std::filesystem::path& file, std::size_t most_bytes) {
    return plain_text(read_whole(file, most_bytes), file.string());
}

std::string read_text(std::istream& input, const std::string& name, std::size_t most_bytes) {
    return plain_text(read_whole(input, name, most_bytes), name);
}

} // namespace sectio
