#pragma once
/// @file
/// What a program hands to a function.

#include <string>
#include <string_view>

namespace sectio {

/// Refuses an argument that a function cannot take: `what` must be `wanted`, and `piece` is not.
/// @throws Error unfit_argument
[[noreturn]] void refuse_argument(std::string_view what, std::string_view wanted,
                                  const std::string& piece = "");

/// The same unless `fits`.
constexpr void check_argument(bool fits, std::string_view what, std::string_view wanted) {
    if (!fits)
        refuse_argument(what, wanted);
}

} // namespace sectio
