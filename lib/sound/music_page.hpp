#pragma once
/// @file
/// Music that was made into sound as a page: what sounds, what was left out, and the caution for
/// the ears.

#include <sectio/page/page.hpp>
#include <sectio/sound/music.hpp>

namespace sectio::sound {

/// The caution that goes with every sound.
page::Paragraphs sound_caution();

/// `notes[]{start_s, seconds, hz, part}` and more; `tuning` says what tunes them.
page::Page music_page(const tuning::Performance& performance, const Music& music,
                      const std::string& tuning);

} // namespace sectio::sound
