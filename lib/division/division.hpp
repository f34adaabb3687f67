#pragma once
/// @file
/// Equal divisions of a period, and the step of one that lies nearest to an interval.

#include <sectio/base/error.hpp>
#include <sectio/interval/interval.hpp>

#include <string>

namespace sectio {

/// `steps` equal parts of `period`: 12 of the octave, 13 of 3/1.
class EqualDivision {
  public:
    /// @throws Error zero_division for steps < 1, period_not_rising unless period > 1/1
    explicit EqualDivision(Integer steps, Interval period = Interval::octave());

    const Integer& steps() const { return steps_; }
    const Interval& period() const { return period_; }
    /// The interval of `step` steps from the start; negative ones go down.
    Interval at(const Integer& step) const { return period_ * Rational(step, steps_); }

    /// The step nearest to `target`, decided exactly. A target exactly half way between two steps
    /// goes to the lower one: a string is stopped flat rather than sharp (our own rule).
    Integer nearest(const Interval& target) const;
    /// How far step `nearest(target)` lies above `target`: step minus target, so that a step that
    /// is too low has a falling interval (negative cents).
    Interval error(const Interval& target) const { return at(nearest(target)) - target; }

    /// "12", "13 of 3/1": as sheets and messages call it.
    std::string text() const;
    friend bool operator==(const EqualDivision& a, const EqualDivision& b) = default;

  private:
    Integer steps_;
    Interval period_;
};

/// Reads `53` or `13(3/1)`, as in `--against 12,53,13(3/1)`.
/// @throws Error with the piece and its place
EqualDivision parse_division(std::string_view text, const Place& place = {});

} // namespace sectio
