#pragma once
/// @file
/// What became of music that was performed, as a page.

#include <sectio/page/page.hpp>
#include <sectio/tuning/perform.hpp>

namespace sectio::tuning {

/// `tuning` names it, as a legend does.
page::Page performance_page(const Performance& music, const Performed& performed,
                            const PerformOptions& options, const std::string& tuning);

/// What is to be said of notes that their file bends, as one that is tuned already does.
/// Precondition: `music.begun_bent` is above 0.
std::string bent_caution(const Performance& music);

} // namespace sectio::tuning
