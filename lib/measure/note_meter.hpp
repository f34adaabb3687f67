#pragma once
/// @file
/// Private to lib/measure: what measures one note.

#include <sectio/measure/drone.hpp>
#include <sectio/measure/note_pitch.hpp>

#include <span>
#include <vector>

namespace sectio::measure {

/// The beginning of a struck note that is left out before it is measured.
inline constexpr double attack_s = 0.03;

/// Measures notes; keeps the plans of the transforms from one to the next.
class NoteMeter {
  public:
    /// Samples a second, and the highest frequency to look at.
    NoteMeter(double rate, double band_hz, Drone drone = {})
        : rate_(rate), band_hz_(band_hz), drone_(std::move(drone)) {}

    /// `samples` hold one note and nothing else, of about `about_hz`, right up to a small factor.
    /// Where they are known to be `periodic` at it, what lies beside its partials is no other note.
    /// Of several notes the one is measured that was not there `before`, whose end borders on it.
    NotePitch measure(std::span<const float> samples, double about_hz, bool periodic = false,
                      std::span<const float> before = {});
    /// False where all that sounds in `samples`, a tenth of the power at most, stood as strongly
    /// `before`, whose end borders on it: strings that ring on, and no note.
    bool brings_new(std::span<const float> samples, double about_hz, std::span<const float> before);
    /// All partials of the same note, numbered by its `pitch` where that is one; by windows of a
    /// quarter of a second where it is long enough and does not move. The drone's are left out.
    std::vector<SoundingPartial> partials(std::span<const float> samples, const NotePitch& pitch);

  private:
    PartialSet new_partials(std::span<const float> before, std::vector<Peak> peaks,
                            const NoteSpectra& spectra, double about_hz,
                            std::vector<double> covered, double most_hidden);
    PartialSet partials_of_note(const std::vector<Peak>& peaks, const std::vector<double>& covered,
                                const NoteSpectra& spectra, double about_hz, bool periodic,
                                std::span<const float> before);

    double rate_, band_hz_;
    Drone drone_;
    SpectrumMaker maker_;
};

} // namespace sectio::measure
