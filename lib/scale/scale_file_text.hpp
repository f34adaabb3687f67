#pragma once
/// @file
/// A scale as the text of a scale file (docs/scale-files.md).

#include <sectio/scale/scale.hpp>

#include <string>

namespace sectio {

/// TOML that read_scale_file() reads back as the same scale: name, source, tonic, reference,
/// period, degrees with what is known of each, remarks. Degrees stand as their author wrote them.
std::string scale_file_text(const Scale& scale);

} // namespace sectio
