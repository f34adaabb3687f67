#pragma once
/// @file
/// Beats: how often two tones that sound together swell and fade in a second.

#include <sectio/interval/pitch.hpp>

#include <string>

namespace sectio {

/// Beats per second, the distance between two frequencies. Of its own kind: it is no pitch, though
/// both are counted in a second.
///
/// Two tones near to a simple ratio m:n beat where the m-th partial of the lower meets the n-th of
/// the upper: so many times a second as these partials lie apart in hertz. Source: H. von
/// Helmholtz, Die Lehre von den Tonempfindungen (1863), chapter 8 (from memory).
class BeatRate {
  public:
    /// Between the `m`-th partial of `a` and the `n`-th of `b`; 1 is the fundamental.
    /// Precondition: m and n at least 1. @throws Error pitch_out_of_range
    static BeatRate between(const Pitch& a, const Pitch& b, const Integer& m = 1,
                            const Integer& n = 1);

    /// True where nothing beats.
    bool none() const { return low_ == high_; }
    /// Beats per second with `digits` after the point, correctly rounded, never negative.
    /// @throws Error digits_out_of_range, rounding_undecided
    std::string decimal(int digits) const;
    /// The same for drawing and sound, where a double's accuracy is enough.
    double estimate() const { return high_.hertz_estimate() - low_.hertz_estimate(); }

  private:
    BeatRate(Pitch low, Pitch high) : low_(std::move(low)), high_(std::move(high)) {}
    Pitch low_, high_;
};

} // namespace sectio
