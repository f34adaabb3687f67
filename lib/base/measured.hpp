#pragma once
/// @file
/// A figure that was measured, with how far it may be off and what it rests on.

#include <sectio/base/argument.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace sectio {

/// What a figure rests on.
enum class Basis {
    stated,    ///< written down by someone, who says no more of it
    ruler,     ///< a length
    tuner,     ///< the display of a tuner
    recording, ///< the sound of one
    scatter,   ///< several readings, of which this is the mean
    computed,  ///< other figures
};

/// The enumerator's own name.
constexpr std::string_view text(Basis basis) {
    constexpr std::string_view names[]{"stated",    "ruler",   "tuner",
                                       "recording", "scatter", "computed"};
    return row_for(names, basis);
}

/// A figure and its half width: the value lies within figure ± half width. None means exact.
///
/// Half widths are printed by one rule: a figure has no more digits than its half width supports,
/// and a half width is rounded up (JCGM 100:2008, 7.2.6).
template <typename Figure, typename Width = Figure>
struct Measured {
    Figure figure;
    std::optional<Width> half_width;
    Basis basis = Basis::stated;

    bool exact() const { return !half_width; }
    friend bool operator==(const Measured&, const Measured&) = default;
};

} // namespace sectio
