#include <sectio/measure/phase_slope.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace sectio::measure {

namespace {

constexpr double turn = 2 * std::numbers::pi;
/// Power over noise below which a phase says nothing.
constexpr double least_above_noise = 4;
/// Correlation of the noise in two Hann windows that lie k quarters apart: the window's
/// autocorrelation, Σ w(j) w(j + kN/4) / Σ w(j)².
constexpr std::array<double, 4> overlap = {1.0, 0.6592, 1.0 / 6.0, 0.0075};

} // namespace

PartialPhase::PartialPhase(const NoteSpectra& spectra, double about_hz)
    : reference_hz_(about_hz), frame_seconds_(static_cast<double>(spectra.hop) / spectra.rate) {
    const auto bin = static_cast<std::size_t>(std::lround(spectra.bin(about_hz)));
    const double noise = std::max(static_cast<double>(spectra.noise[bin]), 1e-30);
    for (std::size_t m = 0; m < spectra.frames.size(); ++m) {
        const std::complex<double> value(spectra.frames[m][bin]);
        const double back =
            -turn * std::fmod(about_hz * frame_seconds_ * static_cast<double>(m), 1.0);
        values_.push_back(value * std::polar(1.0, back));
        const double above = power_of(value) / noise;
        weight_.push_back(above < least_above_noise ? 0.0 : above);
    }
}

PartialPhase::PartialPhase(const PartialPhase& lower, int times, const PartialPhase& higher)
    : reference_hz_(times * lower.reference_hz_ - higher.reference_hz_),
      frame_seconds_(lower.frame_seconds_) {
    for (std::size_t m = 0; m < lower.values_.size(); ++m) {
        values_.push_back(
            std::polar(1.0, times * std::arg(lower.values_[m]) - std::arg(higher.values_[m])));
        weight_.push_back(std::min(lower.weight_[m], higher.weight_[m]));
    }
}

/// The turn from a frame to the next, then over 2, 4, 8 … frames, each known well enough by the one
/// before to choose the whole turns. In turns a frame.
double PartialPhase::coarse_slope(std::size_t first, std::size_t last) const {
    double slope = 0;
    for (std::size_t lag = 1; 2 * lag <= last - first; lag *= 2) {
        std::complex<double> sum = 0;
        for (std::size_t m = first; m + lag < last; ++m)
            if (weight_[m] > 0 && weight_[m + lag] > 0)
                sum += values_[m + lag] * std::conj(values_[m]);
        if (sum == 0.0)
            break;
        const double step = static_cast<double>(lag);
        const double left = std::arg(sum * std::polar(1.0, -turn * slope * step)) / turn;
        slope += left / step;
    }
    return slope;
}

PartialPhase::Course PartialPhase::course(std::size_t first, std::size_t last, double slope) const {
    Course course;
    double moment = 0;
    for (std::size_t m = first; m < last; ++m) {
        const double back = -turn * std::fmod(slope * static_cast<double>(m), 1.0);
        course.turned.push_back(values_[m] * std::polar(1.0, back));
        if (weight_[m] == 0)
            continue;
        course.mean += course.turned.back();
        course.amplitudes += std::abs(values_[m]);
        course.weight += weight_[m], moment += weight_[m] * static_cast<double>(m), ++course.used;
    }
    course.middle = moment / course.weight;
    return course;
}

/// Error of phase m: variance 1/(2 weight); the slope is Σ c(m) phase(m), c = weight·t/stt, where
/// stt = Σ weight·t². This is Σ Σ c(m) c(m + k) overlap(k) without the factor 1/stt².
double PartialPhase::scaled_variance(std::size_t first, std::size_t last, double middle) const {
    double variance = 0;
    for (std::size_t m = first; m < last; ++m)
        for (std::size_t k = 0; k < overlap.size() && m + k < last; ++k) {
            const double a = std::sqrt(weight_[m] / 2) * (static_cast<double>(m) - middle);
            const double b = std::sqrt(weight_[m + k] / 2) * (static_cast<double>(m + k) - middle);
            variance += (k == 0 ? 1.0 : 2.0) * overlap[k] * a * b;
        }
    return variance;
}

