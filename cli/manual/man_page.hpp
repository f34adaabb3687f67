#pragma once
/// @file
/// A manual page of section 1 of one command.

#include "outline.hpp"

#include <string>

namespace sectio::manual {

/// Names, options and examples come from the command, the rest from `document`, its page in docs;
/// sections that it lacks (precision, errors, exit status) from `common`, which says them of all.
std::string man_page(const Command& command, const std::string& document,
                     const std::string& common);

} // namespace sectio::manual
