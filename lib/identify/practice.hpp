#pragma once
/// @file
/// Private to lib/identify: degrees that performers are taught to sound elsewhere than theory and
/// notation place them.

#include <sectio/scale/entry.hpp>

#include <vector>

namespace sectio {

/// `degrees`, in cents above the tonic, where performers of the makam `entry` sound them.
std::vector<double> sounded_degrees(const Entry& entry, std::vector<double> degrees);

} // namespace sectio
