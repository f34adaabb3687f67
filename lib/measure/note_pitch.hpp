#pragma once
/// @file
/// The pitch of one note, as finely as its sound tells it.

#include <sectio/measure/drone.hpp>
#include <sectio/measure/soft_sound.hpp>
#include <sectio/measure/sounding_partials.hpp>

#include <optional>
#include <span>

namespace sectio::measure {

/// Why a note has no pitch that could be stated.
enum class NoteTrouble {
    none,
    too_short,     ///< fewer than four periods
    several_notes, ///< partials of more than one pitch
    no_partials,   ///< nothing stands out of the noise
};

/// What was measured of one note.
struct NotePitch {
    NoteTrouble trouble = NoteTrouble::none;
    double hz = 0;               ///< of the lowest partial, sounding or not
    double half_width_cents = 0; ///< holds the truth 95 times of 100
    int partials = 0;            ///< that the pitch was found from; 0 where from periods alone
    double inharmonicity = 0;    ///< B of Fletcher's model
    double inharmonicity_half_width = 0;
    double glide_cents = 0;         ///< start of the note above the settled pitch
    double settled_s = 0;           ///< from the note's start to the part that was measured
    double wander_cents = 0;        ///< standard deviation of the pitch within the settled part
    std::optional<SoftSound> below; ///< what rings on below the note
};

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
