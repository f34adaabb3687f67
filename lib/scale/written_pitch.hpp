#pragma once
/// @file
/// One measured pitch with its uncertainty, as people write it.

#include <sectio/interval/expression.hpp>
#include <sectio/interval/stated_pitch.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace sectio {

/// A pitch or an interval, as written, with the half width of its uncertainty.
struct WrittenValue {
    std::optional<StatedPitch> pitch; ///< where a sounding pitch was written
    Interval interval;                ///< else
    std::optional<Interval> uncertainty;
    std::string text; ///< of the value alone, with its unit
};

/// True where the text names a sounding pitch: a frequency in Hz or a note with its octave.
bool looks_like_pitch(std::string_view text);

/// Reads `440Hz±0.5Hz`, `440±0.5Hz`, `D4±3c`, `203±3c`, `3/2 +- 2c`; a number without unit takes
/// the unit of its uncertainty, as in (203 ± 3) c. Source of the notation: JCGM 100:2008, 7.2.2.
/// @throws Error expected_uncertainty, uncertainty_negative, and those of parse_interval()
WrittenValue parse_measured(std::string_view text, const Place& place, const NameLookup& names);

} // namespace sectio
