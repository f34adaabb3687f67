#include <sectio/measure/pitch_path.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace sectio::measure {

namespace {

constexpr std::size_t decision_frames = 44;
/// Below this clarity a frame is rather without pitch.
constexpr float voiced_clarity = 0.55F;
constexpr float octave_jump_cost = 0.35F;
constexpr float voicing_cost = 0.14F;
/// Whole multiples of a period are as clear as the period: a lower pitch pays this for two octaves.
constexpr float octave_cost = 0.03F;
/// And this below the frame's first candidate, for each frame that holds a moment, lest a path stay
/// on the common multiple of two notes' periods: it is clear in so many frames while one passes
/// into the other.
constexpr float multiple_cost = 0.06F;
constexpr float silent_level = 1e-10F;

float own_cost(const Frame& frame, std::size_t state, float multiple) {
    if (state == Frame::most_candidates)
        return 1 - (frame.level < silent_level ? 1.0F : voiced_clarity);
    if (state >= frame.count)
        return std::numeric_limits<float>::infinity();
    const PitchCandidate& c = frame.candidates[state];
    const float below_first = std::max(0.0F, std::log2(frame.candidates[0].hz / c.hz));
    return 1 - c.clarity + octave_cost * std::log2(static_cast<float>(highest_hz) / c.hz) / 2
           + multiple * below_first / 2;
}

float move_cost(const Frame& a, std::size_t from, const Frame& b, std::size_t to) {
    const bool silent_from = from == Frame::most_candidates,
               silent_to = to == Frame::most_candidates;
    if (silent_from || silent_to)
        return silent_from == silent_to ? 0.0F : voicing_cost;
    return octave_jump_cost
           * std::min(1.0F, std::abs(std::log2(a.candidates[from].hz / b.candidates[to].hz)));
}

} // namespace

PitchPath::PitchPath(std::size_t overlap)
    : multiple_(multiple_cost * static_cast<float>(overlap)) {}

std::optional<TrackFrame> PitchPath::push(const Frame& frame) {
    Step step{frame, {}, {}};
    for (std::size_t to = 0; to < states; ++to) {
        const float own = own_cost(frame, to, multiple_);
        float best = steps_.empty() ? 0.0F : std::numeric_limits<float>::infinity();
        for (std::size_t from = 0; !steps_.empty() && from < states; ++from) {
            const Step& last = steps_.back();
            if (from != Frame::most_candidates && from >= last.frame.count)
                continue;
            const float cost =
                last.cost[from] + (std::isinf(own) ? 0.0F : move_cost(last.frame, from, frame, to));
            if (cost < best) {
                best = cost;
                step.from[to] = static_cast<std::uint8_t>(from);
            }
        }
        step.cost[to] = best + own;
    }
    // Only differences of costs count: keep them small.
    const float least = *std::min_element(step.cost.begin(), step.cost.end());
    for (float& cost : step.cost)
        cost -= least;
    steps_.push_back(step);
    if (steps_.size() <= decision_frames)
        return std::nullopt;
    return decided_oldest();
}

std::optional<TrackFrame> PitchPath::finish() {
    if (steps_.empty())
        return std::nullopt;
    return decided_oldest();
}

TrackFrame PitchPath::decided_oldest() {
    const auto& costs = steps_.back().cost;
    auto state =
        static_cast<std::size_t>(std::min_element(costs.begin(), costs.end()) - costs.begin());
    for (std::size_t i = steps_.size() - 1; i > 0; --i)
        state = steps_[i].from[state];
    const Frame& frame = steps_.front().frame;
    TrackFrame decided{0, 0, frame.level};
    if (state < frame.count)
        decided = {frame.candidates[state].hz, frame.candidates[state].clarity, frame.level};
    steps_.pop_front();
    return decided;
}

} // namespace sectio::measure
