#pragma once
/// @file
/// Scales as scale files.

#include <sectio/scale/scale.hpp>

#include <string>

namespace sectio {

/// The text of a scale file (TOML; docs/scale-files.md) that read_scale_file() reads back as the
/// same scale: intervals exactly, the tonic 1/1 only where it carries a name.
std::string scale_file_text(const Scale& scale);

} // namespace sectio
