#include <sectio/base/csv.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>
#include <cctype>
#include <optional>
#include <set>

namespace sectio {

namespace {

/// Middle C in commas of 53 to the octave counted from C-1, the octave of MIDI key 0.
constexpr int commas_of_c4 = 53 * 5;

/// How the pitch column is to be read.
enum class PitchKind { measured, cents, hertz, commas, written_commas };

struct PitchColumn {
    std::string_view name;
    PitchKind kind;
};

/// The first of these that a header has is the pitch. The comma as written goes before the comma as
/// practised, since theory's scales are what is written.
constexpr PitchColumn pitch_columns[]{{"commaae", PitchKind::written_commas},
                                      {"comma53", PitchKind::written_commas},
                                      {"commas", PitchKind::commas},
                                      {"comma", PitchKind::commas},
                                      {"cents", PitchKind::cents},
                                      {"hz", PitchKind::hertz},
                                      {"frequency", PitchKind::hertz},
                                      {"frequencyhz", PitchKind::hertz},
                                      {"interval", PitchKind::measured},
                                      {"ratio", PitchKind::measured},
                                      {"pitch", PitchKind::measured},
                                      {"note", PitchKind::measured}};

struct Columns {
    std::size_t pitch = 0;
    PitchKind kind = PitchKind::cents;
    std::optional<std::size_t> weight, numerator, denominator, uncertainty, onset, index;
    bool timed_weight = false; ///< the weight is a duration
};

std::string plain(std::string_view name) {
    std::string result;
    for (const char c : folded(name))
        if (c != ' ' && c != '_' && c != '(' && c != ')')
            result += c;
    return result;
}

class Header {
  public:
    explicit Header(const Row& row) {
        for (const Cell& cell : row)
            names_.push_back(plain(cell.text));
    }

    std::optional<std::size_t> find(std::initializer_list<std::string_view> wanted) const {
        for (const std::string_view name : wanted)
            if (const auto it = std::find(names_.begin(), names_.end(), name); it != names_.end())
                return static_cast<std::size_t>(it - names_.begin());
        return std::nullopt;
    }

  private:
    std::vector<std::string> names_;
};

Columns columns_of(const Row& row) {
    const Header header(row);
    Columns columns;
    const auto* found =
        std::find_if(std::begin(pitch_columns), std::end(pitch_columns),
                     [&](const PitchColumn& c) { return header.find({c.name}).has_value(); });
    if (found == std::end(pitch_columns))
        throw error(message::table_no_pitch_column, row.front().text, row.front().place);
    columns.pitch = *header.find({found->name});
    columns.kind = found->kind;
    columns.weight = header.find({"weight", "count", "duration"});
    columns.numerator = header.find({"num"});
    columns.denominator = header.find({"den"});
    columns.uncertainty = header.find({"uncertainty", "uncertaintycents"});
    columns.onset = header.find({"onset", "order", "time", "start"});
    columns.index = header.find({"noteindex", "index"});
    columns.timed_weight =
        header.find({"duration"}).has_value() || (columns.numerator && columns.denominator);
    return columns;
}

bool is_decimal(std::string_view text) {
    if (text.starts_with('-'))
        text.remove_prefix(1);
    const std::size_t points = static_cast<std::size_t>(std::count(text.begin(), text.end(), '.'));
    return !text.empty() && text.find_first_not_of("0123456789.") == text.npos && points < 2
           && text.find_first_of("0123456789") != text.npos && !text.starts_with('.')
           && !text.ends_with('.') && text.size() < 40;
}

/// A first row of numbers or pitches is data; words are a header.
std::optional<Columns> columns_without_header(const Row& row) {
    const std::string& first = row.front().text;
    if (is_decimal(first)) {
        Columns columns;
        if (row.size() > 1)
            columns.weight = 1;
        return columns;
    }
    if (!looks_like_pitch(first) && !std::isdigit(static_cast<unsigned char>(first[0])))
        return std::nullopt;
    Columns columns;
    columns.kind = PitchKind::measured;
    if (row.size() > 1)
        columns.weight = 1;
    return columns;
}

const Cell& cell(const Row& row, std::size_t column, std::string_view name) {
    if (column < row.size())
        return row[column];
    throw error(message::table_row_short, row.front().text, row.front().place, name);
}

Rational number(const Row& row, std::size_t column, std::string_view name) {
    const Cell& found = cell(row, column, name);
    if (!is_decimal(found.text))
        throw error(message::table_not_number, found.text, found.place, name);
    return parse_decimal(found.text);
}

/// Reads rows one by one into notes.
class TableReader {
  public:
    TableReader(Columns columns, const NameLookup& names) : columns_(columns), names_(names) {}

    void read(const Row& row) {
        if (is_rest(row)) {
            if (!melody_.notes.empty())
                melody_.notes.back().ends_phrase = true;
            return;
        }
        WeightedPitch note;
        note.weight = weight(row);
        if (note.weight.numerator() == 0) // a grace note
            return;
        read_pitch(row, note);
        if (columns_.uncertainty && !cell(row, *columns_.uncertainty, "uncertainty").text.empty())
            note.uncertainty = uncertainty(row);
        onsets_.push_back(columns_.onset ? number(row, *columns_.onset, "onset") : Rational(0));
        melody_.notes.push_back(std::move(note));
    }