/// Standard deviation, in turns a frame, of what sounds at this place: by how much a frame is no
/// mere multiple of the one before, as it is of a single partial that dies away.
double PartialPhase::spread(std::size_t first, std::size_t last) const {
    std::complex<double> common = 0;
    double before = 0, after = 0;
    for (std::size_t m = first; m + 1 < last; ++m) {
        common += values_[m + 1] * std::conj(values_[m]);
        before += power_of(values_[m]), after += power_of(values_[m + 1]);
    }
    return before > 0 && after > 0
               ? std::sqrt(std::max(0.0, 1 - power_of(common) / (before * after))) / turn
               : 0;
}

Frequency PartialPhase::step(std::size_t m, double nearest_hz) const {
    if (weight_[m] == 0 || weight_[m + 1] == 0)
        return {};
    const double back = -turn * std::fmod((nearest_hz - reference_hz_) * frame_seconds_, 1.0);
    const double hertz_per_radian = 1 / (turn * frame_seconds_);
    const double off = std::arg(values_[m + 1] * std::conj(values_[m]) * std::polar(1.0, back));
    const double noise = (1 - overlap[1]) * (1 / weight_[m] + 1 / weight_[m + 1]) / 2;
    return {nearest_hz + off * hertz_per_radian, noise * hertz_per_radian * hertz_per_radian, 1};
}

void PartialPhase::turn_back(const std::vector<double>& cents, double hz) {
    double turns = 0;
    for (std::size_t m = 1; m < values_.size(); ++m) {
        turns -= m <= cents.size() ? frame_seconds_ * hz * cents[m - 1] / cents_per_e : 0;
        values_[m] *= std::polar(1.0, turn * turns);
    }
}

double PartialPhase::power(std::size_t first, std::size_t last) const {
    double sum = 0;
    for (std::size_t m = first; m < last; ++m)
        sum += power_of(values_[m]);
    return sum / static_cast<double>(last - first);
}

Frequency PartialPhase::slope(std::size_t first, std::size_t last) const {
    const double coarse = coarse_slope(first, last);
    const Course course = this->course(first, last, coarse);
    if (course.used < 3)
        return {};
    std::vector<double> phase;
    double sum = 0;
    for (std::size_t m = first; m < last; ++m) {
        phase.push_back(std::arg(course.turned[m - first] * std::conj(course.mean)));
        sum += weight_[m] * phase.back();
    }
    double stt = 0, stp = 0, squares = 0;
    for (std::size_t m = first; m < last; ++m) {
        const double t = static_cast<double>(m) - course.middle;
        phase[m - first] -= sum / course.weight;
        stt += weight_[m] * t * t;
        stp += weight_[m] * t * phase[m - first];
    }
    if (stt <= 0)
        return {};
    std::vector<double> scores; // what each frame draws the slope by
    for (std::size_t m = first; m < last; ++m) {
        const double t = static_cast<double>(m) - course.middle;
        const double rest = phase[m - first] - stp / stt * t;
        scores.push_back(weight_[m] * t * rest);
        squares += weight_[m] * rest * rest;
    }
    // Noise alone leaves 1/(2 weight) in each frame.
    const double swing = (squares - static_cast<double>(course.used) / 2) / course.weight;
    const double hertz_per_radian = 1 / (turn * frame_seconds_);
    const double by_noise = scaled_variance(first, last, course.middle);
    const double variance = std::max(by_noise, long_run_variance(scores));
    const double scale = std::pow(hertz_per_radian / stt, 2);
    return {reference_hz_ + coarse / frame_seconds_ + stp / stt * hertz_per_radian,
            variance * scale,
            std::abs(course.mean) / course.amplitudes,
            std::max(0.0, swing),
            (variance - by_noise) * scale,
            spread(first, last) / frame_seconds_};
}

} // namespace sectio::measure
