#include <sectio/measure/statistics.hpp>
#include <sectio/measure/vibrato.hpp>

#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace sectio::measure {

namespace {

constexpr double slowest_hz = 3.5, fastest_hz = 9, rate_step_hz = 0.1;
constexpr double least_turns = 1.5, least_depth = 2, accounted_for = 0.5;
constexpr std::size_t terms = 4, least_values = 14;

using Row = std::array<double, terms>;

/// Mean, drift, cosine and sine; the sum of squares that they leave; and the mean's part of the
/// inverse of the normal equations.
struct Fit {
    Row x{};
    double left = 0;
    double mean_factor = 0;
    std::vector<double> rests; ///< what it leaves of each value
};

Row row_of(double t, double rate_hz) {
    const double radians = 2 * std::numbers::pi * rate_hz * t;
    return {1, t, std::cos(radians), std::sin(radians)};
}

/// Gauss and Jordan, on a symmetric matrix that is no singular one.
void solve(std::array<std::array<double, terms + 2>, terms>& a, std::size_t used) {
    for (std::size_t i = 0; i < used; ++i) {
        const double pivot = a[i][i];
        for (double& value : a[i])
            value /= pivot;
        for (std::size_t k = 0; k < used; ++k) {
            if (k == i)
                continue;
            const double factor = a[k][i];
            for (std::size_t j = 0; j < terms + 2; ++j)
                a[k][j] -= factor * a[i][j];
        }
    }
}

Fit fit(const std::vector<double>& cents, double step_s, double rate_hz, std::size_t used) {
    std::array<std::array<double, terms + 2>, terms> a{};
    const double middle = static_cast<double>(cents.size() - 1) / 2;
    const auto row_at = [&](std::size_t i) {
        return row_of((static_cast<double>(i) - middle) * step_s, rate_hz);
    };
    for (std::size_t i = 0; i < cents.size(); ++i) {
        const Row row = row_at(i);
        for (std::size_t k = 0; k < used; ++k) {
            for (std::size_t j = 0; j < used; ++j)
                a[k][j] += row[k] * row[j];
            a[k][terms] += row[k] * (cents[i] - cents[0]);
        }
    }
    a[0][terms + 1] = 1;
    solve(a, used);
    Fit result;
    for (std::size_t k = 0; k < used; ++k)
        result.x[k] = a[k][terms];
    result.mean_factor = a[0][terms + 1];
    for (std::size_t i = 0; i < cents.size(); ++i) {
        const Row row = row_at(i);
        double rest = cents[i] - cents[0];
        for (std::size_t k = 0; k < used; ++k)
            rest -= result.x[k] * row[k];
        result.left += rest * rest;
        result.rests.push_back(rest);
    }
    return result;
}

/// The means of so many values each, as far as they go whole.
std::vector<double> means_over(const std::vector<double>& values, double length) {
    std::vector<double> means;
    for (double from = 0; from + length <= static_cast<double>(values.size()); from += length) {
        const auto first = values.begin() + static_cast<std::ptrdiff_t>(from),
                   last = values.begin() + static_cast<std::ptrdiff_t>(from + length);
        means.push_back(std::accumulate(first, last, 0.0) / static_cast<double>(last - first));
    }
    return means;
}

} // namespace

std::optional<Vibrato> vibrato_of(const std::vector<double>& cents, double step_s) {
    if (cents.size() < least_values)
        return std::nullopt;
    const double seconds = step_s * static_cast<double>(cents.size());
    const double drifting = fit(cents, step_s, 0, 2).left;
    Fit best;
    double rate = 0;
    for (double hz = std::max(slowest_hz, least_turns / seconds); hz < fastest_hz;
         hz += rate_step_hz)
        if (const Fit now = fit(cents, step_s, hz, terms); rate == 0 || now.left < best.left)
            best = now, rate = hz;
    const double depth = std::hypot(best.x[2], best.x[3]);
    if (rate == 0 || depth < least_depth || best.left > (1 - accounted_for) * drifting)
        return std::nullopt;
    // What the fit leaves in half a turn hardly tells of the next.
    const double half_turn = 1 / (2 * rate * step_s);
    const std::vector<double> means = means_over(best.rests, half_turn);
    const double freedom = std::max(1.0, static_cast<double>(means.size()) - 2);
    double squares = 0;
    for (const double mean : means)
        squares += mean * mean;
    const double variance = squares / freedom * half_turn * best.mean_factor;
    // Standard deviation of the mean of a sinusoid over so many turns, wherever they begin.
    const double unfinished = depth / (2 * std::numbers::pi * rate * seconds);
    return Vibrato{cents[0] + best.x[0],
                   std::hypot(student_95(static_cast<int>(freedom)) * std::sqrt(variance),
                              normal_95 * unfinished),
                   depth, rate};
}

bool is_passing(const std::vector<double>& cents, double step_s) {
    constexpr double least_cents = 25, least_cents_a_second = 110, straight = 0.8;
    if (cents.size() < 3)
        return false;
    const double seconds = step_s * static_cast<double>(cents.size());
    const double way = fit(cents, step_s, 0, 2).x[1] * seconds;
    double level = 0, centre = 0;
    for (const double c : cents)
        centre += c / static_cast<double>(cents.size());
    for (const double c : cents)
        level += std::pow(c - centre, 2);
    return std::abs(way) > least_cents && std::abs(way) > least_cents_a_second * seconds
           && fit(cents, step_s, 0, 2).left < (1 - straight) * level;
}

NotePitch swinging_pitch(const Vibrato& vibrato) {
    NotePitch note;
    note.hz = std::exp2(vibrato.mean_cents / 1200);
    note.wander_cents = vibrato.depth_cents / std::sqrt(2.0);
    note.half_width_cents = vibrato.half_width_cents;
    return note;
}

NotePitch moving_pitch(const std::vector<TrackFrame>& track, const std::vector<double>& cents,
                       double centre, double deviation, double step_s) {
    // A moving pitch must be clear, lest it be made of two.
    constexpr double least_clarity = 0.8;
    constexpr std::size_t least_frames = 3; // fewer say nothing of how far it moves
    NotePitch note;
    std::vector<double> clarity;
    for (const TrackFrame& frame : track)
        clarity.push_back(static_cast<double>(frame.clarity));
    if (median(clarity) < least_clarity)
        note.trouble = NoteTrouble::several_notes;
    if (cents.size() < least_frames)
        note.trouble = NoteTrouble::too_short;
    note.hz = std::exp2(centre / 1200);
    note.wander_cents = deviation;
    note.half_width_cents =
        moving_half_width(deviation, static_cast<double>(cents.size()) * step_s);
    return note;
}

} // namespace sectio::measure
