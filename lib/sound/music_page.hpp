#pragma once
/// @file
/// Music that was made into sound as a page: what sounds, what was left out, and the caution for
/// the ears.

#include <sectio/page/page.hpp>
#include <sectio/sound/music.hpp>

#include <vector>

namespace sectio::sound {

/// The caution that goes with every sound, which grows for `swell_s` seconds.
page::Paragraphs sound_caution(double swell_s);

/// Each in hertz, for people; for programs the first, `drone_hz`.
std::vector<page::Fact> drone_facts(const std::vector<Pitch>& drones);
/// For programs: `drones[]{hz}`.
page::Table drone_table(const std::vector<Pitch>& drones);

/// `notes[]{start_s, seconds, hz, part}` and more; `tuning` says what tunes them.
page::Page music_page(const tuning::Performance& performance, const Music& music,
                      const std::string& tuning);

} // namespace sectio::sound
