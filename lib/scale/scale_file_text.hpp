#pragma once
/// @file
/// A scale as a scale file.

#include <sectio/scale/scale.hpp>

#include <string>

namespace sectio {

/// The scale as TOML that read_scale_file() reads back as the same scale (docs/scale-files.md);
/// its catalogue id is not kept. Degrees stand as they were written, unless that needs the
/// catalogue.
std::string scale_file_text(const Scale& scale);

} // namespace sectio
