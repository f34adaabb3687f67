#pragma once
/// @file
/// What the tests of limits share.

#include <sectio/scale/load.hpp>

#include <support/errors.hpp>

namespace support {

/// The name of the message of the error that `act` throws, or "no error".
template <typename Act>
std::string said(Act act) {
    return name_of(error_of(act));
}

inline sectio::Scale equal(std::int64_t steps) {
    return sectio::as_scale(sectio::EqualDivision(steps));
}

} // namespace support
