#pragma once
/// @file
/// The pitch of one note, as finely as its sound tells it, and its partials.

#include <sectio/measure/soft_sound.hpp>

#include <optional>

namespace sectio::measure {

/// Why a note has no pitch that could be stated.
enum class NoteTrouble {
    none,
    too_short,     ///< fewer than four periods
    several_notes, ///< partials of more than one pitch
    no_partials,   ///< nothing stands out of the noise
};

/// What was measured of one note.
struct NotePitch {
    NoteTrouble trouble = NoteTrouble::none;
    double hz = 0;               ///< of the lowest partial, sounding or not
    double half_width_cents = 0; ///< holds the truth 95 times of 100
    int partials = 0;            ///< that the pitch was found from; 0 where from periods alone
    double inharmonicity = 0;    ///< B of Fletcher's model
    double inharmonicity_half_width = 0;
    double glide_cents = 0;         ///< start of the note above the settled pitch
    double settled_s = 0;           ///< from the note's start to the part that was measured
    double wander_cents = 0;        ///< standard deviation of the pitch within the settled part
    std::optional<SoftSound> below; ///< what rings on below the note
};

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

} // namespace sectio::measure
