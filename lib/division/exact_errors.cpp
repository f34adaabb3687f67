#include <sectio/division/exact_errors.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Coprime bases over which every one of the intervals is a product.
Factors common_bases(const Interval& period, const std::vector<TargetClass>& classes) {
    Factors bases;
    const auto refine = [&bases](const Interval& interval) {
        Factors refined;
        for (const AlignedFactor& f : aligned(bases, interval.factors()))
            refined.push_back({f.base, Rational(1), f.prime});
        std::sort(refined.begin(), refined.end(),
                  [](const Factor& a, const Factor& b) { return a.base < b.base; });
        bases = std::move(refined);
    };
    refine(period);
    for (const TargetClass& c : classes)
        refine(c.distance);
    return bases;
}

std::vector<Rational> exponents_over(const Factors& bases, const Interval& interval) {
    auto shared = aligned(bases, interval.factors());
    std::sort(shared.begin(), shared.end(),
              [](const AlignedFactor& a, const AlignedFactor& b) { return a.base < b.base; });
    std::vector<Rational> exponents;
    for (const AlignedFactor& f : shared)
        exponents.push_back(f.second);
    return exponents;
}

Integer whole(double weight) {
    return Integer(static_cast<long>(weight));
}

} // namespace

ExactErrors::ExactErrors(std::vector<TargetClass> classes, Interval period)
    : classes_(std::move(classes)), period_(std::move(period)) {
    const Factors bases = common_bases(period_, classes_);
    exponents_.push_back(exponents_over(bases, period_));
    for (const TargetClass& c : classes_) {
        exponents_.push_back(exponents_over(bases, c.distance));
        weight_ += c.weight;
    }
}

Integer ExactErrors::nearest(std::size_t target_class, std::int64_t steps) const {
    const TargetClass& target = classes_[target_class];
    const auto n = static_cast<double>(steps);
    const double error = screened_error(n, target.place);
    if (std::fabs(error) + n * screen_error < 0.5)
        return Integer(std::llround(n * target.place - error));
    return EqualDivision(steps, period_).nearest(target.distance);
}

std::vector<Integer> ExactErrors::all_nearest(std::int64_t steps) const {
    std::vector<Integer> result;
    for (std::size_t i = 0; i < classes_.size(); ++i)
        result.push_back(nearest(i, steps));
    return result;
}

Interval ExactErrors::error_of(const Worst& worst, std::int64_t steps) const {
    return absolute(period_ * Rational(worst.step, steps) - classes_[worst.target_class].distance);
}

ExactErrors::Worst ExactErrors::worst(std::int64_t steps) const {
    const auto n = static_cast<double>(steps);
    const auto error = [&](std::size_t i) {
        return std::fabs(screened_error(n, classes_[i].place));
    };
    double largest = 0;
    for (std::size_t i = 0; i < classes_.size(); ++i)
        largest = std::max(largest, error(i));
    std::optional<Worst> found;
    for (std::size_t i = 0; i < classes_.size(); ++i) {
        if (error(i) + 2 * n * screen_error < largest)
            continue;
        const Worst here{i, nearest(i, steps)};
        if (!found || error_of(here, steps) > error_of(*found, steps))
            found = here;
    }
    return *found;
}

bool ExactErrors::same_places(std::int64_t a, std::int64_t b) const {
    for (std::size_t i = 0; i < classes_.size(); ++i)
        if (nearest(i, a) * b != nearest(i, b) * a)
            return false;
    return true;
}

std::strong_ordering ExactErrors::compare(ErrorKind kind, std::int64_t a, std::int64_t b) const {
    if (a == b)
        return std::strong_ordering::equal;
    switch (kind) {
    case ErrorKind::max:
        return compare_worst(a, b);
    case ErrorKind::rms:
        return compare_rms(a, b);
    case ErrorKind::relative:
        break;
    }
    return Integer(a) * worst_error(a) <=> Integer(b) * worst_error(b);
}

