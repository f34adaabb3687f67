#pragma once
/// @file
/// Distances counted in semitones of 12 equal steps: what keys, alterations and transpositions say.

#include <sectio/interval/interval.hpp>

namespace sectio {

/// So many semitones; a half of one is a quarter tone. A count of its own kind: it is neither a key
/// (a position) nor an interval, which it becomes by interval().
struct Semitones {
    Rational count{0};

    /// The distance as an exact interval.
    Interval interval() const { return Interval::octave() * (count / Integer(12)); }

    friend Semitones operator+(const Semitones& a, const Semitones& b) {
        return {a.count + b.count};
    }
    friend Semitones operator-(const Semitones& a, const Semitones& b) {
        return {a.count - b.count};
    }
    friend Semitones operator-(const Semitones& a) { return {-a.count}; }
    friend bool operator==(const Semitones&, const Semitones&) = default;
};

/// One of them.
inline const Interval& semitone() {
    static const Interval value = Semitones{Rational(1)}.interval();
    return value;
}

} // namespace sectio
