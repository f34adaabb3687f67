#pragma once
/// @file
/// Private to lib/measure: how long a melody stays on each pitch.

#include <cstddef>
#include <vector>

namespace sectio::measure {

/// A pitch, in cents above 1 Hz, and how long it sounds.
struct SoundedPitch {
    double cents = 0;
    double seconds = 0;
};

/// A maximum of a histogram.
struct HistogramPeak {
    double cents = 0;   ///< above 1 Hz; of a folded histogram within one octave
    double seconds = 0; ///< that lie nearer to this peak than to any other
};

/// Durations by pitch, a cent a bin, each pitch spread by a normal distribution of 10 cents so that
/// the frames of one note make one hill. Source: A. C. Gedik, B. Bozkurt, "Pitch-frequency
/// histogram-based music information retrieval for Turkish music", Signal Processing 90, 2010.
class PitchHistogram {
  public:
    /// `folded`: octaves lie on one another.
    PitchHistogram(const std::vector<SoundedPitch>& pitches, bool folded);

    bool folded() const { return folded_; }
    double first_cents() const { return first_; }
    /// Seconds a cent, from first_cents() up.
    const std::vector<double>& density() const { return density_; }
    double at(double cents) const;

    /// Maxima of at least `part` of the highest one, no two nearer than 30 cents; rising.
    std::vector<HistogramPeak> peaks(double part = 0.05) const;

  private:
    std::size_t wrapped(long bin) const;
    bool is_peak(std::size_t bin) const;

    bool folded_;
    double first_ = 0;
    std::vector<double> raw_, density_;
};

} // namespace sectio::measure