    Melody take() {
        sort_by_onset();
        if (!melody_.notes.empty())
            melody_.notes.back().ends_phrase = true;
        melody_.in_time =
            columns_.onset || columns_.index || (columns_.timed_weight && mostly_repeated());
        melody_.zero = written() ? MelodyZero::written : MelodyZero::free;
        return std::move(melody_);
    }

  private:
    bool is_rest(const Row& row) const {
        return columns_.kind == PitchKind::written_commas
               && is_decimal(cell(row, columns_.pitch, "comma").text)
               && number(row, columns_.pitch, "comma").numerator() <= 0;
    }

    Rational weight(const Row& row) const {
        Rational weight(1);
        if (columns_.weight)
            weight = number(row, *columns_.weight, "weight");
        else if (columns_.numerator && columns_.denominator) {
            const Rational below = number(row, *columns_.denominator, "den");
            weight = below.numerator() == 0 ? Rational(0)
                                            : number(row, *columns_.numerator, "num") / below;
        }
        if (weight.numerator() < 0)
            throw error(message::weight_not_positive, row[columns_.weight.value_or(0)].text,
                        row[columns_.weight.value_or(0)].place);
        return weight;
    }

    Interval uncertainty(const Row& row) const {
        const Rational cents = number(row, *columns_.uncertainty, "uncertainty");
        if (cents.numerator() <= 0)
            throw error(message::uncertainty_negative, row[*columns_.uncertainty].text,
                        row[*columns_.uncertainty].place);
        return Interval::from_cents(cents);
    }

    void read_pitch(const Row& row, WeightedPitch& note) {
        const Cell& found = cell(row, columns_.pitch, "pitch");
        if (columns_.kind != PitchKind::measured && is_decimal(found.text))
            return read_number(found, note);
        const WrittenFigure read = parse_measured(found.text, found.place, names_);
        note.uncertainty = read.uncertainty;
        if (read.pitch) {
            named_ = named_ && found.text.find("z") == std::string::npos;
            set_pitch(*read.pitch, note);
        } else {
            note.interval = read.interval;
            named_ = false;
        }
    }

    void read_number(const Cell& found, WeightedPitch& note) {
        const Rational value = parse_decimal(found.text);
        named_ = false;
        switch (columns_.kind) {
        case PitchKind::hertz:
            return set_pitch(parse_pitch(found.text + "Hz", Pitch::concert_a(), found.place), note);
        case PitchKind::commas:
            note.interval = Interval::octave() * (value / Integer(53));
            return;
        case PitchKind::written_commas:
            note.interval = Interval::octave() * ((value - Integer(commas_of_c4)) / Integer(53));
            return;
        case PitchKind::cents:
        case PitchKind::measured:
            note.interval = Interval::from_cents(value);
        }
    }

    /// Named notes are counted from C4, frequencies from the first.
    void set_pitch(const Pitch& pitch, WeightedPitch& note) {
        if (!melody_.sounding_zero)
            melody_.sounding_zero = named_ ? pitch_of_key(60) : pitch;
        note.interval = pitch - *melody_.sounding_zero;
    }

    bool written() const {
        return columns_.kind == PitchKind::written_commas
               || (named_ && columns_.kind == PitchKind::measured);
    }

    void sort_by_onset() {
        if (!columns_.onset)
            return;
        std::vector<std::size_t> order(onsets_.size());
        for (std::size_t i = 0; i < order.size(); ++i)
            order[i] = i;
        std::stable_sort(order.begin(), order.end(),
                         [&](std::size_t a, std::size_t b) { return onsets_[a] < onsets_[b]; });
        std::vector<WeightedPitch> sorted;
        for (const std::size_t i : order)
            sorted.push_back(melody_.notes[i]);
        melody_.notes = std::move(sorted);
    }

    /// A count names each pitch once; a melody comes back to its notes.
    bool mostly_repeated() const {
        std::set<std::string> different;
        for (const WeightedPitch& note : melody_.notes)
            different.insert(to_expression(note.interval));
        return 2 * different.size() < melody_.notes.size();
    }

    Columns columns_;
    const NameLookup& names_;
    Melody melody_;
    std::vector<Rational> onsets_;
    bool named_ = true;
};

} // namespace

Melody read_table(std::string_view text, const std::string& file_name, const NameLookup& names) {
    if (text.size() > limits::table_bytes)
        throw error(message::file_too_large, "", {file_name}, limits::table_bytes);
    const std::vector<Row> rows = read_rows(text, file_name);
    if (rows.empty())
        throw error(message::no_pitches, "", {file_name});
    if (rows.size() > limits::identified_pitches)
        throw error(message::too_many_pitches, "", rows.back().front().place,
                    limits::identified_pitches);
    const auto bare = columns_without_header(rows.front());
    TableReader reader(bare ? *bare : columns_of(rows.front()), names);
    for (std::size_t i = bare ? 0 : 1; i < rows.size(); ++i)
        reader.read(rows[i]);
    Melody melody = reader.take();
    if (melody.notes.empty())
        throw error(message::no_pitches, "", {file_name});
    melody.name = file_name;
    return melody;
}

} // namespace sectio
