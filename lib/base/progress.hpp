#pragma once
/// @file
/// How long work tells how far it is.

#include <functional>

namespace sectio {

/// Told the part of the work that is done, from 0 to 1, a few times a second. It may throw to end
/// the work; nothing is left behind.
using Progress = std::function<void(double done)>;

} // namespace sectio
