#pragma once
/// @file
/// Private to lib/measure: one pitch a frame, chosen so that it neither jumps nor comes and goes
/// without need.

#include <sectio/measure/frame_pitch.hpp>
#include <sectio/measure/track_frame.hpp>

#include <array>
#include <cstdint>
#include <deque>
#include <optional>

namespace sectio::measure {

/// The cheapest path through the candidates of all frames (Viterbi), decided a second after the
/// newest frame so that memory stays small. Source of the costs' form: P. Boersma, "Accurate
/// short-term analysis of the fundamental frequency and the harmonics-to-noise ratio of a sampled
/// sound", Proceedings of the Institute of Phonetic Sciences 17, Amsterdam 1993.
class PitchPath {
  public:
    /// `overlap`: how many frames hold one and the same moment.
    explicit PitchPath(std::size_t overlap);

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

    float multiple_; ///< what a lower pitch than the frame's first candidate pays for two octaves
    std::deque<Step> steps_;
};

} // namespace sectio::measure