std::strong_ordering ExactErrors::compare_worst(std::int64_t a, std::int64_t b) const {
    const Worst first = worst(a), second = worst(b);
    // The same place of the same target: no logarithm is needed to see the tie.
    if (first.target_class == second.target_class && first.step * b == second.step * a)
        return std::strong_ordering::equal;
    return error_of(first, a) <=> error_of(second, b);
}

std::strong_ordering ExactErrors::compare_rms(std::int64_t a, std::int64_t b) const {
    if (same_places(a, b) || square_form(a) == square_form(b))
        return std::strong_ordering::equal;
    const auto near_a = all_nearest(a), near_b = all_nearest(b);
    const int sign = certified_sign(
        [&](long bits) { return mean_square(near_a, a, bits) - mean_square(near_b, b, bits); });
    return sign < 0 ? std::strong_ordering::less : std::strong_ordering::greater;
}

/// The upper triangle of the matrix of the sum of squares, as a form in the logarithms of the
/// bases.
std::vector<Rational> ExactErrors::square_form(std::int64_t steps) const {
    const std::size_t bases = exponents_.front().size();
    std::vector<Rational> form(bases * (bases + 1) / 2);
    for (std::size_t i = 0; i < classes_.size(); ++i) {
        std::vector<Rational> error;
        const Rational place(nearest(i, steps), steps);
        for (std::size_t k = 0; k < bases; ++k)
            error.push_back(place * exponents_[0][k] - exponents_[i + 1][k]);
        std::size_t entry = 0;
        for (std::size_t k = 0; k < bases; ++k)
            for (std::size_t l = k; l < bases; ++l)
                form[entry++] += error[k] * error[l] * whole(classes_[i].weight);
    }
    return form;
}

Enclosure ExactErrors::mean_square(const std::vector<Integer>& nearest, std::int64_t steps,
                                   long bits) const {
    Enclosure sum(bits);
    const Enclosure period = period_.octaves(bits);
    for (std::size_t i = 0; i < classes_.size(); ++i) {
        const Enclosure error = Enclosure(Rational(nearest[i], steps), bits) * period
                                - classes_[i].distance.octaves(bits);
        sum = sum + error * error * Enclosure(whole(classes_[i].weight), bits);
    }
    return sum / Enclosure(whole(weight_), bits);
}

/// The mean square in square cents, if it is a rational number.
///
/// It is a sum of squares of forms in the logarithms of coprime bases, so its part in the square of
/// any logarithm but that of 2 is a sum of squares as well, and vanishes only where each error is a
/// power of 2. Only then is the root a rational number of cents or of half ones, if the logarithms
/// of primes are algebraically independent.
std::optional<Rational> ExactErrors::mean_square_of_cents(const std::vector<Integer>& nearest,
                                                          std::int64_t steps) const {
    Rational square(0);
    for (std::size_t i = 0; i < classes_.size(); ++i) {
        const Interval error = period_ * Rational(nearest[i], steps) - classes_[i].distance;
        const auto cents = error.exact_cents();
        if (!cents)
            return std::nullopt;
        square += *cents * *cents * whole(classes_[i].weight);
    }
    return square / whole(weight_);
}

Real ExactErrors::rms_cents(std::int64_t steps) const {
    const auto near = all_nearest(steps);
    if (const auto square = mean_square_of_cents(near, steps))
        return Real::root_of(*square);
    return Real::enclosed([this, near, steps](long bits) {
        return sqrt(mean_square(near, steps, bits)) * Enclosure(Integer(1200), bits);
    });
}

Real ExactErrors::worst_steps(std::int64_t steps) const {
    const Interval error = Integer(steps) * worst_error(steps);
    if (const auto exact = exact_quotient(error, period_))
        return *exact;
    return Real::enclosed(
        [this, error](long bits) { return error.octaves(bits) / period_.octaves(bits); });
}

} // namespace sectio
