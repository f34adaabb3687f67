#pragma once
/// @file
/// A command's JSON.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <support/process.hpp>

namespace support {

/// What `sectio ARGUMENTS… --json` prints; the test fails where it does not end well, or says
/// anything on standard error.
inline nlohmann::json sectio_json(std::vector<std::string> arguments) {
    arguments.push_back("--json");
    const auto outcome = run_sectio(arguments);
    CAPTURE(arguments, outcome.err);
    REQUIRE(outcome.exit_code == 0);
    CHECK(outcome.err.empty());
    return nlohmann::json::parse(outcome.out);
}

} // namespace support
