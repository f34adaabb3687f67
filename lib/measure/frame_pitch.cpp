#include <sectio/measure/between_lags.hpp>
#include <sectio/measure/frame_pitch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sectio::measure {

namespace {

/// The least length of a frame; it grows to what the transform is quick for.
constexpr double frame_seconds = 0.08;
constexpr double drone_frame_seconds = 0.16;
constexpr std::size_t hops_per_frame = 4, hops_per_drone_frame = 7;
/// What the drone's partials may be stronger than they are taken for, as power.
constexpr double drone_margin = 2.5;
/// Where less than this part of the power is left beside the drone there is no melody.
constexpr double least_left = 0.01;
constexpr float least_clarity = 0.3F;
/// A mean square below this is rounding noise, not sound: -120 dB of full scale.
constexpr float no_sound = 1e-12F;

std::size_t most_lag(double rate) {
    return static_cast<std::size_t>(rate / lowest_hz) + 1;
}

float mean_square(const float* samples, std::size_t size) {
    double sum = 0;
    for (std::size_t i = 0; i < size; ++i)
        sum += static_cast<double>(samples[i]) * static_cast<double>(samples[i]);
    return static_cast<float>(sum / static_cast<double>(size));
}

} // namespace

FrameAnalyser::FrameAnalyser(double rate, const Drone& drone)
    : rate_(rate), drone_(drone), most_lag_(most_lag(rate)),
      fourier_(quick_size(
          static_cast<std::size_t>(rate * (drone.empty() ? frame_seconds : drone_frame_seconds))
          + most_lag_ + 1)),
      frame_size_(fourier_.size() - most_lag_ - 1),
      hop_(frame_size_ / (drone.empty() ? hops_per_frame : hops_per_drone_frame)),
      padded_(fourier_.size()), back_(fourier_.size()), function_(most_lag_ + 1),
      spectrum_(fourier_.size() / 2 + 1), level_window_(hann_window(2 * hop_)),
      window_(hann_window(frame_size_)) {
    if (drone.empty())
        return;
    std::copy(window_.begin(), window_.end(), padded_.begin());
    fourier_.forward(padded_.data(), spectrum_.data());
    for (auto& value : spectrum_)
        value = power_of(value);
    fourier_.back(spectrum_.data(), back_.data());
    window_function_.assign(back_.begin(),
                            back_.begin() + static_cast<std::ptrdiff_t>(most_lag_) + 1);
}

float FrameAnalyser::level_of(const float* samples) const {
    const float* middle = samples + (frame_size_ - level_window_.size()) / 2;
    double sum = 0, weights = 0;
    for (std::size_t i = 0; i < level_window_.size(); ++i) {
        sum += static_cast<double>(level_window_[i]) * static_cast<double>(middle[i])
               * static_cast<double>(middle[i]);
        weights += static_cast<double>(level_window_[i]);
    }
    return static_cast<float>(sum / weights);
}

void FrameAnalyser::difference_function(const float* samples) {
    double mean = 0;
    for (std::size_t i = 0; i < frame_size_; ++i)
        mean += static_cast<double>(samples[i]);
    mean /= static_cast<double>(frame_size_);
    std::fill(padded_.begin(), padded_.end(), 0.0F);
    double power = 0;
    for (std::size_t i = 0; i < frame_size_; ++i) {
        padded_[i] = samples[i] - static_cast<float>(mean);
        power += static_cast<double>(padded_[i]) * static_cast<double>(padded_[i]);
    }
    fourier_.forward(padded_.data(), spectrum_.data());
    for (auto& value : spectrum_)
        value = power_of(value);
    fourier_.back(spectrum_.data(), back_.data());
    const double scale = 1.0 / static_cast<double>(fourier_.size());
    double both = 2 * power;
    for (std::size_t lag = 0; lag <= most_lag_; ++lag) {
        function_[lag] =
            both > 0 ? static_cast<float>(2 * scale * static_cast<double>(back_[lag]) / both)
                     : 0.0F;
        const double first = static_cast<double>(padded_[lag]);
        const double last = static_cast<double>(padded_[frame_size_ - 1 - lag]);
        both -= first * first + last * last;
    }
}

