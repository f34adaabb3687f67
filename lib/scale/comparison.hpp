#pragma once
/// @file
/// A scale laid against equal divisions: the answer that the sheet, its JSON and its CSV print.

#include <sectio/division/division.hpp>
#include <sectio/scale/note_spelling.hpp>
#include <sectio/scale/scale.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// What one division makes of one degree.
struct ComparedStep {
    Integer step;   ///< nearest step, counted from the tonic
    Interval size;  ///< of that step above the tonic
    Interval error; ///< step minus degree: negative where the step is too low
};

/// A degree as it sounds from a tonic, beside its nearest key in 12 equal steps.
struct ComparedDegree {
    Degree degree;
    std::optional<Interval> next; ///< to the next degree or the period; none at an open end
    Pitch pitch;                  ///< sounding
    int key = 0;                  ///< nearest key of 12 equal steps, as MIDI numbers them
    NoteInOctave note;            ///< that key as it is spelled here
    Interval deviation;           ///< pitch minus that key, more than -50 and at most +50 cents
    std::vector<ComparedStep> against; ///< in the order of Comparison::divisions
};

/// Errors of one division over the degrees above the tonic. The tonic, which has none by
/// construction, and the period are left out.
struct DivisionSummary {
    EqualDivision division;
    Interval max_error;    ///< largest absolute error, not negative
    std::size_t worst = 0; ///< index in Comparison::degrees of the first degree that has it
    std::vector<Interval> errors;

    /// Root mean square of the errors in cents, correctly rounded.
    /// @throws Error digits_out_of_range, rounding_undecided
    std::string rms_cents(int digits) const;
};

struct Comparison {
    TunedScale tuned;
    Scale scale;
    Pitch tonic;
    std::string tonic_written; ///< "D4", as the caller or the scale gave it
    Pitch a4;                  ///< reference of the 12 equal steps
    std::vector<ComparedDegree> degrees;
    std::optional<ComparedDegree> closing; ///< the period, where there is one
    std::vector<EqualDivision> divisions;
    std::vector<DivisionSummary> summaries;
};

/// `scale` laid against each of `divisions`. @throws Error too_many_divisions
Comparison compare(const TunedScale& scale, const std::vector<EqualDivision>& divisions);

struct ComparisonOptions : TuningOptions {
    std::vector<EqualDivision> divisions{EqualDivision(12), EqualDivision(53)};
};

/// The same for a scale that is not yet tuned.
/// @throws Error for a tonic or reference that is none, too_many_divisions
Comparison compare(const Scale& scale, const ComparisonOptions& options = {});

/// What `division` makes of `degree`.
ComparedStep compared_step(const EqualDivision& division, const Interval& degree);

/// Root mean square of the sizes of `intervals` in cents, correctly rounded; 0 for none.
/// @throws Error digits_out_of_range, rounding_undecided
std::string rms_cents(const std::vector<Interval>& intervals, int digits);

} // namespace sectio
