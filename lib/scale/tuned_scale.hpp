#pragma once
/// @file
/// A scale on a tonic with a reference: what sounds, resolved once and in one place.

#include <sectio/interval/pitch.hpp>
#include <sectio/scale/scale.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// The pitch that a scale stands on.
struct Tonic {
    StatedPitch stated; ///< by the caller or the scale
    Pitch pitch;
    NoteInOctave note;  ///< its nearest key, with the letter that was written, or its usual name
    bool named = false; ///< a note was written, not a frequency

    /// `stated` where A4 is `a4`. @throws Error pitch_out_of_range
    Tonic(StatedPitch stated, const Pitch& a4 = Pitch::concert_a());
    /// A pitch that nobody stated; it is written in hertz, to a millionth.
    Tonic(const Pitch& sounding, const Pitch& a4);
    /// As it was written, "D4".
    const std::string& written() const { return stated.text(); }
};

/// What a caller may set; where it does not, the scale's own tonic and reference count, then C4 and
/// A4 = 440 Hz (ISO 16:1975).
struct TuningOptions {
    std::optional<StatedPitch> tonic{};
    std::optional<TuningReference> reference{};
};

/// The A4 that counts: of what was asked for, else of the scale's own, else 440 Hz.
Pitch reference_of(const std::optional<TuningReference>& asked,
                   const std::optional<TuningReference>& own = std::nullopt);

/// How a degree sounds, beside its nearest key in 12 equal steps from the reference.
struct TunedDegree {
    Pitch pitch;
    int key = 0;        ///< as MIDI numbers them, 60 the middle C; may be negative or above 127
    Interval deviation; ///< pitch minus that key, more than -50 and at most +50 cents
    NoteInOctave note;  ///< that key as it is spelled here
};

/// A degree in one of the periods.
struct DegreeAt {
    std::size_t degree = 0; ///< index in Scale::degrees
    Integer period = 0;     ///< 0 the tonic's own, 1 the next above; 0 for a set without period
    friend bool operator==(const DegreeAt&, const DegreeAt&) = default;
};

/// The degree nearest to a pitch.
struct NearestDegree {
    DegreeAt at;
    Interval rest; ///< pitch minus degree
};

/// A scale on a tonic. The tonic is the degree 1/1, which in a set without period need not be the
/// lowest.
class TunedScale {
  public:
    /// @throws Error degrees_not_rising, degree_outside_period, no_tonic_degree for a scale that
    /// does not keep the rules of Scale
    TunedScale(Scale scale, Tonic tonic, Pitch a4);

    const Scale& scale() const { return scale_; }
    const Tonic& tonic() const { return tonic_; }
    const Pitch& a4() const { return a4_; }

    /// Index of the degree 1/1.
    std::size_t tonic_index() const { return tonic_index_; }
    /// 1 for the tonic, 2 for the degree above it; -1 for the one below it, as a set without period
    /// may have.
    long number(std::size_t degree) const;

    /// The degrees in the tonic's own period, in the order of Scale::degrees.
    const std::vector<TunedDegree>& degrees() const& { return degrees_; }
    std::vector<TunedDegree> degrees() && { return std::move(degrees_); } ///< of a temporary
    /// The period above the tonic, where there is one.
    const std::optional<TunedDegree>& closing() const { return closing_; }

    /// Pitch of a degree in any period; a set without period has period 0 alone.
    /// @throws Error no_such_degree, pitch_out_of_range
    Pitch pitch(const DegreeAt& at) const;
    /// The same with its key; a note has the letter of its twin in the tonic's own period.
    TunedDegree tuned(const DegreeAt& at) const;
    /// The degree `steps` degrees above the tonic (below where negative), through all periods.
    /// Nothing beyond the ends of a set without period.
    std::optional<DegreeAt> step(const Integer& steps) const;
    /// The degree nearest to `pitch`; half way between two the lower.
    NearestDegree nearest(const Pitch& pitch) const;
    /// All that sound from `low` to `high`, both included, rising.
    /// @throws Error too_many_degrees beyond limits::scale_degrees
    std::vector<DegreeAt> between(const Pitch& low, const Pitch& high) const;

  private:
    Interval above_tonic(const DegreeAt& at) const;
    TunedDegree with_key(const Pitch& pitch) const;

    Scale scale_;
    Tonic tonic_;
    Pitch a4_;
    std::size_t tonic_index_ = 0;
    std::vector<TunedDegree> degrees_;
    std::optional<TunedDegree> closing_;
};

/// `scale` on the tonic and with the reference that count. @throws Error pitch_out_of_range
TunedScale tuned(Scale scale, const TuningOptions& options = {});

} // namespace sectio
