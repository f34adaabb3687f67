#pragma once
/// @file
/// Private to lib/measure: where a recording is loudest, which is all that is asked of a sound
/// without a pitch.

#include <cstddef>
#include <span>
#include <vector>

namespace sectio::measure {

/// Keeps the sound of some frames from the loudest one on, up to what is struck again.
class LoudestMoment {
  public:
    explicit LoudestMoment(std::size_t most_frames) : most_frames_(most_frames) {}

    /// The next frame's level, and its sound up to where the one after it begins.
    void watch(float level, std::span<const float> sound);
    std::size_t frame() const { return frame_; }
    const std::vector<float>& sound() const { return sound_; }
    /// Whether a spectrum of it has a peak that noise would not have.
    bool tonal(double rate, double band_hz) const;

  private:
    std::size_t most_frames_, watched_ = 0, frame_ = 0;
    float level_ = 0, softest_since_ = 0;
    std::vector<float> sound_;
};

} // namespace sectio::measure
