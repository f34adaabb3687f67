#pragma once
/// @file
/// Private to lib/division: the exact part of error tables, what the screen leaves open.

#include <sectio/division/division.hpp>
#include <sectio/division/error_kind.hpp>
#include <sectio/division/screen.hpp>
#include <sectio/interval/real.hpp>

#include <compare>
#include <optional>
#include <vector>

namespace sectio {

/// Exact errors of the targets of some classes in divisions of one period.
class ExactErrors {
  public:
    ExactErrors(std::vector<TargetClass> classes, Interval period);

    const std::vector<TargetClass>& classes() const { return classes_; }
    const Interval& period() const { return period_; }
    /// How many targets there are in all classes together.
    double weight() const { return weight_; }

    /// The largest absolute error of a division.
    struct Worst {
        std::size_t target_class; ///< of the classes with that error the first
        Integer step;             ///< the step nearest to its distance
    };
    Worst worst(std::int64_t steps) const;
    /// That error, as an interval that does not fall.
    Interval error_of(const Worst& worst, std::int64_t steps) const;
    Interval worst_error(std::int64_t steps) const { return error_of(worst(steps), steps); }

    /// Which division errs less.
    ///
    /// Largest errors, and so many times them, are intervals, whose order is decided always. A mean
    /// square is a quadratic form in the logarithms of coprime numbers. Two that are equal as forms
    /// are equal, and that is tested first. Two that differ as forms differ as numbers if the
    /// logarithms of different primes are algebraically independent, as Schanuel's conjecture
    /// implies; enclosures then separate them. Nothing rests on the conjecture but that this ends.
    /// @throws Error order_undecided
    std::strong_ordering compare(ErrorKind kind, std::int64_t a, std::int64_t b) const;

    /// The root of the mean square in cents. Lives as long as this does.
    Real rms_cents(std::int64_t steps) const;
    /// The largest error in steps of the division likewise.
    Real worst_steps(std::int64_t steps) const;

  private:
    Integer nearest(std::size_t target_class, std::int64_t steps) const;
    std::vector<Integer> all_nearest(std::int64_t steps) const;
    bool same_places(std::int64_t a, std::int64_t b) const;
    std::strong_ordering compare_worst(std::int64_t a, std::int64_t b) const;
    std::strong_ordering compare_rms(std::int64_t a, std::int64_t b) const;
    std::vector<Rational> square_form(std::int64_t steps) const;
    std::optional<Rational> mean_square_of_cents(const std::vector<Integer>& nearest,
                                                 std::int64_t steps) const;
    Enclosure mean_square(const std::vector<Integer>& nearest, std::int64_t steps, long bits) const;

    std::vector<TargetClass> classes_;
    Interval period_;
    double weight_ = 0;
    /// Exponents of the period, then of each class's distance, over common coprime bases.
    std::vector<std::vector<Rational>> exponents_;
};

} // namespace sectio
