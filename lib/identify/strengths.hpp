#pragma once
/// @file
/// Private to lib/identify: the figures of the model of a melody's progression. What each part
/// means in theory, and how the figures were found, is in docs/identification.md.

#include <array>
#include <cstddef>

namespace sectio {

/// The parts of a progression that are looked at.
enum class Stage { whole, beginning, opening, half_closes, close, cadence };
inline constexpr std::size_t stage_count = 6;

/// One stage: how much time the notes of a scale get, an ordinary degree getting 1, and for how
/// many independent notes the stage counts at most, notes of a melody being dependent.
struct StageStrength {
    double tonic, dominant, second;
    double width; ///< spread in cents of the heights about the stage's middle
    double counted;
};

/// What a melody is: written with signs for commas, written in the twelve notes of the staff,
/// heard.
enum class MelodyKind { written, staff, heard };
inline constexpr std::size_t melody_kinds = 3;

/// What differs between a melody as it is written and one as it was heard. Spreads in cents. The
/// tonic is known by its place in a stage, not by its time; the dominant is the second note of the
/// scale, and the progression shows it first of all. Phrases close on tonic and dominants.
struct Strengths {
    MelodyKind of_what;
    double spread;       ///< of a note about a degree of the chain of fifths next to the tonic
    double moved_spread; ///< about the other degrees, which practice moves by a comma and more
    double comma_off;    ///< share of notes that stand about a comma beside their degree
    double stray;        ///< share of notes that belong to no degree
    double common;       ///< log of the factor for scales named among the most used
    double most_used;    ///< log of a further factor for the few that hold most of the works
    bool sounded; ///< degrees stand where performers sound them, not where theory writes them
    double tonic_spread; ///< of the tonic about where it is said or heard to be, in cents
    double octave_share; ///< an octave of tonic or dominant has this share of its emphasis
    double time_power;   ///< in the whole a note counts by this power of its time
    double even_heights; ///< share of the heights of a stage that is spread evenly
    std::array<StageStrength, stage_count> stages;

    const StageStrength& of(Stage stage) const { return stages[static_cast<std::size_t>(stage)]; }
};

inline constexpr Strengths written_strengths{
    .of_what = MelodyKind::written,
    .spread = 7.5,
    .moved_spread = 7.5,
    .comma_off = 0.6,
    .stray = 0.3,
    .common = 1.5,
    .most_used = 1.66,
    .sounded = false,
    .tonic_spread = 0,
    .octave_share = 0.95,
    .time_power = 0.5,
    .even_heights = 0.3,
    .stages = {{{1, 2.4, 1.6, 900, 13.5},
                {2.2, 1, 1.5, 75, 1.1},
                {1, 7.5, 3, 90, 3.3},
                {115, 1.1, 1.1, 80, 2},
                {27, 1, 1.1, 280, 1.15},
                {4.5, 1.8, 1, 300, 3.6}}},
};
/// Written in twelve notes: accidentals are few, sizes are not said. In the whole tonic and
/// dominant have to the mean of the five others of a key what listeners gave them
/// (krumhansl-kessler-1982, seen as quoted: 6.35, 5.19 and 3.70 in major).
inline constexpr Strengths staff_strengths{
    .of_what = MelodyKind::staff,
    .spread = 15,
    .moved_spread = 15,
    .comma_off = 0,
    .stray = 0.08,
    .common = 1.5,
    .most_used = 1.66,
    .sounded = false,
    .tonic_spread = 0,
    .octave_share = 0.95,
    .time_power = 1,
    .even_heights = 0.2,
    .stages = {{{1.7, 1.4, 1.2, 900, 13.5},
                {2.2, 1, 1.5, 400, 1.1},
                {1, 3, 3, 400, 3.3},
                {5, 2, 1.1, 400, 2},
                {27, 1, 1.1, 280, 1.15},
                {4.5, 1.8, 1, 300, 3.6}}},
};
inline constexpr Strengths heard_strengths{
    .of_what = MelodyKind::heard,
    .spread = 12,
    .moved_spread = 21,
    .comma_off = 0,
    .stray = 0.05,
    .common = 3.25,
    .most_used = 1,
    .sounded = true,
    .tonic_spread = 11,
    .octave_share = 0.6,
    .time_power = 1,
    .even_heights = 0.33,
    .stages = {{{1, 2, 1.5, 900, 11},
                {3, 2, 1.5, 90, 1.1},
                {1, 6, 1.5, 120, 3.3},
                {50, 1, 2.5, 90, 1.65},
                {12, 2, 2.5, 300, 1.9},
                {4.5, 1.8, 1, 300, 0}}},
};

/// The note that a progression dwells on has this share of what a second dominant has above a
/// degree.
inline constexpr double dwelt_share = 0.7;
/// Notes that theory admits besides the degrees, in all stages.
inline constexpr double mobile_emphasis = 0.15;
/// A scale of whose progression nothing is known has its middle here, and wider stages.
inline constexpr double unknown_middle = 500, unknown_width = 1.6;

} // namespace sectio