/// Takes the drone's partials out of the powers in spectrum_; gives what part of the power is left.
double FrameAnalyser::take_out_drone() {
    constexpr double reach = 3; // bins of the window
    const double bins_per_hz = static_cast<double>(fourier_.size()) / rate_;
    const double widening = static_cast<double>(fourier_.size()) / static_cast<double>(frame_size_);
    const double scale = std::pow(static_cast<double>(frame_size_) / 4, 2);
    std::vector<double> measured;
    for (const DronePartial& partial : drone_.partials)
        measured.push_back(
            static_cast<double>(
                spectrum_[static_cast<std::size_t>(std::lround(partial.hz * bins_per_hz))].real())
            / scale);
    const std::vector<double> now = drone_.now(measured);
    double all = 0, left = 0;
    for (const auto& value : spectrum_)
        all += static_cast<double>(value.real());
    for (std::size_t j = 0; j < now.size(); ++j) {
        const double centre = drone_.partials[j].hz * bins_per_hz;
        const auto last =
            std::min(static_cast<double>(spectrum_.size() - 1), centre + reach * widening);
        for (auto k = static_cast<std::size_t>(std::max(0.0, centre - reach * widening));
             static_cast<double>(k) <= last; ++k) {
            const double lobe = hann_lobe((static_cast<double>(k) - centre) / widening);
            const double rest = static_cast<double>(spectrum_[k].real())
                                - drone_margin * scale * now[j] * lobe * lobe;
            spectrum_[k] = static_cast<float>(std::max(0.0, rest));
        }
    }
    for (const auto& value : spectrum_)
        left += static_cast<double>(value.real());
    return all > 0 ? left / all : 0;
}

/// The same function of what is left beside the drone; gives its mean square.
float FrameAnalyser::function_over_drone(const float* samples) {
    std::fill(padded_.begin(), padded_.end(), 0.0F);
    for (std::size_t i = 0; i < frame_size_; ++i)
        padded_[i] = samples[i] * window_[i];
    fourier_.forward(padded_.data(), spectrum_.data());
    for (auto& value : spectrum_)
        value = power_of(value);
    const double left = take_out_drone();
    fourier_.back(spectrum_.data(), back_.data());
    for (std::size_t lag = 0; lag <= most_lag_; ++lag)
        function_[lag] = left < least_left
                             ? 0.0F
                             : back_[lag] / back_[0] * window_function_[0] / window_function_[lag];
    return back_[0] / window_function_[0];
}

/// The error of a maximum's place is shared by the periods up to it: the maximum after two, four …
/// periods gives the period more finely.
float FrameAnalyser::longer_lag(float lag) const {
    float periods = 1;
    const float clarity = function_[static_cast<std::size_t>(std::lround(lag))];
    for (;;) {
        const float target = 2 * lag;
        const auto centre = static_cast<std::size_t>(std::lround(target));
        if (centre + 3 >= most_lag_)
            break;
        std::size_t best = centre - 1;
        for (std::size_t i = centre - 1; i <= centre + 1; ++i)
            if (function_[i] > function_[best])
                best = i;
        const bool is_top =
            function_[best] >= function_[best - 1] && function_[best] >= function_[best + 1];
        if (!is_top || function_[best] < 0.9F * clarity)
            break;
        const float longer = top_near(function_, best).lag;
        if (std::abs(longer - target) > 0.75F)
            break;
        lag = longer;
        periods *= 2;
    }
    return lag / periods;
}

Frame FrameAnalyser::analyse(const float* samples) {
    Frame frame;
    frame.level = level_of(samples);
    if (mean_square(samples, frame_size_) < no_sound)
        return frame;
    if (drone_.empty())
        difference_function(samples);
    else
        frame.level = function_over_drone(samples);
    std::vector<Top> found;
    // The hill about lag 0 is no period: it ends where the function first falls below 0.
    auto lag = static_cast<std::size_t>(
        std::find_if(function_.begin(), function_.end(), [](float v) { return v < 0; })
        - function_.begin());
    for (lag = std::max<std::size_t>(lag, 2); lag < most_lag_; ++lag) {
        const float value = function_[lag];
        if (value < least_clarity || value <= function_[lag - 1] || value < function_[lag + 1])
            continue;
        found.push_back(top_near(function_, lag));
        found.back().value = std::min(found.back().value, 1.0F);
    }
    // Whole multiples of the period are as clear as itself; a small bonus lets the shortest go
    // first.
    const auto rank = [](const Top& top) { return top.value - 0.03F * std::log2(top.lag); };
    std::sort(found.begin(), found.end(),
              [&](const auto& a, const auto& b) { return rank(a) > rank(b); });
    frame.count = std::min(found.size(), Frame::most_candidates);
    for (std::size_t i = 0; i < frame.count; ++i)
        frame.candidates[i] = {static_cast<float>(rate_) / longer_lag(found[i].lag),
                               found[i].value};
    return frame;
}

} // namespace sectio::measure
