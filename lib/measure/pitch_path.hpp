#pragma once
/// @file
/// One pitch a frame, chosen so that it neither jumps nor comes and goes without need.

#include <sectio/measure/frame_pitch.hpp>

#include <array>
#include <cstdint>
#include <deque>
#include <optional>
#include <vector>

namespace sectio::measure {

/// What was decided of one frame.
struct TrackFrame {
    float hz = 0; ///< 0 where there is no pitch
    float clarity = 0;
    float level = 0;
};

/// The cheapest path through the candidates of all frames (Viterbi), decided a second behind the
/// newest frame so that memory stays small. Source of the costs' form: P. Boersma, "Accurate
/// short-term analysis of the fundamental frequency and the harmonics-to-noise ratio of a sampled
/// sound", Proceedings of the Institute of Phonetic Sciences 17, Amsterdam 1993.
class PitchPath {
  public:
    /// Takes the next frame; gives the one that is decided by now, if any.
    std::optional<TrackFrame> push(const Frame& frame);
    /// After the last frame: the next undecided one, until none is left.
    std::optional<TrackFrame> finish();

  private:
    static constexpr std::size_t states = Frame::most_candidates + 1; ///< the last: no pitch
    struct Step {
        Frame frame;
        std::array<float, states> cost;
        std::array<std::uint8_t, states> from;
    };
    TrackFrame decided_oldest();

    std::deque<Step> steps_;
};

} // namespace sectio::measure
