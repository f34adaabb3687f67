#pragma once
/// @file
/// What a page says for the reader's safety, in the same words everywhere.

namespace sectio::page {

inline constexpr const char* raising_a_string =
    "Raising a string's pitch can break it: raise it little by little and protect your eyes.";

} // namespace sectio::page
