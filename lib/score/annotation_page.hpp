#pragma once
/// @file
/// An annotation as a page: what the command says, its JSON, and the table for the conductor's
/// desk.

#include <sectio/page/page.hpp>
#include <sectio/score/annotation.hpp>

namespace sectio::score {

struct AnnotationPageOptions {
    std::string file{};                   ///< the score's name, for a title where it has none
    std::string date{};                   ///< ISO 8601; may be empty
    std::optional<Interval> half_width{}; ///< of the widest measured degree
};

page::Page annotation_page(const Annotation& annotation, const AnnotationPageOptions& options);

/// "sign" or "alter", as options and JSON call what a score is read by.
std::string_view word(Source source);
/// "turkish" or "general".
std::string_view word(SignTable table);
/// "practised" or "written".
std::string_view word(Signature signature);

/// Notes that the tuning lacks, for programs, under "unmatched".
page::Table unmatched_notes(const std::vector<Unmatched>& notes, const UnmatchedNames& names);
/// The same for people: each kind once, with its first place.
page::Table unmatched_kinds(const std::vector<Unmatched>& notes, const UnmatchedNames& names);
/// Counts by their reasons.
page::Map counted(const std::map<std::string, std::size_t>& counts);

} // namespace sectio::score
