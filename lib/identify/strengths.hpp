#pragma once
/// @file
/// Private to lib/identify: the figures of the model of a melody's course. What each part means in
/// theory, and how the figures were found, is in docs/identification.md.

namespace sectio {

/// How much time the notes of a scale get in one stage of the course, an ordinary degree getting 1.
struct Emphasis {
    double tonic = 1, dominant = 1, second = 1, mobile = 1;
};

/// For how many independent notes each stage counts at most, notes of a melody being dependent.
struct Counted {
    double whole, beginning, opening, half_closes, close;
};

/// What differs between a melody as it is written and one as it was heard. Spreads in cents.
struct Strengths {
    double spread;       ///< of a note about a degree of the chain of fifths next to the tonic
    double moved_spread; ///< about the other degrees, which practice moves by a comma and more
    double comma_off;    ///< share of notes that stand about a comma beside their degree
    double stray;        ///< share of notes that belong to no degree
    Counted counted;
    double common; ///< log of the factor for scales named among the most used
    bool sounded;  ///< degrees stand where performers sound them, not where theory writes them
    double tonic_spread; ///< of the tonic about where it is said or heard to be, in cents
};

inline constexpr Strengths written_strengths{
    .spread = 6,
    .moved_spread = 6,
    .comma_off = 0.35,
    .stray = 0.22,
    .counted = {15, 1.5, 4.5, 2.25, 2.6},
    .common = 3.5,
    .sounded = false,
    .tonic_spread = 0,
};
inline constexpr Strengths heard_strengths{
    .spread = 12,
    .moved_spread = 21,
    .comma_off = 0,
    .stray = 0.05,
    .counted = {11, 1.1, 3.3, 1.65, 1.9},
    .common = 2.75,
    .sounded = true,
    .tonic_spread = 11,
};

/// The tonic is known by its place in a stage, not by its time; the dominant is the second note of
/// the scale, and the course shows it first of all. Phrases close on tonic and dominants.
inline constexpr Emphasis time_emphasis{1, 2, 1.5, 0.15};
inline constexpr Emphasis beginning_emphasis{3, 2, 1.5, 0.15};
inline constexpr Emphasis opening_emphasis{1, 6, 1.5, 0.15};
inline constexpr Emphasis half_close_emphasis{50, 1, 2.5, 0.15};
inline constexpr Emphasis close_emphasis{12, 2, 2.5, 0.15};
/// An octave of tonic or dominant has this share of its emphasis.
inline constexpr double octave_share = 0.6;

/// Spread in cents of the heights of a stage about its middle, and the share that is spread evenly.
inline constexpr double whole_width = 900, beginning_width = 90, opening_width = 120,
                        half_close_width = 90, close_width = 300;
inline constexpr double even_heights = 0.33;
/// A scale of whose course nothing is known has its middle here, and wider stages.
inline constexpr double unknown_middle = 500, unknown_width = 1.6;

} // namespace sectio
