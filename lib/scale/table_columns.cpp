#include <sectio/scale/messages.hpp>
#include <sectio/scale/table_columns.hpp>
#include <sectio/scale/table_head.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>
#include <cctype>
#include <string>

namespace sectio {

namespace {

struct PitchColumn {
    std::string_view name;
    PitchKind kind;
};

/// The first of these that a header has is the pitch. The comma as written goes before the comma as
/// practised, since theory's scales are what is written.
constexpr PitchColumn pitch_columns[]{{"writtencommas", PitchKind::written_commas},
                                      {"practisedcommas", PitchKind::written_commas},
                                      {"commas", PitchKind::commas},
                                      {"cents", PitchKind::cents},
                                      {"hzexact", PitchKind::hertz},
                                      {"hz", PitchKind::hertz},
                                      {"frequency", PitchKind::hertz},
                                      {"frequencyhz", PitchKind::hertz},
                                      {"interval", PitchKind::measured},
                                      {"ratio", PitchKind::measured},
                                      {"pitch", PitchKind::measured},
                                      {"note", PitchKind::measured},
                                      {"ton", PitchKind::measured},
                                      {"nota", PitchKind::measured}};

/// A tuner's table: the note that it shows, and how far off the needle stands. Where the table has
/// frequencies, intervals or both cents and deviations, these say it all.
std::optional<std::size_t> deviation_from_note(TableHead& header) {
    if (!header.find(note_names)
        || header.find({"hz", "frequency", "frequencyhz", "interval", "ratio", "commas"}))
        return std::nullopt;
    const auto deviation = header.find_with_unit(deviation_names, cents_units);
    const auto cents = header.find({"cents"});
    return deviation && cents ? std::nullopt : deviation ? std::optional(deviation->at) : cents;
}

/// Our own table of measured pitches says what a frequency may be off apart from what its distance
/// from the lowest may: then frequencies are read.
bool has_measured_frequencies(TableHead& header) {
    return header.find({"hz"}) && header.find({"pitchuncertaintycents"})
           && header.find({"referencehz"});
}

/// The table of a sheet has its degrees as intervals, and what they rest on in every row.
bool is_sheet(TableHead& header) {
    return header.find({"writtennote"}) && header.find({"interval"}) && header.find({"period"})
           && header.find({"tonic"}) && header.find({"reference"}) && header.find({"signs"});
}

/// Those of a sheet, which are not the divisions and systems that it compares with.
void read_as_sheet(TableHead& header, Columns& columns) {
    columns.kind = PitchKind::degrees;
    columns.pitch = *header.find({"interval"});
    columns.note = header.find({"writtennote"});
    columns.period = header.find({"period"});
    columns.tonic = header.find({"tonic"});
    columns.stated_reference = header.find({"reference"});
    columns.signs = header.find({"signs"});
}

/// What a frequency may be off is its own; the others' is that of their size.
std::optional<std::size_t> uncertainty_of(TableHead& header, PitchKind kind) {
    if (kind == PitchKind::hertz)
        if (const auto own = header.find(
                {"pitchuncertaintycentsexact", "uncertaintyexact", "pitchuncertaintycents"}))
            return own;
    return header.find({"uncertaintycentsexact", "uncertainty", "uncertaintycents", "±"});
}

} // namespace

Columns columns_of(const Row& row) {
    TableHead header(row);
    Columns columns;
    columns.most = row.size();
    columns.reference = header.find({"referencehz"});
    columns.label = header.find({"label", "name", "string", "fret"});
    columns.deviation = deviation_from_note(header);
    if (is_sheet(header)) {
        read_as_sheet(header, columns);
    } else if (columns.deviation) {
        columns.pitch = *header.find(note_names);
        columns.kind = PitchKind::noted;
    } else if (has_measured_frequencies(header)) {
        columns.pitch = *header.find({"hzexact", "hz"});
        columns.kind = PitchKind::hertz;
        header.find({"hz", "cents", "uncertaintycents"});
        columns.tonic = header.find({"tonic"});
        columns.period = header.find({"period"});
        columns.apart = header.find({"apartcents"});
    } else {
        const auto* found =
            std::find_if(std::begin(pitch_columns), std::end(pitch_columns),
                         [&](const PitchColumn& c) { return header.find({c.name}).has_value(); });
        if (found == std::end(pitch_columns))
            throw error(message::table_no_pitch_column, row.front().text, row.front().place);
        columns.pitch = *header.find({found->name});
        columns.kind = found->kind;
    }
    columns.weight = header.find({"weight", "count", "duration"});
    columns.uncertainty = uncertainty_of(header, columns.kind);
    columns.basis = header.find({"basis"});
    columns.onset = header.find({"onset", "order", "time", "start"});
    columns.index = header.find({"noteindex", "index"});
    columns.timed_weight = header.find({"duration"}).has_value();
    for (const PitchColumn& other : pitch_columns) // understood, though another says it better
        header.find({other.name});
    if (columns.kind != PitchKind::degrees) // of a sheet the others are what it compares with
        columns.remarks = header.remarks();
    return columns;
}

std::optional<Columns> columns_without_header(const Row& row, char separator) {
    const std::string& first = row.front().text;
    const bool number = is_table_number(first, separator);
    if (!number && !looks_like_pitch(first) && !std::isdigit(static_cast<unsigned char>(first[0])))
        return std::nullopt;
    Columns columns;
    columns.most = 2;
    columns.kind = number ? PitchKind::cents : PitchKind::measured;
    if (row.size() > 1)
        columns.weight = 1;
    return columns;
}

} // namespace sectio
