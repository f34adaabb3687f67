#pragma once
/// @file
/// The partials of a sound one by one, whatever they are partials of: of strings, bars, bells.

#include <sectio/measure/partials.hpp>

#include <optional>
#include <vector>

namespace sectio::measure {

/// By how much a level falls, in decibels a second: below 0 where it grows.
struct Decay {
    double db_s = 0;
    double half_width = 0;
};

/// A partial as it sounds. Half widths hold the truth 95 times of 100.
struct SoundingPartial {
    int number =
        0; ///< in the series of the note's pitch, 1 being the lowest; 0 where it is of none
    double hz = 0;
    double half_width_cents = 0;
    double level_db = 0;          ///< at the start, without the attack, beside the strongest
    std::optional<Decay> decay{}; ///< where it is known to 10 dB/s or to itself
};

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
