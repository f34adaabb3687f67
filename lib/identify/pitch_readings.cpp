#include <sectio/division/division.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/pitch_readings.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sectio {

namespace {

/// Ratios are looked at with odd parts of both terms up to this: what the trade names.
constexpr int largest_odd_term = 45;
/// Readings farther away than this are none, in cents.
constexpr double reach = 50;
constexpr std::size_t most_readings = 4;
/// Nobody looks through the readings of more pitches.
constexpr std::size_t most_read = 1000;
constexpr double negligible = 1e-3;

struct Reading {
    Interval interval;
    std::string expression;
    double cents;
    double prior;
};

/// All a/b with odd a and b within one octave. A ratio p/q there is as probable as it is simple:
/// 1 / (p q). Source of the measure: J. Tenney's harmonic distance, log(pq) (J. Tenney, "John Cage
/// and the Theory of Harmony", 1983). With the factors of 2: 32/29 is no simpler than 10/9.
const std::vector<Reading>& ratios_in_octave() {
    static const std::vector<Reading> ratios = [] {
        std::vector<Reading> all;
        for (int a = 1; a <= largest_odd_term; a += 2)
            for (int b = 1; b <= largest_odd_term; b += 2)
                if (std::gcd(a, b) == 1) {
                    const Interval r = reduced(Interval::from_ratio(a, b));
                    const Rational terms = *r.ratio();
                    const Integer product = terms.numerator() * terms.denominator();
                    all.push_back({r, "", cents_of(r), 1.0 / product.convert_to<double>()});
                }
        double sum = 0;
        for (const Reading& r : all)
            sum += r.prior;
        for (Reading& r : all)
            r.prior /= 2 * sum; // half for the ratios, a quarter for each division
        return all;
    }();
    return ratios;
}

void add_ratios(std::vector<Reading>& readings, double cents) {
    const double octaves = std::floor(cents / 1200);
    for (const Reading& ratio : ratios_in_octave())
        for (const double octave : {octaves - 1, octaves, octaves + 1}) {
            const double size = ratio.cents + 1200 * octave;
            if (std::abs(size - cents) > reach)
                continue;
            const Interval r =
                ratio.interval + Integer(static_cast<long>(octave)) * Interval::octave();
            readings.push_back({r, to_expression(r), size, ratio.prior});
        }
}

void add_steps(std::vector<Reading>& readings, const Interval& pitch, int steps) {
    const EqualDivision division{Integer(steps)};
    const Integer nearest = division.nearest(pitch);
    for (int d = -2; d <= 2; ++d) {
        const Interval step = division.at(nearest + d);
        const std::string text = step.is_ratio()
                                     ? to_expression(step)
                                     : fmt::format("{}of{}", Integer(nearest + d).str(), steps);
        readings.push_back({step, text, cents_of(step), 0.25 / steps});
    }
}

/// Density of a deviation, the spreads being equally probable.
double mean_density(double away, double measurement_variance, const std::vector<double>& spreads) {
    double sum = 0;
    for (const double spread : spreads) {
        const double variance = spread * spread + measurement_variance;
        sum += std::exp(-away * away / (2 * variance)) / std::sqrt(variance);
    }
    return sum;
}

std::vector<PitchReading> readings_of(const Interval& pitch, const PitchOfSet& measured,
                                      const std::vector<double>& spreads) {
    std::vector<Reading> readings;
    add_ratios(readings, measured.cents);
    for (const int steps : {12, 53})
        add_steps(readings, pitch, steps);
    double sum = 0;
    for (Reading& r : readings) {
        const double away = r.cents - measured.cents;
        r.prior *= std::abs(away) > reach ? 0 : mean_density(away, measured.variance, spreads);
        sum += r.prior;
    }
    std::stable_sort(readings.begin(), readings.end(),
                     [](const Reading& a, const Reading& b) { return a.prior > b.prior; });
    std::vector<PitchReading> best;
    for (const Reading& r : readings) {
        const auto same = std::find_if(best.begin(), best.end(), [&](const PitchReading& other) {
            return other.expression == r.expression;
        });
        if (same != best.end()) // 1/1 is a ratio and a step of both divisions
            same->likelihood += r.prior / sum;
        else if (best.size() < most_readings)
            best.push_back({r.expression, r.interval - pitch, r.prior / sum});
        else if (r.prior < sum * negligible)
            break;
    }
    std::stable_sort(best.begin(), best.end(), [](const PitchReading& a, const PitchReading& b) {
        return a.likelihood > b.likelihood;
    });
    while (best.size() > 1 && best.back().likelihood < negligible)
        best.pop_back();
    return best;
}

} // namespace

std::vector<IdentifiedPitch> pitch_readings(const PitchSet& set,
                                            const std::vector<double>& spreads) {
    std::vector<IdentifiedPitch> pitches;
    const bool few = set.pitches.size() <= most_read;
    for (std::size_t i = 0; i < set.pitches.size(); ++i)
        pitches.push_back(
            {set.intervals[i], few ? readings_of(set.intervals[i], set.pitches[i], spreads)
                                   : std::vector<PitchReading>()});
    return pitches;
}

} // namespace sectio
