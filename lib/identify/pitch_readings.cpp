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

struct Ratio {
    Interval interval;
    double cents, prior;
    std::string text;
};

/// A ratio with octaves added, or a step of a division; exact only when it is told.
struct Reading {
    const Ratio* ratio; ///< none of a step
    int number;         ///< of octaves, or of the step
    int steps;          ///< of the division
    double away;        ///< in cents, above what was measured
    double prior;

    bool is(const Reading& other) const {
        return ratio == other.ratio && number == other.number && steps == other.steps;
    }
    Interval interval() const {
        return ratio ? ratio->interval + Integer(number) * Interval::octave()
                     : EqualDivision{Integer(steps)}.at(Integer(number));
    }
    /// A ratio as it stands in the table.
    bool is_known() const { return ratio && number == 0; }
};

/// All a/b with odd a and b within one octave, 1/1 first. A ratio p/q there is as probable as it is
/// simple: 1 / (p q). Source of the measure: J. Tenney's harmonic distance, log(pq) (J. Tenney,
/// "John Cage and the Theory of Harmony", 1983). With the factors of 2: 32/29 is no simpler than
/// 10/9.
const std::vector<Ratio>& ratios_in_octave() {
    static const std::vector<Ratio> ratios = [] {
        std::vector<Ratio> all;
        for (int a = 1; a <= largest_odd_term; a += 2)
            for (int b = 1; b <= largest_odd_term; b += 2)
                if (std::gcd(a, b) == 1) {
                    const Interval r = reduced(Interval::from_ratio(a, b));
                    const Rational terms = *r.ratio();
                    const Integer product = terms.numerator() * terms.denominator();
                    all.push_back(
                        {r, cents_of(r), 1.0 / product.convert_to<double>(), to_expression(r)});
                }
        double sum = 0;
        for (const Ratio& r : all)
            sum += r.prior;
        for (Ratio& r : all)
            r.prior /= 2 * sum; // half for the ratios, a quarter for each division
        return all;
    }();
    return ratios;
}

/// To a millionth of a cent, so that what lies equally far on both sides does.
double apart(double reading, double measured) {
    constexpr double parts = 1e6;
    return std::round((reading - measured) * parts) / parts;
}

void add_ratios(std::vector<Reading>& readings, double cents) {
    const int octaves = static_cast<int>(std::floor(cents / 1200));
    for (const Ratio& ratio : ratios_in_octave())
        for (const int octave : {octaves - 1, octaves, octaves + 1}) {
            const double at = ratio.cents + 1200.0 * octave;
            if (std::abs(at - cents) > reach + 1) // without rounding
                continue;
            const double away = apart(at, cents);
            if (std::abs(away) <= reach)
                readings.push_back({&ratio, octave, 0, away, ratio.prior});
        }
}

/// Farther steps than these lie out of reach, whichever of two is taken for the nearest.
void add_steps(std::vector<Reading>& readings, double cents, int steps) {
    const int nearest = static_cast<int>(std::lround(cents * steps / 1200));
    for (int step = nearest - 2; step <= nearest + 2; ++step) {
        const double away = apart(1200.0 * step / steps, cents), prior = 0.25 / steps;
        if (std::abs(away) > reach)
            continue;
        if (step % steps == 0)
            readings.push_back({ratios_in_octave().data(), step / steps, 0, away, prior});
        else
            readings.push_back({nullptr, step, steps, away, prior});
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

std::string text(const Reading& reading) {
    if (reading.is_known())
        return reading.ratio->text;
    return reading.ratio ? to_expression(reading.interval())
                         : fmt::format("{}of{}", reading.number, reading.steps);
}

std::vector<PitchReading> readings_of(const Interval& pitch, const PitchOfSet& measured,
                                      const std::vector<double>& spreads) {
    std::vector<Reading> readings;
    add_ratios(readings, measured.cents);
    for (const int steps : {12, 53})
        add_steps(readings, measured.cents, steps);
    double sum = 0;
    for (Reading& r : readings)
        sum += r.prior *= mean_density(r.away, measured.variance, spreads);
    const auto likelier = [](const Reading& a, const Reading& b) { return a.prior > b.prior; };
    std::stable_sort(readings.begin(), readings.end(), likelier);
    std::vector<Reading> best;
    for (const Reading& r : readings) {
        const auto same = std::find_if(best.begin(), best.end(),
                                       [&](const Reading& other) { return other.is(r); });
        if (same != best.end()) // 1/1 is a ratio and a step of both divisions
            same->prior += r.prior;
        else if (best.size() < most_readings)
            best.push_back(r);
        else if (r.prior < sum * negligible)
            break;
    }
    std::stable_sort(best.begin(), best.end(), likelier);
    std::vector<PitchReading> told;
    for (const Reading& r : best)
        if (told.empty() || r.prior >= sum * negligible)
            told.push_back({text(r), (r.is_known() ? r.ratio->interval : r.interval()) - pitch,
                            r.prior / sum});
    return told;
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
