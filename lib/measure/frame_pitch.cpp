#include <sectio/measure/between_lags.hpp>
#include <sectio/measure/frame_pitch.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sectio::measure {

namespace {

/// The least length of a frame; it grows to what the transform is quick for. Not so over a drone,
/// where a frame is as long as quick notes are.
constexpr double frame_seconds = 0.08;
constexpr double drone_frame_seconds = 0.17;
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
      frame_size_(drone.empty() ? fourier_.size() - most_lag_ - 1
                                : static_cast<std::size_t>(rate * drone_frame_seconds)),
      hop_(frame_size_ / (drone.empty() ? hops_per_frame : hops_per_drone_frame)),
      padded_(fourier_.size()), back_(fourier_.size()), spectrum_(fourier_.size() / 2 + 1),
      level_window_(hann_window(2 * hop_)), window_(hann_window(frame_size_)) {
    functions_.fill(std::vector<float>(most_lag_ + 1));
    if (drone.empty())
        return;
    for (std::size_t i = 0; i < frame_size_; ++i)
        padded_[i] = Lanes{} + window_[i];
    fourier_.forward(padded_.data(), spectrum_.data());
    take_powers();
    fourier_.back(spectrum_.data(), back_.data());
    for (std::size_t lag = 0; lag <= most_lag_; ++lag)
        window_function_.push_back(back_[lag][0]);
    for (const DronePartial& partial : drone.partials)
        skirts_.push_back(skirt_of(partial));
}

FrameAnalyser::Skirt FrameAnalyser::skirt_of(const DronePartial& partial) const {
    constexpr double reach = 3; // bins of the window
    const double widening = static_cast<double>(fourier_.size()) / static_cast<double>(frame_size_);
    const double centre = partial.hz * (static_cast<double>(fourier_.size()) / rate_);
    const auto last =
        std::min(static_cast<double>(spectrum_.size() - 1), centre + reach * widening);
    Skirt skirt{static_cast<std::size_t>(std::lround(centre)),
                static_cast<std::size_t>(std::max(0.0, centre - reach * widening)),
                {}};
    for (auto k = skirt.first; static_cast<double>(k) <= last; ++k)
        skirt.lobe.push_back(hann_lobe((static_cast<double>(k) - centre) / widening));
    return skirt;
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

void FrameAnalyser::take_powers() {
    for (ComplexLanes& value : spectrum_)
        value = {power_of(value), Lanes{}};
}

void FrameAnalyser::difference_functions(const Frames& frames) {
    Sums means{}, powers{};
    for (std::size_t lane = 0; lane < lanes; ++lane)
        means[lane] = std::accumulate(frames[lane], frames[lane] + frame_size_, 0.0)
                      / static_cast<double>(frame_size_);
    for (std::size_t i = 0; i < frame_size_; ++i)
        for (std::size_t lane = 0; lane < lanes; ++lane) {
            padded_[i][lane] = frames[lane][i] - static_cast<float>(means[lane]);
            powers[lane] +=
                static_cast<double>(padded_[i][lane]) * static_cast<double>(padded_[i][lane]);
        }
    fourier_.forward(padded_.data(), spectrum_.data());
    take_powers();
    fourier_.back(spectrum_.data(), back_.data());
    const double scale = 1.0 / static_cast<double>(fourier_.size());
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        double both = 2 * powers[lane];
        for (std::size_t lag = 0; lag <= most_lag_; ++lag) {
            functions_[lane][lag] =
                both > 0
                    ? static_cast<float>(2 * scale * static_cast<double>(back_[lag][lane]) / both)
                    : 0.0F;
            const double first = static_cast<double>(padded_[lag][lane]);
            const double last = static_cast<double>(padded_[frame_size_ - 1 - lag][lane]);
            both -= first * first + last * last;
        }
    }
}

/// Takes the drone's partials out of the powers in spectrum_; gives what part of the power is left.
FrameAnalyser::Sums FrameAnalyser::take_out_drone() {
    const double scale = std::pow(static_cast<double>(frame_size_) / 4, 2);
    Sums all{}, left{};
    for (const ComplexLanes& value : spectrum_)
        for (std::size_t lane = 0; lane < lanes; ++lane)
            all[lane] += static_cast<double>(value.re[lane]);
    std::vector<double> measured(skirts_.size());
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        for (std::size_t j = 0; j < skirts_.size(); ++j)
            measured[j] = static_cast<double>(spectrum_[skirts_[j].middle].re[lane]) / scale;
        const std::vector<double> now = drone_.now(measured);
        for (std::size_t j = 0; j < now.size(); ++j) {
            ComplexLanes* value = &spectrum_[skirts_[j].first];
            for (const double lobe : skirts_[j].lobe) {
                const double rest = static_cast<double>(value->re[lane])
                                    - drone_margin * scale * now[j] * lobe * lobe;
                (value++)->re[lane] = static_cast<float>(std::max(0.0, rest));
            }
        }
    }
    for (const ComplexLanes& value : spectrum_)
        for (std::size_t lane = 0; lane < lanes; ++lane)
            left[lane] += static_cast<double>(value.re[lane]);
    for (std::size_t lane = 0; lane < lanes; ++lane)
        left[lane] = all[lane] > 0 ? left[lane] / all[lane] : 0;
    return left;
}

