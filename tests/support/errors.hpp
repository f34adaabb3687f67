#pragma once
/// @file
/// Errors as values, and their names in Catch2's reports.

#include <sectio/base/error.hpp>

#include <catch2/catch.hpp>

#include <optional>
#include <string>

namespace support {

/// The sectio::Error that `act` throws, or nothing.
template <typename Act>
std::optional<sectio::Error> error_of(Act act) {
    try {
        act();
    } catch (const sectio::Error& error) {
        return error;
    }
    return std::nullopt;
}

/// The name of a message as listed, or "no error".
inline std::string name_of(const std::optional<sectio::Error>& error) {
    if (!error)
        return "no error";
    return std::string(error->id()->name);
}

} // namespace support

template <>
struct Catch::StringMaker<sectio::Message> {
    static std::string convert(sectio::Message id) { return std::string(id->name); }
};
