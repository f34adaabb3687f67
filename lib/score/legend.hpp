#pragma once
/// @file
/// Private to lib/score: the legend of an annotated score, and the table of its written notes. Used
/// by annotate().

#include <sectio/score/note_classes.hpp>

namespace sectio::score {

/// What the numbers are, by which tuning, by which reading: a few short lines.
std::string legend_text(const Annotation& annotation, const AnnotationOptions& options,
                        const std::vector<NoteClass>& classes);

/// Where credits may stand: before the part list. Nowhere in MusicXML 1.0, which did not know them;
/// there the legend stands over the first measure.
std::optional<std::uint64_t> legend_in_header(const Score& score);

/// The legend as credits at the foot of page 1, above what stands there already. Engravers make the
/// head of a score without credits from its titles and creators, and leave that out as soon as
/// there is one; so such a score gets its head as credits too.
std::string legend_credits(const Score& score, const std::string& text, int points);
/// The legend as words over the first measure.
std::string legend_direction(const std::string& text, int points);

/// Rows by height within the octave; a note whose octaves all deviate alike has one row.
std::vector<TableRow> table_of(const std::vector<NoteClass>& classes,
                               const std::vector<std::string>& parts);

} // namespace sectio::score
