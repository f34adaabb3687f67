#pragma once
/// @file
/// What a program hands to a function.

#include <iterator>
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

/// A program may hand over a function object that holds no function.
template <typename Function>
void check_function(const Function& function, std::string_view what) {
    check_argument(static_cast<bool>(function), what, "given");
}

/// The place of an enumerator among `rows`, one for each from 0 on. A value that the enumeration
/// does not have may come from a cast. @throws Error unfit_argument for one
template <typename Rows, typename Enum>
constexpr const auto& row_for(const Rows& rows, Enum value) {
    const auto at = static_cast<std::size_t>(value);
    check_argument(at < std::size(rows), "an enumerator", "one that its enumeration has");
    return rows[at];
}

} // namespace sectio
