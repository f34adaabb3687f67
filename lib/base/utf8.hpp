#pragma once
/// @file
/// Characters in the bytes of UTF-8.

#include <cstddef>
#include <string_view>

namespace sectio {

/// Length of the UTF-8 sequence at `text[at]`, or 0 where none is well formed (overlong forms,
/// surrogates and values above 10FFFF are not). Source: RFC 3629, section 4.
std::size_t utf8_length(std::string_view text, std::size_t at);

/// The character whose sequence of `length` bytes, 1 to 4, begins at `text[at]`.
char32_t utf8_character(std::string_view text, std::size_t at, std::size_t length);

} // namespace sectio
