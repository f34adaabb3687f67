#pragma once
/// @file
/// Private to lib/measure: what measures one note.

#include <sectio/measure/drone.hpp>
#include <sectio/measure/note_pitch.hpp>

#include <span>
#include <vector>

namespace sectio::measure {

/// Measures notes; keeps the plans of the transforms from one to the next.
class NoteMeter {
  public:
    /// Samples a second, and the highest frequency to look at.
    NoteMeter(double rate, double band_hz, Drone drone = {})
        : rate_(rate), band_hz_(band_hz), drone_(std::move(drone)) {}

    /// `samples` hold one note and nothing else, of about `about_hz`, right up to a small factor.
    /// Where they are known to be `periodic` at it, what lies beside its partials is no other note.
    NotePitch measure(std::span<const float> samples, double about_hz, bool periodic = false);
    /// All partials of the same note, numbered by its `pitch` where that is one; by windows of a
    /// quarter of a second where it is long enough and does not move. The drone's are left out.
    std::vector<SoundingPartial> partials(std::span<const float> samples, const NotePitch& pitch);

  private:
    double rate_, band_hz_;
    Drone drone_;
    SpectrumMaker maker_;
};

} // namespace sectio::measure
