#pragma once
/// @file
/// Bytes of binary files, written as the standards print them.

#include <cctype>
#include <cstdint>
#include <string>
#include <string_view>

namespace support {

/// "F0 7E" or "F07E" as two bytes.
inline std::string bytes(std::string_view hex) {
    std::string out, digits;
    for (const char c : hex) {
        if (std::isxdigit(static_cast<unsigned char>(c)))
            digits += c;
        if (digits.size() == 2) {
            out += static_cast<char>(std::stoi(digits, nullptr, 16));
            digits.clear();
        }
    }
    return out;
}

/// `value` in `count` bytes, the most significant first.
inline std::string number(std::uint64_t value, int count) {
    std::string out;
    for (int shift = 8 * (count - 1); shift >= 0; shift -= 8)
        out += static_cast<char>(value >> shift & 0xFF);
    return out;
}

/// `value` in `count` bytes, the least significant first.
inline std::string little_endian(std::uint64_t value, int count) {
    std::string out;
    for (int i = 0; i < count; ++i, value >>= 8)
        out += static_cast<char>(value & 0xFF);
    return out;
}

/// A chunk of RIFF: its four letters, its size, its content and a zero where that is odd.
inline std::string riff_chunk(const std::string& id, const std::string& content) {
    return id + little_endian(content.size(), 4) + content + std::string(content.size() % 2, '\0');
}

} // namespace support
