#include <sectio/base/csv.hpp>
#include <sectio/base/folded.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/instrument/fret_text.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/interval/expression.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace sectio {

namespace {

Place moved(const Place& place, std::string_view over) {
    return {place.source, place.line, place.column + character_count(over)};
}

FretReading reading_of(std::string_view text, const Place& place) {
    const std::size_t colon = text.find(':');
    FretReading reading{"", parse_measured_length(text.substr(0, colon), place), {}, place};
    if (colon != text.npos)
        reading.to_bridge =
            parse_measured_length(text.substr(colon + 1), moved(place, text.substr(0, colon + 1)));
    return reading;
}

/// A column of lengths: where it stands, and the unit of its bare numbers.
struct LengthColumn {
    std::size_t at = 0;
    std::string unit;
};

/// What follows `name` in a heading, or nothing where the heading is another.
std::optional<std::string> behind(const std::string& heading, std::string_view name) {
    if (!heading.starts_with(name))
        return std::nullopt;
    const std::string rest = heading.substr(name.size());
    return rest.empty() || rest[0] == ' ' || rest[0] == '(' ? std::optional(rest) : std::nullopt;
}

std::optional<LengthColumn> length_column(const Row& header,
                                          std::initializer_list<std::string_view> names) {
    for (std::size_t i = 0; i < header.size(); ++i) {
        std::string heading = folded(header[i].text);
        std::replace(heading.begin(), heading.end(), '_', ' ');
        for (const std::string_view name : names)
            if (auto unit = behind(heading, name)) {
                std::erase_if(*unit, [](char c) { return c == '(' || c == ')' || c == ' '; });
                return LengthColumn{i, *unit};
            }
    }
    return std::nullopt;
}

std::optional<MeasuredLength> length_in(const Row& row, const std::optional<LengthColumn>& column) {
    if (!column || column->at >= row.size() || row[column->at].text.empty())
        return std::nullopt;
    const Cell& cell = row[column->at];
    const bool bare = cell.text.find_first_not_of("0123456789./-± +") == cell.text.npos;
    return parse_measured_length(bare ? cell.text + " " + column->unit : cell.text, cell.place);
}

/// The columns of a table of frets.
struct Columns {
    std::optional<LengthColumn> nut, spacing, bridge, uncertainty, name;
};

Columns columns_of(const Row& header) {
    return {length_column(header, {"nut", "from nut", "place"}),
            length_column(header, {"spacing", "between"}), length_column(header, {"bridge"}),
            length_column(header, {"uncertainty"}),
            length_column(header, {"name", "label", "fret"})};
}

FretReading read_row(const Row& row, const Columns& columns) {
    const auto place = length_in(row, columns.nut ? columns.nut : columns.spacing);
    if (!place)
        throw error(message::fret_row_short, row.front().text, row.front().place);
    FretReading reading{"", *place, length_in(row, columns.bridge), row.front().place};
    if (columns.name && columns.name->at < row.size())
        reading.name = row[columns.name->at].text;
    if (const auto width = length_in(row, columns.uncertainty)) {
        std::vector<FretReading> one{std::move(reading)};
        give_half_width(one, width->figure);
        return std::move(one.front());
    }
    return reading;
}

} // namespace

std::vector<FretReading> parse_fret_list(std::string_view text, const Place& place) {
    std::vector<FretReading> readings;
    Place here{place.source, place.line, std::max<std::size_t>(place.column, 1)};
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;\n", begin), text.size());
        const std::string_view piece = text.substr(begin, end - begin);
        if (!trimmed(piece).empty())
            readings.push_back(reading_of(piece, here));
        here = moved(here, text.substr(begin, end - begin + 1));
        begin = end + 1;
    }
    if (readings.empty())
        throw error(message::no_fret_readings, text, place);
    return readings;
}

FretNotes read_fret_table(std::string_view text, const std::string& file_name) {
    const std::vector<Row> rows = read_rows(text, file_name);
    if (rows.empty())
        throw error(message::no_fret_readings, "", {file_name});
    const Columns columns = columns_of(rows.front());
    const bool has_header = columns.nut || columns.spacing;
    FretNotes notes;
    if (columns.spacing && !columns.nut)
        notes.distances = FretDistances::between;
    for (std::size_t i = has_header ? 1 : 0; i < rows.size(); ++i)
        notes.readings.push_back(has_header
                                     ? read_row(rows[i], columns)
                                     : reading_of(rows[i].front().text, rows[i].front().place));
    if (notes.readings.empty())
        throw error(message::no_fret_readings, "", {file_name});
    return notes;
}

void give_half_width(std::vector<FretReading>& readings, const Length& half_width) {
    for (FretReading& reading : readings) {
        if (!reading.from_nut.half_width)
            reading.from_nut.half_width = half_width;
        if (reading.to_bridge && !reading.to_bridge->half_width)
            reading.to_bridge->half_width = half_width;
    }
}

PitchList fret_pitches(const MeasuredFrets& frets, const std::string& name, const std::string& open,
                       const Pitch& a4) {
    PitchList list;
    list.name = name;
    if (!open.empty()) {
        list.zero = parse_pitch(open, a4, {"--open"});
        list.tonic = open;
    }
    ListedPitch nut;
    nut.written = open.empty() ? "1/1" : open;
    nut.label = "open";
    list.pitches.push_back(nut);
    for (std::size_t i = 0; i < frets.frets.size(); ++i) {
        const MeasuredFret& fret = frets.frets[i];
        ListedPitch pitch;
        pitch.above = {fret.interval, fret.uncertainty, Basis::ruler};
        pitch.written = to_expression(fret.interval);
        pitch.label = fret.name.empty() ? fmt::format("fret {}", i + 1) : fret.name;
        list.pitches.push_back(std::move(pitch));
    }
    return list;
}

} // namespace sectio
