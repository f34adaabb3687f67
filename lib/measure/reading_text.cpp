// Readings as people write them: one, a list, a table.

#include <sectio/base/csv.hpp>
#include <sectio/base/folded.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>
#include <array>

namespace sectio::measure {

namespace {

/// Digits after the last point of `text`; 0 where it has none.
int last_digits(std::string_view text) {
    const std::size_t point = text.rfind('.');
    if (point == text.npos)
        return 0;
    const std::size_t end = text.find_first_not_of("0123456789", point + 1);
    return static_cast<int>(std::min(end, text.size()) - point - 1);
}

/// Half a unit of the last digit that was read: in hertz for a frequency, else in cents.
Interval half_digit(std::string_view text, const Pitch& pitch) {
    const Rational half(1, 2 * power_of_ten(last_digits(text)));
    const bool is_note = text.find_first_of("ABCDEFGabcdefg") == 0;
    const auto hertz = is_note ? std::nullopt : pitch.above_hertz().ratio();
    if (!hertz)
        return Interval::from_cents(half);
    const Rational up = (*hertz + half) / *hertz;
    return Interval::from_ratio(up.numerator(), up.denominator());
}

Reading reading_of(std::string label, std::string_view text, const Pitch& a4, const Place& place) {
    const std::string_view written = trimmed(text);
    const bool has_width = written.find("±") != written.npos || written.find("+-") != written.npos;
    if (!has_width) {
        const Pitch pitch = parse_pitch(written, a4, place);
        return {std::move(label), pitch, half_digit(written, pitch)};
    }
    // parse_measured() knows concert pitch alone; what was meant lies as far from the A4 of today.
    const WrittenFigure read = parse_measured(written, place, nullptr);
    if (!read.pitch)
        throw error(message::reading_not_pitch, written, place);
    const bool is_note = written.find_first_of("ABCDEFGabcdefg") == 0;
    const Pitch pitch = is_note ? a4 + (*read.pitch - Pitch::concert_a()) : *read.pitch;
    return {std::move(label), pitch, *read.uncertainty};
}

/// Where the columns of a table stand.
struct Columns {
    std::optional<std::size_t> label, hertz, note, deviation, uncertainty;
};

std::optional<std::size_t> find(const Row& row, std::initializer_list<std::string_view> names) {
    for (const std::string_view name : names)
        for (std::size_t i = 0; i < row.size(); ++i)
            if (folded(row[i].text) == name)
                return i;
    return std::nullopt;
}

Columns columns_of(const Row& header) {
    return {find(header, {"label", "name", "string", "fret"}),
            find(header, {"hz", "frequency", "frequency_hz"}), find(header, {"note", "pitch"}),
            find(header, {"deviation", "deviation_cents", "cents"}),
            find(header, {"uncertainty", "uncertainty_cents"})};
}

std::string cell(const Row& row, const std::optional<std::size_t>& column) {
    return column && *column < row.size() ? row[*column].text : std::string();
}

/// "-41" and "+3.5" as a note's cents; a sign is put before a bare number.
std::string with_deviation(const std::string& note, const std::string& deviation) {
    if (deviation.empty())
        return note;
    const bool has_sign =
        deviation.starts_with('+') || deviation.starts_with('-') || deviation.starts_with("−");
    return note + (has_sign ? "" : "+") + deviation + "c";
}

Reading read_row(const Row& row, const Columns& columns, const Pitch& a4) {
    const std::string hertz = cell(row, columns.hertz), note = cell(row, columns.note);
    const auto column = hertz.empty() ? columns.note : columns.hertz;
    if (!column || *column >= row.size() || row[*column].text.empty())
        throw error(message::reading_missing, row.front().text, row.front().place);
    const bool bare = hertz.find_first_not_of("0123456789.") == hertz.npos;
    const std::string text = hertz.empty() ? with_deviation(note, cell(row, columns.deviation))
                             : bare        ? hertz + "Hz"
                                           : hertz;
    Reading reading = reading_of(cell(row, columns.label), text, a4, row[*column].place);
    if (const std::string width = cell(row, columns.uncertainty); !width.empty())
        reading.half_width =
            *parse_measured("0c ± " + width + "c", row[*columns.uncertainty].place, nullptr)
                 .uncertainty;
    return reading;
}

/// A reading, or a label and a reading.
Reading read_bare_row(const Row& row, const Pitch& a4) {
    const bool labelled = row.size() > 1;
    const Cell& reading = row[labelled ? 1 : 0];
    return reading_of(labelled ? row.front().text : "", reading.text, a4, reading.place);
}

} // namespace

Reading parse_reading(std::string_view text, const Pitch& a4, const Place& place) {
    const std::size_t equals = text.find('=');
    if (equals == text.npos)
        return reading_of("", text, a4, place);
    const std::string label(trimmed(text.substr(0, equals)));
    const std::size_t column = place.column + character_count(text.substr(0, equals + 1));
    return reading_of(label, text.substr(equals + 1), a4, {place.source, place.line, column});
}

std::vector<Reading> parse_readings(std::string_view text, const Pitch& a4, const Place& place) {
    std::vector<Reading> readings;
    std::size_t column = std::max<std::size_t>(place.column, 1);
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;\n", begin), text.size());
        const std::string_view piece = text.substr(begin, end - begin);
        if (!trimmed(piece).empty())
            readings.push_back(parse_reading(piece, a4, {place.source, place.line, column}));
        column += character_count(piece) + 1;
        begin = end + 1;
    }
    if (readings.empty())
        throw error(message::no_readings, text, place);
    return readings;
}

std::vector<Reading> read_reading_table(std::string_view text, const std::string& file_name,
                                        const Pitch& a4) {
    const std::vector<Row> rows = read_rows(text, file_name);
    if (rows.empty())
        throw error(message::no_readings, "", {file_name});
    const Columns columns = columns_of(rows.front());
    const bool has_header = columns.hertz || columns.note;
    std::vector<Reading> readings;
    for (std::size_t i = has_header ? 1 : 0; i < rows.size(); ++i)
        readings.push_back(has_header ? read_row(rows[i], columns, a4)
                                      : read_bare_row(rows[i], a4));
    if (readings.empty())
        throw error(message::no_readings, "", {file_name});
    return readings;
}

} // namespace sectio::measure
