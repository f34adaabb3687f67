#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/division/ranking.hpp>
#include <sectio/interval/messages.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

Targets checked(const Targets& targets, const Interval& period) {
    if (!(period > Interval()))
        throw error(message::period_not_rising, to_expression(period), {});
    return without_periods(targets, period);
}

/// `value` rounded to `digits`, if every number within `bound` of it rounds likewise.
std::optional<Integer> quickly_scaled(double value, double bound, int digits) {
    if (digits > 9)
        return std::nullopt;
    const double scale = std::pow(10.0, digits), scaled = value * scale;
    if (!(scaled < 0x1p40))
        return std::nullopt;
    // The product and the distance are rounded by 2^-53 of `scaled` each.
    const double slack = bound * scale * 1.01 + scaled * 0x1p-51;
    const double to_half = std::fabs(scaled - std::floor(scaled) - 0.5);
    if (to_half <= slack)
        return std::nullopt;
    return Integer(std::llround(scaled));
}

/// Errors in steps of one division, by doubles.
struct QuickErrors {
    double largest = 0, mean_square = 0;
};

QuickErrors quick_errors(const ExactErrors& exact, double division) {
    QuickErrors errors;
    for (const TargetClass& c : exact.classes()) {
        const double error = std::fabs(screened_error(division, c.place));
        errors.largest = std::max(errors.largest, error);
        errors.mean_square += c.weight * error * error;
    }
    errors.mean_square /= exact.weight();
    return errors;
}

} // namespace

void check_range(DivisionRange range) {
    for (const std::int64_t end : {range.from, range.to})
        if (end < 1 || end > limits::division_steps)
            throw error(message::division_out_of_range, fmt::to_string(end), {},
                        limits::division_steps);
    if (range.from > range.to)
        throw error(message::division_range_empty, "", {}, range.from, range.to);
}

/// What a table is made of.
struct ErrorTable::Figures {
    Figures(const Targets& asked, const Interval& period)
        : targets(checked(asked, period)), exact(target_classes(targets.intervals, period), period),
          period_cents(certified_double(
              [&](long bits) { return period.octaves(bits) * Enclosure(Integer(1200), bits); })),
          sums(target_sums(targets, period)) {
        for (const Interval& target : targets.intervals)
            sizes.push_back(quotient_of_sizes(target, period));
    }

    Integer nearest(std::size_t target, std::int64_t division) const;
    std::optional<bool> consistent(std::int64_t division) const;
    std::optional<std::size_t> worst_target(std::int64_t division, double largest) const;

    Targets targets;
    ExactErrors exact;
    double period_cents; ///< correctly rounded or next to it
    std::vector<TargetSum> sums;
    std::vector<double> sizes; ///< of the targets, in periods, correctly rounded or next to it
};

Integer ErrorTable::Figures::nearest(std::size_t target, std::int64_t division) const {
    const double x = static_cast<double>(division) * sizes[target], rounded = std::nearbyint(x);
    // Off by 2^-52 for the size and 2^-53 for the product, both relative.
    if (std::fabs(x) < 0x1p50 && std::fabs(x - rounded) + std::fabs(x) * 0x1p-51 < 0.5)
        return Integer(static_cast<std::int64_t>(rounded));
    return EqualDivision(division, exact.period()).nearest(targets.intervals[target]);
}

std::optional<bool> ErrorTable::Figures::consistent(std::int64_t division) const {
    if (sums.empty())
        return std::nullopt;
    return std::all_of(sums.begin(), sums.end(), [&](const TargetSum& s) {
        const Integer sum = s.sum ? nearest(*s.sum, division) : Integer(0);
        return nearest(s.first, division) + nearest(s.second, division)
               == sum + s.periods * division;
    });
}

/// `largest` is the largest error in steps as screened.
std::optional<std::size_t> ErrorTable::Figures::worst_target(std::int64_t division,
                                                             double largest) const {
    const ExactErrors::Worst worst = exact.worst(division);
    const bool none = largest <= static_cast<double>(division) * screen_error
                      && exact.error_of(worst, division).is_unison();
    return none ? std::nullopt : std::optional(exact.classes()[worst.target_class].first_target);
}

ErrorTable::ErrorTable(const Targets& targets, const Interval& period)
    : figures_(std::make_shared<const Figures>(targets, period)) {}

const std::vector<Interval>& ErrorTable::targets() const {
    return figures_->targets.intervals;
}

const Interval& ErrorTable::period() const {
    return figures_->exact.period();
}

ErrorRow ErrorTable::row(std::int64_t division) const {
    check_range({division, division});
    const ExactErrors& exact = figures_->exact;
    const double n = static_cast<double>(division), period = figures_->period_cents;
    const QuickErrors quick = quick_errors(exact, n);
    // By doubles where they decide a rounding, else exactly.
    const auto real = [&](double value, double bound,
                          Real (*exactly)(const ExactErrors&, std::int64_t)) {
        return Real::scaled_by([=, figures = figures_](int digits) {
            const auto scaled = quickly_scaled(value, bound, digits);
            return scaled ? *scaled : exactly(figures->exact, division).scaled(digits);
        });
    };
    // A root of a mean square moves no more than the errors do. The sums round by 2^-53 for each
    // target, and the period by 2^-52 of itself.
    const double relative = (exact.weight() + 16) * 0x1p-52;
    const auto in_cents = [&](double steps, Real (*exactly)(const ExactErrors&, std::int64_t)) {
        const double cents = steps / n * period;
        return real(cents, period * screen_error + cents * relative, exactly);
    };
    return {division,
            in_cents(quick.largest, [](const ExactErrors& e,
                                       std::int64_t d) { return size_in_cents(e.worst_error(d)); }),
            in_cents(std::sqrt(quick.mean_square),
                     [](const ExactErrors& e, std::int64_t d) { return e.rms_cents(d); }),
            real(quick.largest, n * screen_error,
                 [](const ExactErrors& e, std::int64_t d) { return e.worst_steps(d); }),
            figures_->worst_target(division, quick.largest),
            figures_->consistent(division)};
}

std::vector<std::int64_t> ErrorTable::records(ErrorKind kind, DivisionRange range,
                                              const Progress& progress) const {
    check_range(range);
    RecordKeeper keeper(figures_->exact, kind);
    scan(figures_->exact, {1, range.to}, progress, [&](const Screened& s) { keeper.visit(s); });
    return std::move(keeper).from(range.from);
}

ErrorTable::Records ErrorTable::records(DivisionRange range, const Progress& progress) const {
    check_range(range);
    RecordKeeper max(figures_->exact, ErrorKind::max), rms(figures_->exact, ErrorKind::rms);
    scan(figures_->exact, {1, range.to}, progress, [&](const Screened& s) {
        max.visit(s);
        rms.visit(s);
    });
    return {std::move(max).from(range.from), std::move(rms).from(range.from)};
}

std::vector<std::int64_t> ErrorTable::best(ErrorKind kind, DivisionRange range, std::int64_t count,
                                           const Progress& progress) const {
    check_range(range);
    count = std::min(count, range.to - range.from + 1);
    if (count > limits::listed_rows)
        throw error(message::too_many_rows, "", {}, limits::listed_rows);
    if (count < 1)
        return {};
    return first_ranks(figures_->exact, kind, range, static_cast<std::size_t>(count), progress);
}

} // namespace sectio
