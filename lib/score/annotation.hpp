#pragma once
/// @file
/// A score annotated with each note's deviation from 12 equal steps: the answer that the command,
/// its JSON and the conductor's key print.

#include <sectio/score/insertion.hpp>
#include <sectio/score/reading.hpp>
#include <sectio/score/tuning.hpp>

#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace sectio::score {

/// What the deviations are written as.
enum class TextKind {
    words, ///< a <direction> with <words> before the note or its chord
    lyric, ///< a further <lyric> line
};
enum class Placement { above, below };

/// Which of a transposing part's pitches meets the scale.
enum class PitchKind {
    sounding, ///< as it is heard, since a tonic is a sounding pitch
    written,  ///< as the player reads it
};

struct AnnotationOptions {
    TextKind kind = TextKind::words;
    std::optional<Placement>
        placement{};      ///< words stand above and lyrics below unless said otherwise
    int places = 0;       ///< digits after the point
    int points = 9;       ///< size of type of the texts and the legend, 4 to 40
    bool changes = false; ///< a text only where it differs from the last one of its voice
    PitchKind pitch = PitchKind::sounding;
    ReadingChoice reading{};
};

/// One line of the table: a written note, how often it comes, how far it deviates.
struct TableRow {
    std::string written;           ///< "F#", or with its octave where octaves differ
    std::string base;              ///< the note of 12 equal steps that the deviation counts from
    std::string shown, shown_base; ///< the same with the signs of print
    std::size_t count = 0;
    Interval deviation;
    std::vector<std::string> parts; ///< that have it, in the order of the score
};

/// A note that the tuning lacks or that could not be read. It is marked `?` in the score.
struct Unmatched {
    std::uint32_t part = 0, measure = 0, pitch = 0, reason = 0; ///< in UnmatchedNames
};

struct UnmatchedNames {
    std::vector<std::string> parts, measures, pitches, reasons;
};

struct Annotation {
    std::string title; ///< of the work; may be empty
    Reading reading;
    std::string tuning;    ///< the legend's name of it
    std::string cure;      ///< what may be done about notes that it lacks
    std::size_t notes = 0; ///< all but rests; annotated + skipped + unmatched
    std::size_t annotated =
        0; ///< notes whose deviation is known; with `changes` also the silent ones
    std::size_t skipped = 0; ///< by the reasons below
    std::size_t texts = 0;   ///< texts put into the score, the legend apart
    std::size_t rests = 0;
    std::map<std::string, std::size_t> skipped_because;
    std::vector<Unmatched> unmatched;
    std::vector<TableRow> table;    ///< by height within the octave
    std::vector<std::string> parts; ///< that have notes
    UnmatchedNames names;
    std::map<std::string, std::size_t> unknown_signs; ///< sign names that the standard lacks
    std::string legend;
    Insertions insertions;
};

/// Annotates. The score's own bytes are not needed: insertions name places in them.
/// @throws Error digits_out_of_range for places beyond 6, score_text_size
Annotation annotate(const Score& score, const NoteTuning& tuning, const AnnotationOptions& options);

/// The whole of it in memory: a MusicXML file, plain or compressed, with its annotations.
/// @throws Error as annotate(), and those of reading the file
std::string annotated(std::string musicxml, const NoteTuning& tuning,
                      const AnnotationOptions& options = {});
/// The same with the degrees of `scale`, as tuning_by_scale() takes them.
std::string annotated(std::string musicxml, const TunedScale& scale,
                      const AnnotationOptions& options = {});

/// A deviation as players read it: "+4", "−14", "0"; digits correctly rounded.
std::string deviation_text(const Interval& deviation, int places);

/// Writes the annotated document as `file`: compressed where its name ends in .mxl, plain where it
/// ends in .musicxml or .xml, else as it came; a plain one that came so is never in memory twice.
/// @throws Error, as write_whole() does
void write_annotated(const Document& document, const Annotation& annotation,
                     const std::filesystem::path& file);

/// The same in memory.
std::string annotated_file(const Document& document, const Annotation& annotation);

} // namespace sectio::score
