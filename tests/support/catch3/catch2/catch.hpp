#pragma once
/// @file
/// Catch2 3, which Debian 13 has, by the names of Catch2 2, which Debian 12 has.

#include <catch2/catch_all.hpp>

using Catch::Approx;

namespace Catch {

using Matchers::StartsWith;

inline auto Contains(const std::string& text) {
    return Matchers::ContainsSubstring(text);
}

} // namespace Catch
