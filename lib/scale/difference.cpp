#include <sectio/base/limits.hpp>
#include <sectio/scale/difference.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

Difference at_shift(const Scale& a, const TunedScale& b, const Interval& shift) {
    Difference out;
    for (std::size_t i = 0; i < a.degrees.size(); ++i) {
        const Pitch moved = b.tonic().pitch + (a.degrees[i].interval - shift);
        const NearestDegree nearest = b.nearest(moved);
        out.degrees.push_back({i, nearest.at.degree, -nearest.rest});
    }
    return out;
}

/// The figures that follow from the pairs; the tonic is the degree 1/1 of the first scale.
Difference summed(Difference d, const Scale& a) {
    for (const DegreePair& pair : d.degrees) {
        d.max_error = std::max(d.max_error, absolute(pair.error));
        d.common += pair.error.is_unison() ? 1 : 0;
        if (a.degrees[pair.a].interval.is_unison())
            d.start_degree = pair.b, d.offset = pair.error;
    }
    return d;
}

TunedScale on_any_tonic(const Scale& scale) {
    return tuned(scale, {"C4", "A4 = 440 Hz"});
}

/// Sizes in octaves, for finding the place of the minimum.
std::vector<double> sizes(const Scale& scale) {
    std::vector<double> out;
    for (const Degree& degree : scale.degrees)
        out.push_back(degree.interval.is_unison() ? 0 : degree.interval.estimate().value);
    return out;
}

/// Sum of the squared errors about their mean, and that mean.
struct Fit {
    double square = 0, mean = 0;
};
Fit fit_of(double sum, double square, std::size_t count) {
    const double n = static_cast<double>(count);
    return {square - sum * sum / n, sum / n};
}

/// Of `a` against `b`, which rises within a period, moved by `shift`.
Fit fit_at(const std::vector<double>& a, const std::vector<double>& b, double period,
           double shift) {
    double sum = 0, square = 0;
    for (const double x : a) {
        const double at = x - shift - std::floor((x - shift - b.front()) / period) * period;
        const auto next = std::upper_bound(b.begin(), b.end(), at);
        const double above = next == b.end() ? b.front() + period : *next;
        const double below = next == b.begin() ? b.front() : *(next - 1);
        const double error = above - at < at - below ? above - at : below - at;
        sum += error, square += error * error;
    }
    return fit_of(sum, square, a.size());
}

/// A move at which a degree of the first scale lies half way between two neighbours of the second
/// and leaves the upper for the lower, `gap` below.
struct Change {
    double shift = 0, gap = 0;
};

/// All of one period, rising, from after the widest gap between two of them on, so that none lies
/// close before the first.
std::vector<Change> changes_of(const std::vector<double>& a, const std::vector<double>& b,
                               double period) {
    std::vector<Change> changes;
    changes.reserve(a.size() * b.size());
    for (std::size_t j = 0; j < b.size(); ++j) {
        const double next = j + 1 < b.size() ? b[j + 1] : b[0] + period;
        for (const double x : a)
            changes.push_back({std::remainder(x - (b[j] + next) / 2, period), next - b[j]});
    }
    std::sort(changes.begin(), changes.end(),
              [](const Change& x, const Change& y) { return x.shift < y.shift; });
    std::size_t first = 0;
    double widest = changes[0].shift + period - changes.back().shift;
    for (std::size_t i = 1; i < changes.size(); ++i)
        if (const double gap = changes[i].shift - changes[i - 1].shift; gap > widest)
            widest = gap, first = i;
    for (std::size_t i = 0; i < first; ++i)
        changes[i].shift += period;
    std::rotate(changes.begin(), changes.begin() + static_cast<std::ptrdiff_t>(first),
                changes.end());
    return changes;
}

/// The fit after a change, from the one at the move `from` before it: one error goes from half the
/// gap to minus half of it, all others grow with the move.
Fit after(const Fit& fit, double from, const Change& change, double to, double n) {
    const double mean = fit.mean + change.shift - from;
    return {fit.square + change.gap * (2 * mean - change.gap / n),
            mean - change.gap / n + to - change.shift};
}

/// The move of the smallest sum. While no degree changes its partner, the sum about the mean does
/// not change; partners change only where a degree lies half way between two neighbours of the
/// second scale, so that one place between each two such moves tries all there are. Each fit
/// follows from the one before; every so often one is taken again, lest errors of rounding add up,
/// but not where changes are so close that rounding decides between them.
double best_shift(const std::vector<double>& a, std::vector<double> b, double period) {
    constexpr double tie = 1e-12, close = 1e-9;
    std::sort(b.begin(), b.end());
    const std::vector<Change> changes = changes_of(a, b, period);
    double from = (changes.back().shift - period + changes[0].shift) / 2;
    double best = 0, least = fit_at(a, b, period, 0).square;
    Fit fit = fit_at(a, b, period, from);
    for (std::size_t i = 0, since = 0; i < changes.size(); ++i, ++since) {
        const double next =
            i + 1 < changes.size() ? changes[i + 1].shift : changes[0].shift + period;
        const double shift = (changes[i].shift + next) / 2;
        const bool anew = since >= a.size() && next - changes[i].shift > close;
        fit = anew ? fit_at(a, b, period, shift)
                   : after(fit, from, changes[i], shift, static_cast<double>(a.size()));
        since = anew ? 0 : since;
        from = shift;
        const double moved = std::remainder(shift - fit.mean, period);
        if (fit.square < least - tie
            || (fit.square < least + tie && std::abs(moved) < std::abs(best)))
            least = std::min(least, fit.square), best = moved;
    }
    return best;
}

} // namespace

std::vector<Interval> Difference::errors() const {
    std::vector<Interval> out;
    for (const DegreePair& pair : degrees)
        out.push_back(pair.error);
    return out;
}

Difference difference(const Scale& a, const Scale& b) {
    check_rules(a);
    return summed(at_shift(a, on_any_tonic(b), Interval()), a);
}

std::optional<Difference> best_difference(const Scale& a, const Scale& b) {
    check_rules(a), check_rules(b);
    if (!b.period)
        return std::nullopt;
    if (a.degrees.size() * b.degrees.size() > limits::compared_pairs)
        throw error(message::too_many_pairs, "", {}, limits::compared_pairs);
    const double octaves = best_shift(sizes(a), sizes(b), b.period->estimate().value);
    constexpr long cents_scale = 1'000'000;
    const auto millionths = static_cast<long>(std::llround(octaves * 1200 * cents_scale));
    Difference d = at_shift(a, on_any_tonic(b),
                            Interval::from_cents(Rational(Integer(millionths), cents_scale)));
    const Interval mean = sum(d.errors()) * Rational(1, static_cast<long>(d.degrees.size()));
    for (DegreePair& pair : d.degrees)
        pair.error = pair.error - mean;
    return summed(std::move(d), a);
}

} // namespace sectio
