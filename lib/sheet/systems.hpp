#pragma once
/// @file
/// Private to lib/sheet: tuning systems and scales that a sheet compares its scale with, beside the
/// equal divisions.

#include <sectio/page/page.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/sheet/compared.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// The degree of a system that lies nearest to one of the sheet's degrees.
struct SystemStep {
    Integer number; ///< from 1, the tonic, on through the periods
    DegreeAt at;
    Interval error;     ///< that degree minus the sheet's; half way the lower degree counts
    bool equal = false; ///< exactly the same, and neither was measured
};

/// A system laid from the sheet's tonic.
struct ComparedSystem {
    TunedScale tuned;
    std::vector<SystemStep> steps; ///< one a row of rows_of()
    Interval max_error;            ///< over the degrees above the tonic, not negative
    std::size_t worst = 0;         ///< index in Comparison::degrees of the first that has it
    std::vector<Interval> errors;  ///< of the degrees above the tonic

    const Scale& scale() const { return tuned.scale(); }
    /// A degree of its own with its number.
    SystemStep step_at(const DegreeAt& at) const;
    /// As its author calls the degree; the tonic's name where the period has none.
    const std::string& degree_name(const SystemStep& step) const;
    /// "5 Segâh".
    std::string degree_text(const SystemStep& step) const;
    /// Half width of a degree, and of all.
    std::optional<page::HalfWidth> half_width(const SystemStep& step) const;
    page::Number borne_by_all(page::Number figure) const;
};

/// Each of `systems` from the tonic of `comparison`.
std::vector<ComparedSystem> compared_systems(const Comparison& comparison,
                                             const std::vector<Scale>& systems);

/// Adds nearest degree and error to the table of degrees, `against[first + k]` for programs.
void add_systems(page::Table& table, const Comparison& comparison,
                 const std::vector<ComparedSystem>& systems);
/// The marks of a system on a ruler of `span`, named as the system names them.
page::Ruler::Line system_line(const ComparedSystem& system, const Interval& span);
/// Where the systems come from, by `catalogue`; with `table` also what its columns mean.
std::vector<page::Paragraph> system_notes(const std::vector<ComparedSystem>& systems, bool table,
                                          const Catalogue& catalogue);

} // namespace sectio
