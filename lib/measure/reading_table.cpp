// Readings in a table, as a tuner or a list of notes has them.

#include <sectio/base/csv.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/scale/table_head.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>

namespace sectio::measure {

namespace {

/// Where the columns of a table stand.
struct Columns {
    std::optional<std::size_t> label, hertz, note, deviation, uncertainty, material, length, gauge;
};

/// Of our own table of pitches the figures that nothing was rounded away from, and of half widths
/// that of the pitch, not that of its distance from the lowest.
Columns columns_of(TableHead& head) {
    Columns columns{head.find({"label", "name", "string", "fret"}),
                    head.find({"hzexact", "hz", "frequency", "frequencyhz"}),
                    head.find(note_names),
                    std::nullopt,
                    head.find({"pitchuncertaintycentsexact", "pitchuncertaintycents",
                               "uncertaintycentsexact", "uncertainty", "uncertaintycents", "±"}),
                    head.find({"material"}),
                    head.find({"lengthmm"}),
                    head.find({"gaugemm"})};
    if (const auto deviation = head.find_with_unit(deviation_names, cents_units))
        columns.deviation = deviation->at;
    else
        columns.deviation = head.find({"cents"});
    if (head.find({"hzexact"})) // what it says already
        head.find({"hz"}), head.find({"cents"});
    return columns;
}

std::string cell(const Row& row, const std::optional<std::size_t>& column) {
    return column && *column < row.size() ? row[*column].text : std::string();
}

/// Cells of words alone, in whatever language: a reading has its octave or its frequency.
bool is_heading(const Row& row) {
    return row.size() > 1 && std::none_of(row.begin(), row.end(), [](const CsvCell& c) {
               return c.text.find_first_of("0123456789") != c.text.npos;
           });
}

/// "-41" and "+3.5" as a note's cents; a sign is put before a bare number.
std::string with_deviation(const std::string& note, const std::string& deviation) {
    if (deviation.empty())
        return note;
    return note + (has_sign(deviation) ? "" : "+") + deviation + "c";
}

/// Rows below a heading, or without one.
class ReadingRows {
  public:
    ReadingRows(const Pitch& a4, char separator) : a4_(a4), separator_(separator) {}

    Reading under(const Columns& columns, const Row& row) const {
        const std::string hertz = number(row, columns.hertz), note = cell(row, columns.note);
        const auto column = hertz.empty() ? columns.note : columns.hertz;
        if (!column || *column >= row.size() || row[*column].text.empty())
            throw error(message::reading_missing, row.front().text, row.front().place);
        const bool bare = hertz.find_first_not_of("0123456789.") == hertz.npos;
        const std::string text = hertz.empty()
                                     ? with_deviation(note, number(row, columns.deviation))
                                 : bare ? hertz + "Hz"
                                        : hertz;
        Reading reading = labelled(cell(row, columns.label), text, row[*column].place);
        if (const std::string width = number(row, columns.uncertainty); !width.empty())
            reading.half_width =
                *parse_measured("0c ± " + width + "c", row[*columns.uncertainty].place, nullptr)
                     .uncertainty;
        reading.string = {length(row, columns.length), length(row, columns.gauge),
                          cell(row, columns.material)};
        return reading;
    }

    /// A reading, a label and a reading, or a note and its deviation.
    Reading bare(const Row& row) const {
        check_width(row, 2);
        const std::string second = number(row, 1);
        if (second.empty())
            return parse_reading(row[0].text, a4_, row[0].place);
        if (looks_like_pitch(row[0].text) && is_table_number(second, separator_))
            return labelled("", with_deviation(row[0].text, second), row[0].place);
        return labelled(row[0].text, row[1].text, row[1].place);
    }

  private:
    Reading labelled(const std::string& label, const std::string& text, const Place& place) const {
        Reading reading = parse_reading(text, a4_, place);
        reading.label = label;
        return reading;
    }
    /// Millimetres, or a length with its unit.
    std::optional<Length> length(const Row& row, const std::optional<std::size_t>& column) const {
        const std::string text = number(row, column);
        if (text.empty())
            return std::nullopt;
        return parse_length(is_table_number(text, separator_) ? text + "mm" : text,
                            row[*column].place);
    }
    std::string number(const Row& row, const std::optional<std::size_t>& column) const {
        return with_point(cell(row, column), separator_);
    }

    const Pitch& a4_;
    char separator_;
};

} // namespace

std::vector<Reading> read_reading_table(std::string_view text, const std::string& file_name,
                                        const Pitch& a4, std::vector<std::string>* remarks) {
    const std::vector<Row> rows = read_rows(text, file_name);
    if (rows.empty())
        throw error(message::no_readings, "", {file_name});
    TableHead head(rows.front());
    const Columns columns = columns_of(head);
    const bool has_header = columns.hertz || columns.note;
    if (!has_header && is_heading(rows.front()))
        throw error(message::no_readings, rows.front().front().text, rows.front().front().place);
    const ReadingRows reader(a4, cell_separator(text));
    std::vector<Reading> readings;
    for (std::size_t i = has_header ? 1 : 0; i < rows.size(); ++i) {
        if (has_header)
            head.check(rows[i]);
        readings.push_back(has_header ? reader.under(columns, rows[i]) : reader.bare(rows[i]));
    }
    if (readings.empty())
        throw error(message::no_readings, "", {file_name});
    if (remarks && has_header)
        *remarks = head.remarks();
    return readings;
}

} // namespace sectio::measure
