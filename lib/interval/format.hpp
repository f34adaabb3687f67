#pragma once
/// @file
/// Intervals and pitches in formatted text and streams: an interval as to_expression() writes it, a
/// pitch by its frequency to three digits after the point.
///
///     fmt::format("{:>8}", fifth)      std::cout << fifth

#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>

#include <fmt/format.h>

#include <ostream>

namespace sectio {

inline std::string display_text(const Interval& interval) {
    return to_expression(interval);
}
inline std::string display_text(const Pitch& pitch) {
    return pitch.hertz(3) + " Hz";
}

inline std::ostream& operator<<(std::ostream& out, const Interval& interval) {
    return out << display_text(interval);
}
inline std::ostream& operator<<(std::ostream& out, const Pitch& pitch) {
    return out << display_text(pitch);
}

} // namespace sectio

template <typename Value>
requires std::same_as<Value, sectio::Interval> || std::same_as<Value, sectio::Pitch>
struct fmt::formatter<Value> : fmt::formatter<std::string> {
    template <typename Context>
    auto format(const Value& value, Context& context) const {
        return fmt::formatter<std::string>::format(sectio::display_text(value), context);
    }
};
