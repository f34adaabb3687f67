#pragma once
/// @file
/// What the command says where it refuses.

#include <catch2/catch.hpp>
#include <support/process.hpp>

namespace support {

/// The message of a refused request, which answers nothing.
inline std::string refusal(const std::vector<std::string>& arguments, int code = 2) {
    const auto outcome = run_sectio(arguments);
    CHECK(outcome.exit_code == code);
    CHECK(outcome.out.empty());
    return outcome.err;
}

} // namespace support
