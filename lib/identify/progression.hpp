#pragma once
/// @file
/// Private to lib/identify: the progression of a melody, and what theory makes of it. Each part is
/// explained in docs/identification.md.

#include <sectio/identify/library.hpp>
#include <sectio/identify/stage_table.hpp>
#include <sectio/scale/melody.hpp>

#include <array>
#include <string>
#include <vector>

namespace sectio {

/// A height in bins of stage_table.hpp above the melody's zero, and its share of a stage.
struct Share {
    int bin = 0;
    double share = 0;
};

/// The different heights of a stage, rising; shares add up to 1.
struct StageNotes {
    std::vector<Share> shares;
    double notes = 0; ///< how many there are
};

/// A note of a melody in time, and which stages it belongs to.
struct ProgressionNote {
    int bin = 0;
    std::array<bool, stage_count> in{};
    std::string bar; ///< of a score: the number of its measure
};

/// What the model looks at in a melody.
struct Progression {
    std::vector<ProgressionNote> notes;         ///< of a melody in time
    StageNotes by_time;                         ///< all of it, by time
    std::array<StageNotes, stage_count> stages; ///< of a bag only Stage::whole
    bool in_time = false;
    bool written = false;    ///< zero is the written C4
    bool in_commas = false;  ///< all pitches are whole commas of 53, and not all are semitones
    bool in_twelve = false;  ///< written, and all pitches are semitones
    bool heard = false;      ///< by ear: neither written nor in whole steps of 12 or 53
    bool tonic_said = false; ///< whoever asks names the tonic
    int final_bin = 0;       ///< last note
    /// Mean heights above the zero, for people.
    double beginning_cents = 0, opening_cents = 0, mean_cents = 0;

    const StageNotes& stage(Stage s) const { return stages[static_cast<std::size_t>(s)]; }
    const Strengths& strengths() const {
        return heard ? heard_strengths : in_twelve ? staff_strengths : written_strengths;
    }
};

Progression progression_of(const Melody& melody);

/// The bin that a size in cents falls into.
int bin_of(double cents);

/// Where a histogram has its peaks: the bins above all neighbours within half a comma and more.
std::vector<int> peaks(const std::vector<Share>& shares);

/// True where all pitches are whole steps of the division of the octave.
bool counted_in(const Melody& melody, int steps);

/// Heights that may be the tonic where nothing is known of it: for a melody by ear the peaks of its
/// histogram, else its heights of some weight; and the final note.
std::vector<int> possible_tonics(const Progression& progression);

/// Logarithms of likelihood ratios against a melody whose notes are spread evenly, part by part.
struct ProgressionEvidence {
    std::array<double, stage_count> stages{};
    double place = 0;      ///< where the tonic stands in the notation, and what it is counted in
    double final_note = 0; ///< whether it is the tonic
    double prior = 0;      ///< before the melody is looked at, among the scales of the catalogue
    double of(Stage s) const { return stages[static_cast<std::size_t>(s)]; }
    double total() const;
};

/// For how much a melody counts: 1 where it has as many notes as count at most, less of fewer.
double share_counted(const Progression& progression);

/// The evidence for `scale`, whose tables are `tables`, with its first degree at `tonic`.
ProgressionEvidence progression_evidence(const Progression& progression, const LibraryScale& scale,
                                         const StageTables& tables, int tonic);

/// The evidence that the melody is in a scale that the catalogue lacks.
double unknown_scale_evidence(const Progression& progression);

/// " (+9.7)": the natural logarithm of how much more probable something makes a scale.
std::string in_brackets(double log);

/// The evidence in words, for people.
std::vector<std::string> progression_text(const Progression& progression, const LibraryScale& scale,
                                          int tonic, const ProgressionEvidence& evidence);

} // namespace sectio
