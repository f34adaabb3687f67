#pragma once
/// @file
/// A scale laid against equal divisions: the answer that the sheet, its JSON and its CSV print.

#include <sectio/division/division.hpp>
#include <sectio/interval/real.hpp>
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

/// A degree as it sounds from a tonic, with what each division makes of it.
struct ComparedDegree : TunedDegree {
    Degree degree;
    std::optional<Interval> next;      ///< to the next degree or the period; none at an open end
    std::vector<ComparedStep> against; ///< in the order of Comparison::divisions
};

/// Root mean square of the sizes of `intervals` in cents; 0 for none.
Real root_mean_square(const std::vector<Interval>& intervals);

/// Errors of one division over the degrees above the tonic. The tonic, which has none by
/// construction, and the period are left out.
struct DivisionSummary {
    EqualDivision division;
    Interval max_error;    ///< largest absolute error, not negative
    std::size_t worst = 0; ///< index in Comparison::degrees of the first degree that has it
    std::vector<Interval> errors;

    /// Root mean square of the errors in cents.
    Real rms_cents() const { return root_mean_square(errors); }
};

struct Comparison {
    TunedScale tuned;
    std::vector<EqualDivision> divisions;
    std::vector<ComparedDegree> degrees;
    std::optional<ComparedDegree> closing; ///< the period, where there is one
    std::vector<DivisionSummary> summaries;

    const Scale& scale() const { return tuned.scale(); }
    const Pitch& tonic() const { return tuned.tonic().pitch; }
    const std::string& tonic_written() const { return tuned.tonic().written(); }
    const Pitch& a4() const { return tuned.a4(); }
};

/// `scale` laid against each of `divisions`. @throws Error too_many_divisions
Comparison compare(const TunedScale& scale, const std::vector<EqualDivision>& divisions);

struct ComparisonOptions {
    std::optional<StatedPitch> tonic{}; ///< this and the next as TuningOptions has them
    std::optional<TuningReference> reference{};
    std::vector<EqualDivision> divisions{EqualDivision(12), EqualDivision(53)};

    operator TuningOptions() const { return {tonic, reference}; }
};

/// The same for a scale that is not yet tuned.
/// @throws Error for a tonic or reference that is none, too_many_divisions
Comparison compare(const Scale& scale, const ComparisonOptions& options = {});

/// What `division` makes of `degree`.
ComparedStep compared_step(const EqualDivision& division, const Interval& degree);

} // namespace sectio
