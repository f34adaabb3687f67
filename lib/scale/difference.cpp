#include <sectio/scale/difference.hpp>

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

/// Sum of the squared errors, and their mean, of `a` against `b` moved by `shift`.
struct Fit {
    double square = 0, mean = 0;
};
Fit fit_at(const std::vector<double>& a, const std::vector<double>& b, double period,
           double shift) {
    double sum = 0, square = 0;
    for (const double x : a) {
        double nearest = period;
        for (const double y : b)
            if (const double e = std::remainder(y + shift - x, period);
                std::abs(e) < std::abs(nearest))
                nearest = e;
        sum += nearest, square += nearest * nearest;
    }
    const double n = static_cast<double>(a.size());
    return {square - sum * sum / n, sum / n};
}

/// The move of the smallest sum. While no degree changes its partner, the sum about the mean does
/// not change; partners change only where a degree lies half way between two neighbours of the
/// second scale, so that one place between each two such moves tries all there are.
double best_shift(const std::vector<double>& a, std::vector<double> b, double period) {
    constexpr double tie = 1e-12;
    std::sort(b.begin(), b.end());
    std::vector<double> changes;
    for (std::size_t j = 0; j < b.size(); ++j) {
        const double next = j + 1 < b.size() ? b[j + 1] : b[0] + period;
        for (const double x : a)
            changes.push_back(std::remainder(x - (b[j] + next) / 2, period));
    }
    std::sort(changes.begin(), changes.end());
    double best = 0, least = fit_at(a, b, period, 0).square;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        const double next = i + 1 < changes.size() ? changes[i + 1] : changes[0] + period;
        const double shift = (changes[i] + next) / 2;
        const Fit fit = fit_at(a, b, period, shift);
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
    return summed(at_shift(a, on_any_tonic(b), Interval()), a);
}

std::optional<Difference> best_difference(const Scale& a, const Scale& b) {
    if (!b.period || a.degrees.empty())
        return std::nullopt;
    const double octaves = best_shift(sizes(a), sizes(b), b.period->estimate().value);
    constexpr long cents_scale = 1'000'000;
    const auto millionths = static_cast<long>(std::llround(octaves * 1200 * cents_scale));
    Difference d = at_shift(a, on_any_tonic(b),
                            Interval::from_cents(Rational(Integer(millionths), cents_scale)));
    const Interval mean =
        sum(d.errors())
        * Rational(1, static_cast<long>(std::max<std::size_t>(d.degrees.size(), 1)));
    for (DegreePair& pair : d.degrees)
        pair.error = pair.error - mean;
    return summed(std::move(d), a);
}

} // namespace sectio
