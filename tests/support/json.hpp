#pragma once
/// @file
/// JSON, read and shown by one source: its templates are slow to compile.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace support {

nlohmann::json json_of(const std::string& text);

/// What `sectio ARGUMENTS… --json` prints; the test fails where it does not end well, or says
/// anything on standard error.
nlohmann::json sectio_json(std::vector<std::string> arguments);

} // namespace support

/// As a check that fails shows it.
template <>
struct Catch::StringMaker<nlohmann::json> {
    static std::string convert(const nlohmann::json& json);
};
