#pragma once
/// @file
/// Private to lib/measure: the partials of a sound one by one, whatever they are partials of: of
/// strings, bars, bells.

#include <sectio/measure/note_pitch.hpp>
#include <sectio/measure/partials.hpp>

#include <vector>

namespace sectio::measure {

/// What is known of the note whose partials they are, by which they are numbered.
struct PartialSeries {
    double hz = 0; ///< of the lowest; 0 where there is no pitch
    double inharmonicity = 0;
    bool moves = false; ///< as in a vibrato: most phases keep to no line
};

/// Those of the peaks that stand 10 dB out of the noise of each spectrum for a while, rising: at
/// most 40, down to 60 dB below the strongest. The frequency is the slope of the phase, or, of a
/// vibrato, the mean of the maxima; the decay is the slope of the level in decibels by least
/// squares. Two that lie nearer than the spectra tell apart are one, whose half width covers both.
std::vector<SoundingPartial> sounding_partials(std::vector<Peak> peaks, const NoteSpectra& spectra,
                                               const PartialSeries& series = {});

} // namespace sectio::measure
