#include <sectio/base/csv.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/instrument/fret_text.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/scale/table_head.hpp>

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

/// A column of lengths, and the unit of its bare numbers.
using LengthColumn = TableHead::WithUnit;

std::optional<LengthColumn> length_column(TableHead& head,
                                          std::initializer_list<std::string_view> names) {
    return head.find_with_unit(names, {"mm", "cm", "m", "in", "inch", "inches", "\""});
}

/// What `parse` makes of the cell, whose bare numbers have the column's unit.
template <typename Parse>
auto length_in(const Row& row, const std::optional<LengthColumn>& column, char separator,
               const Parse& parse) -> std::optional<decltype(parse("", Place{}))> {
    if (!column || column->at >= row.size() || row[column->at].text.empty())
        return std::nullopt;
    const CsvCell& cell = row[column->at];
    const std::string text = with_point(cell.text, separator);
    const bool bare = text.find_first_not_of("0123456789./-± +") == text.npos;
    return parse(bare ? text + " " + column->unit : text, cell.place);
}

/// The columns of a table of frets.
struct Columns {
    std::optional<LengthColumn> nut, spacing, bridge, uncertainty;
    std::optional<std::size_t> name;
};

Columns columns_of(TableHead& head) {
    const auto nut = length_column(head, {"nut", "fromnut", "place"});
    // Beside places distances from fret to fret say nothing more: a column that is not read.
    const auto spacing = nut ? std::nullopt : length_column(head, {"spacing", "between"});
    return {nut, spacing, length_column(head, {"bridge", "tobridge"}),
            length_column(head, {"uncertainty"}), head.find({"name", "label", "fret"})};
}

FretReading read_row(const Row& row, const Columns& columns, char separator) {
    const auto place = length_in(row, columns.nut ? columns.nut : columns.spacing, separator,
                                 parse_measured_length);
    if (!place)
        throw error(message::fret_row_short, row.front().text, row.front().place);
    FretReading reading{"", *place,
                        length_in(row, columns.bridge, separator, parse_measured_length),
                        row.front().place};
    if (columns.name && *columns.name < row.size())
        reading.name = row[*columns.name].text;
    if (const auto width = length_in(row, columns.uncertainty, separator, parse_half_width)) {
        std::vector<FretReading> one{std::move(reading)};
        give_half_width(one, *width);
        return std::move(one.front());
    }
    return reading;
}

} // namespace

MeasuredLength parse_positive_length(std::string_view text, const Place& place) {
    const MeasuredLength length = parse_measured_length(text, place);
    if (length.figure <= Length())
        throw error(message::length_not_positive, text, place);
    return length;
}

Length parse_half_width(std::string_view text, const Place& place) {
    const Length half_width = parse_length(text, place);
    if (half_width <= Length())
        throw error(message::half_width_not_positive, text, place);
    return half_width;
}

std::vector<FretReading> parse_fret_list(std::string_view text, const Place& place) {
    std::vector<FretReading> readings;
    Place here{place.source, place.line, std::max<std::size_t>(place.column, 1)};
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;\n", begin), text.size());
        const std::string_view piece = text.substr(begin, end - begin);
        if (is_decimal_comma(text, end))
            throw error(message::length_decimal_comma, trimmed(piece), here);
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
    TableHead head(rows.front());
    const Columns columns = columns_of(head);
    const bool has_header = columns.nut || columns.spacing;
    const char separator = cell_separator(text);
    FretNotes notes;
    if (columns.spacing && !columns.nut)
        notes.distances = FretDistances::between;
    notes.headed = has_header;
    if (has_header)
        notes.remarks = head.remarks();
    for (std::size_t i = has_header ? 1 : 0; i < rows.size(); ++i) {
        check_width(rows[i], has_header ? rows.front().size() : 1);
        notes.readings.push_back(has_header
                                     ? read_row(rows[i], columns, separator)
                                     : reading_of(rows[i].front().text, rows[i].front().place));
    }
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

PitchList fret_pitches(const MeasuredFrets& frets, const std::string& name,
                       const std::optional<StatedPitch>& open, const Pitch& a4) {
    PitchList list;
    list.name = name;
    if (open)
        list.zero = open->at(a4);
    list.tonic = open;
    ListedPitch nut;
    nut.written = open ? open->text() : "1/1";
    nut.sounds = open;
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