/// The same functions of what is left beside the drone.
void FrameAnalyser::functions_over_drone(const Frames& frames) {
    for (std::size_t i = 0; i < frame_size_; ++i)
        padded_[i] = Lanes{frames[0][i], frames[1][i], frames[2][i], frames[3][i]} * window_[i];
    fourier_.forward(padded_.data(), spectrum_.data());
    take_powers();
    const Sums left = take_out_drone();
    fourier_.back(spectrum_.data(), back_.data());
    for (std::size_t lane = 0; lane < lanes; ++lane)
        for (std::size_t lag = 0; lag <= most_lag_; ++lag)
            functions_[lane][lag] = left[lane] < least_left
                                        ? 0.0F
                                        : back_[lag][lane] / back_[0][lane] * window_function_[0]
                                              / window_function_[lag];
}

/// The error of a maximum's place is shared by the periods up to it: the maximum after two, four …
/// periods gives the period more finely.
float FrameAnalyser::longer_lag(std::span<const float> function, float lag) const {
    float periods = 1;
    const float clarity = function[static_cast<std::size_t>(std::lround(lag))];
    for (;;) {
        const float target = 2 * lag;
        const auto centre = static_cast<std::size_t>(std::lround(target));
        if (centre + 3 >= most_lag_)
            break;
        std::size_t best = centre - 1;
        for (std::size_t i = centre - 1; i <= centre + 1; ++i)
            if (function[i] > function[best])
                best = i;
        const bool is_top =
            function[best] >= function[best - 1] && function[best] >= function[best + 1];
        if (!is_top || function[best] < 0.9F * clarity)
            break;
        const float longer = top_near(function, best).lag;
        if (std::abs(longer - target) > 0.75F)
            break;
        lag = longer;
        periods *= 2;
    }
    return lag / periods;
}

void FrameAnalyser::add_candidates(Frame& frame, std::span<const float> function) const {
    std::vector<Top> found;
    // The hill about lag 0 is no period: it ends where the function first falls below 0.
    auto lag = static_cast<std::size_t>(
        std::find_if(function.begin(), function.end(), [](float v) { return v < 0; })
        - function.begin());
    for (lag = std::max<std::size_t>(lag, 2); lag < most_lag_; ++lag) {
        const float value = function[lag];
        if (value < least_clarity || value <= function[lag - 1] || value < function[lag + 1])
            continue;
        found.push_back(top_near(function, lag));
        found.back().value = std::min(found.back().value, 1.0F);
    }
    // Whole multiples of the period are as clear as itself; a small bonus lets the shortest go
    // first.
    const auto rank = [](const Top& top) { return top.value - 0.03F * std::log2(top.lag); };
    std::sort(found.begin(), found.end(),
              [&](const auto& a, const auto& b) { return rank(a) > rank(b); });
    frame.count = std::min(found.size(), Frame::most_candidates);
    for (std::size_t i = 0; i < frame.count; ++i)
        frame.candidates[i] = {static_cast<float>(rate_) / longer_lag(function, found[i].lag),
                               found[i].value};
}

std::array<Frame, lanes> FrameAnalyser::analyse(const float* samples, std::size_t count) {
    Frames frames; // a lane too many takes the first
    for (std::size_t lane = 0; lane < lanes; ++lane)
        frames[lane] = samples + (lane < count ? lane * hop_ : 0);
    if (drone_.empty())
        difference_functions(frames);
    else
        functions_over_drone(frames);
    std::array<Frame, lanes> found;
    for (std::size_t lane = 0; lane < count; ++lane) {
        const bool silent = mean_square(frames[lane], frame_size_) < no_sound;
        found[lane].level = silent || drone_.empty() ? level_of(frames[lane])
                                                     : back_[0][lane] / window_function_[0];
        if (!silent)
            add_candidates(found[lane], functions_[lane]);
    }
    return found;
}

} // namespace sectio::measure
