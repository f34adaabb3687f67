// Readings as people write them: one, a list, a table.

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
#include <regex>

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

/// `E4 -41`, `E4-41ct` and `E4 41 cents flat` as `E4-41c`; anything else as it stands.
std::string as_note_and_cents(std::string_view text) {
    static const std::regex spelling(
        "([A-Ga-g](?:#|b|♯|♭)*-?[0-9]+)\\s*([-+]|−)?\\s*([0-9]+(?:\\.[0-9]+)?)\\s*"
        "(?:cents|cent|ct|c|¢)?\\s*(flat|sharp)?");
    constexpr std::size_t longest = 80; // std::regex goes deep on long texts
    std::cmatch found;
    if (text.size() > longest || !std::regex_match(text.begin(), text.end(), found, spelling))
        return std::string(text);
    const bool said = found[4].matched;
    if (said == found[2].matched) // twice or not at all
        return std::string(text);
    const std::string sign = said ? (found[4] == "flat" ? "-" : "+") : found[2].str();
    return found[1].str() + sign + found[3].str() + "c";
}

/// D3 of `D3-60c`.
std::optional<Pitch> written_note(const std::string& text, const Pitch& a4) {
    static const std::regex name("[A-Ga-g](?:#|b|♯|♭)*-?[0-9]{1,2}(?![0-9.]|\\s*[Hh][Zz])");
    std::smatch found;
    if (!std::regex_search(text, found, name, std::regex_constants::match_continuous))
        return std::nullopt;
    return parse_pitch(found.str(), a4);
}

Reading reading_of(std::string label, std::string_view text, const Pitch& a4, const Place& place) {
    const std::size_t sign = std::min({text.find("±"), text.find("+-"), text.size()});
    const std::string plain =
        as_note_and_cents(trimmed(text.substr(0, sign))).append(text.substr(sign));
    const std::string_view written = plain;
    const bool has_width = written.find("±") != written.npos || written.find("+-") != written.npos;
    if (!has_width) {
        const Pitch pitch = parse_pitch(written, a4, place);
        return {std::move(label), pitch, half_digit(written, pitch), written_note(plain, a4)};
    }
    const WrittenValue read = parse_measured(written, place, nullptr);
    if (!read.pitch)
        throw error(message::reading_not_pitch, written, place);
    return {std::move(label), read.pitch->at(a4), *read.uncertainty, written_note(plain, a4)};
}

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
    const bool has_sign =
        deviation.starts_with('+') || deviation.starts_with('-') || deviation.starts_with("−");
    return note + (has_sign ? "" : "+") + deviation + "c";
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
        Reading reading = reading_of(cell(row, columns.label), text, a4_, row[*column].place);
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
            return reading_of("", with_deviation(row[0].text, second), a4_, row[0].place);
        return reading_of(row[0].text, row[1].text, a4_, row[1].place);
    }

  private:
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

/// How much of `text` is its first reading: "D4 " of "D4 E4 -29c F4", where blanks alone stand
/// between readings.
std::size_t first_reading(std::string_view text) {
    std::string_view before;
    for (std::size_t at = 0;;) {
        const std::size_t begin = text.find_first_not_of(' ', at);
        if (begin == text.npos)
            break;
        at = std::min(text.find(' ', begin), text.size());
        const std::string_view word = text.substr(begin, at - begin);
        const bool is_width = before.ends_with("±") || before.ends_with("+-");
        if (!before.empty() && !is_width && looks_like_pitch(word))
            return begin;
        before = word;
    }
    return text.size();
}

} // namespace

Reading parse_reading(std::string_view text, const Pitch& a4, const Place& place) {
    const std::size_t mark = text.find_first_of("=:");
    if (mark == text.npos)
        return reading_of("", text, a4, place);
    const std::string label(trimmed(text.substr(0, mark)));
    const std::size_t column = place.column + character_count(text.substr(0, mark + 1));
    return reading_of(label, text.substr(mark + 1), a4, {place.source, place.line, column});
}

std::vector<Reading> parse_readings(std::string_view text, const Pitch& a4, const Place& place) {
    std::vector<Reading> readings;
    std::size_t column = std::max<std::size_t>(place.column, 1);
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;\n", begin), text.size());
        const std::string_view piece = text.substr(begin, end - begin);
        const bool is_labelled = piece.find_first_of("=:") != piece.npos;
        for (std::size_t at = 0; at < piece.size();) {
            const std::string_view rest = piece.substr(at);
            const std::string_view one =
                rest.substr(0, is_labelled ? rest.npos : first_reading(rest));
            if (!trimmed(one).empty())
                readings.push_back(parse_reading(one, a4, {place.source, place.line, column}));
            column += character_count(one);
            at += one.size();
        }
        ++column;
        begin = end + 1;
    }
    if (readings.empty())
        throw error(message::no_readings, text, place);
    return readings;
}

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
