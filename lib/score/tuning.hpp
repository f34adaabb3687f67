#pragma once
/// @file
/// From written pitches to deviations: a scale on its tonic, or a tuning system in which spelling
/// counts.

#include <sectio/division/division.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/score/written.hpp>

#include <memory>
#include <span>
#include <string>
#include <variant>
#include <vector>

namespace sectio::score {

/// Why the tuning has nothing for a written pitch, in words.
struct Lacking {
    std::string reason;
};

/// How far a note lies above base_key() of its written pitch in 12 equal steps, or why that is not
/// known.
using Outcome = std::variant<Interval, Lacking>;

/// A way to tune written pitches.
class NoteTuning {
  public:
    virtual ~NoteTuning() = default;
    /// An outcome for each of `pitches`, which are all different and all that the score has: where
    /// two of them claim one degree, the nearer has it.
    virtual std::vector<Outcome> tune(std::span<const WrittenPitch> pitches) const = 0;
    /// What the legend says: "Rast on G4".
    virtual std::string text() const = 0;
    /// What a reader may do about notes that are lacking, in a sentence; may be empty.
    virtual std::string cure() const { return ""; }
};

/// The degrees of `scale` from `tonic` up, in every octave (or period) where they repeat.
///
/// A written pitch takes the degree of its own spelling where the scale's notes have names (given,
/// or one letter a degree); a pitch read in commas takes the degree within half a comma. Otherwise
/// it takes the only degree within 50 cents, unless another written pitch lies nearer to it. A
/// degree whose name is another letter at the same key is not taken.
std::unique_ptr<NoteTuning> tuning_by_scale(const TunedScale& scale);
/// @throws Error for a tonic that is no note
std::unique_ptr<NoteTuning> tuning_by_scale(const Scale& scale, const StatedPitch& tonic,
                                            const Pitch& a4 = Pitch::concert_a());

/// What `scale` lacks is taken from `rest`: the accidental notes that a melody in a scale admits.
std::unique_ptr<NoteTuning> tuning_with_rest(std::unique_ptr<NoteTuning> scale,
                                             std::unique_ptr<NoteTuning> rest);

/// A tuning system. Where its notes are a chain of one size of fifth, as in Pythagorean tuning, the
/// meantone temperaments and equal divisions, every spelling has its place in the chain, so that G♯
/// and A♭ differ. Otherwise its notes are found by their own names, or, where they are twelve, by
/// their keys. `tonic` is the note that does not deviate.
/// @throws Error for a tonic that is no note, no_tuning_system for an entry without notes,
/// system_is_scale
std::unique_ptr<NoteTuning> tuning_by_system(const Entry& system, const StatedPitch& tonic,
                                             const Pitch& a4 = Pitch::concert_a());

/// The same for an equal division of the octave, whose fifth is its step nearest to 3/2. A part of
/// a sharp has a place where it is a number of steps, be it in rounded decimals.
std::unique_ptr<NoteTuning> tuning_by_division(const EqualDivision& division,
                                               const StatedPitch& tonic,
                                               const Pitch& a4 = Pitch::concert_a());

} // namespace sectio::score
