#pragma once
/// @file
/// A listening as a page: which note begins when, and the caution for the ears.

#include <sectio/page/page.hpp>
#include <sectio/sound/listening.hpp>

#include <string>

namespace sectio::sound {

/// `notes[]{start_s, hz}` and more; `name` is that of the scale.
page::Page listening_page(const Listening& listening, const std::string& name);

} // namespace sectio::sound
