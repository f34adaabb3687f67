#pragma once
/// @file
/// A scale in staff notation: as blocks of a page, and as a score that other programs open.

#include <sectio/page/page.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/score/staff_notes.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

struct StaffOptions {
    std::optional<score::Clef> clef{}; ///< else the one with fewer ledger lines
    std::optional<SignStyle> signs{};  ///< else score::usual_style()
    bool large = false; ///< few notes a staff, for a page whose drawings are made larger
};

/// Staves with the deviation over each note, what the signs mean, and the same as a table for those
/// who do not see it.
std::vector<page::Block> staff_blocks(const TunedScale& scale, const StaffOptions& options = {});

/// The same notes, signs and figures as MusicXML 4.0. Deviations stand as words over the notes,
/// numbers and names as two lines of lyrics; `alter` is what the sign means, in semitones. `digits`
/// after the point of cents; `date` is ISO 8601 or empty.
/// @throws Error octave_out_of_score where a note lies outside octaves 0 to 9, which MusicXML has
std::string staff_musicxml(const TunedScale& scale, const StaffOptions& options,
                           const page::Digits& digits, const std::string& date = "");

} // namespace sectio
