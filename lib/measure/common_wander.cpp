#include <sectio/measure/common_wander.hpp>
#include <sectio/measure/note_meter.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

namespace sectio::measure {

namespace {

/// A pitch beside those of the whole note, as a weighted mean.
struct Sum {
    double weight = 0, cents = 0;

    double mean() const { return cents / weight; }
    double variance() const { return cents_per_e * cents_per_e / weight; }
};

/// From one frame to the next: of both halves of the partials.
struct Step {
    std::array<Sum, 2> halves{};

    Sum all() const {
        return {halves[0].weight + halves[1].weight, halves[0].cents + halves[1].cents};
    }
    bool is_whole() const { return halves[0].weight > 0 && halves[1].weight > 0; }
};

/// Each partial, rising, is taken for where the lower ones are, lest it be off by a turn.
Step step_at(const std::vector<const Followed*>& rising, std::size_t m, double hop_s) {
    Step step;
    std::size_t half = 0;
    for (const Followed* f : rising) {
        const double hz = f->whole.hz;
        const Sum lower = step.all();
        const double about = lower.weight > 0 ? lower.mean() : 0;
        const Frequency now = f->phase.step(m, hz * std::exp2(about / 1200));
        if (now.variance <= 0)
            continue;
        const double hidden_hz = f->hidden / (2 * std::numbers::pi * hop_s);
        const double weight = hz * hz / (now.variance + hidden_hz * hidden_hz);
        step.halves[half].weight += weight;
        step.halves[half].cents += weight * cents_above(now.hz, hz);
        half = 1 - half;
    }
    return step;
}

std::vector<const Followed*> rising_of(const std::vector<Followed>& followed) {
    std::vector<const Followed*> rising;
    for (const Followed& f : followed)
        if (f.whole.variance > 0)
            rising.push_back(&f);
    std::sort(rising.begin(), rising.end(),
              [](const Followed* a, const Followed* b) { return a->number < b->number; });
    return rising;
}

/// Variance that both halves have in common; 0 where they are not alike.
double common_variance(const std::vector<Step>& steps) {
    constexpr double least_alike = 0.7; // half of what one does, the other does
    const double count = static_cast<double>(steps.size());
    std::array<double, 2> means{}, squares{};
    for (const Step& step : steps)
        for (std::size_t half = 0; half < 2; ++half)
            means[half] += step.halves[half].mean() / count;
    double products = 0;
    for (const Step& step : steps) {
        const double a = step.halves[0].mean() - means[0], b = step.halves[1].mean() - means[1];
        products += a * b, squares[0] += a * a, squares[1] += b * b;
    }
    return products > least_alike * std::sqrt(squares[0] * squares[1]) ? products / (count - 1) : 0;
}

/// Over the time from the first frame's middle to the last one's, and a hop more at either end:
/// half a window lies there, of which Hann's tells little; it is taken to be as what is next to it.
double mean_over_time(const std::vector<double>& cents) {
    return std::accumulate(cents.begin(), cents.end(), cents.front() + cents.back())
           / static_cast<double>(cents.size() + 2);
}

/// What was not heard of the note lies off no further than the ends of a line do, √3 times its
/// deviation, which is known from as many values as there are windows that do not overlap.
double edges_half_width(double deviation, std::size_t frames, const NoteSpectra& spectra) {
    constexpr std::size_t overlapping = 4, least_windows = 2;
    const double seen_s = static_cast<double>((frames + 1) * spectra.hop) / spectra.rate;
    const double unseen_s = attack_s + static_cast<double>(spectra.window) / 2 / spectra.rate;
    const auto windows = std::max(least_windows, (frames + 1) / overlapping);
    return student_95(static_cast<int>(windows)) * std::sqrt(3.0) * deviation * unseen_s / seen_s;
}

} // namespace

std::optional<CommonWander> common_wander(const std::vector<Followed>& followed,
                                          const NoteSpectra& spectra, std::size_t first,
                                          std::size_t last) {
    constexpr std::size_t least_steps = 3;
    constexpr double noise_part = 0.1; // of the variance
    // A struck string keeps to its pitch better than any bow or voice: what makes it seem to wander
    // by less is the sound of its neighbours, in the windows at its ends. Our choice.
    constexpr double least_cents = 0.1;
    constexpr double usual_part = 1.0 / 3; // else it but leaves for another pitch, and wanders not
    const std::vector<const Followed*> rising = rising_of(followed);
    CommonWander wander{std::vector<double>(first)};
    std::vector<Step> steps;
    std::vector<double> cents;
    for (std::size_t m = first; m + 1 < last; ++m) {
        const Step step = step_at(rising, m, static_cast<double>(spectra.hop) / spectra.rate);
        if (step.is_whole())
            steps.push_back(step);
        const double last_cents = cents.empty() ? 0 : cents.back();
        cents.push_back(step.all().weight > 0 ? step.all().mean() : last_cents);
    }
    if (steps.size() < least_steps)
        return std::nullopt;
    const double common = common_variance(steps), count = static_cast<double>(steps.size());
    // Phases of neighbouring steps have their noise in common, but for the first and the last.
    const double noise =
        (steps.front().all().variance() + steps.back().all().variance()) / (count * count);
    const double usual = robust_deviation(cents, median(cents));
    if (noise >= noise_part * common || common < least_cents * least_cents
        || usual < usual_part * std::sqrt(common))
        return std::nullopt;
    const double mean = mean_over_time(cents);
    for (const double c : cents)
        wander.cents.push_back(c - mean);
    wander.deviation_cents = std::sqrt(common);
    wander.half_width_cents =
        std::hypot(edges_half_width(wander.deviation_cents, last - first, spectra),
                   normal_95 * std::sqrt(noise));
    return wander;
}

void turn_back(std::vector<Followed>& followed, const CommonWander& wander) {
    for (Followed& f : followed)
        if (f.whole.variance > 0)
            f.phase.turn_back(wander.cents, f.whole.hz);
}

} // namespace sectio::measure
