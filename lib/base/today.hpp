#pragma once
/// @file
/// The date on pages.

#include <string>

namespace sectio {

/// Today's date where the computer stands, ISO 8601; where SOURCE_DATE_EPOCH is set
/// (reproducible-builds.org/specs/source-date-epoch) the date of that second, in UTC, so that the
/// same page is the same file.
std::string today();

} // namespace sectio
