#pragma once
/// @file
/// A plan of frets as a page: the table, what sharing costs, the chart, the template.

#include <sectio/instrument/fret_plan.hpp>
#include <sectio/instrument/neck_shape.hpp>
#include <sectio/page/page.hpp>
#include <sectio/scale/catalogue.hpp>

#include <string>
#include <vector>

namespace sectio {

/// A plan with what stands beside it on paper.
struct FretSheet {
    FretPlan plan;
    Interval up_to;                  ///< how far up the chart goes above each open string
    std::string tonic;               ///< "D4", as written; may be empty
    std::vector<std::string> opens;  ///< of each string, as written: "A3"; may be empty
    std::string date;                ///< ISO 8601; may be empty
    std::optional<NeckShape> neck{}; ///< how the outer strings lie, where it is known
    bool inches = false;             ///< beside millimetres, since lengths were given so

    /// True where the outer strings differ in length, so that the frets slant.
    bool slanted() const { return neck && neck->slanted(); }
};

/// Sources are written out by `catalogue`.
page::Page fret_page(const FretSheet& sheet, const Catalogue& catalogue = Catalogue::installed());

/// The strings of a plan, and what its frets cost each.
page::Table string_table(const FretSheet& sheet);

/// What a degree is called where it is stopped: its name, its note, the interval above the tonic,
/// or its number, whatever of these there is first and is not long.
std::string name_of(const FretPlan& plan, const Stop& stop);
/// The same where there is little room: a long name gives way to the degree's number.
std::string short_name(const FretPlan& plan, const Stop& stop);
/// Of all that a fret serves, each once.
std::string names_of(const FretPlan& plan, const PlannedFret& fret);

} // namespace sectio
