#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/scale/half_width.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/table_columns.hpp>
#include <sectio/scale/table_head.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>
#include <cctype>
#include <set>

namespace sectio {

namespace {

/// Middle C in commas of 53 to the octave counted from C-1, the octave of MIDI key 0.
constexpr int commas_of_c4 = 53 * 5;
/// So many frequencies without a time of their own are a pitch track, one each moment.
constexpr std::size_t least_track = 500;

/// Reads rows one by one into pitches.
class TableReader {
  public:
    TableReader(const Columns& columns, char separator, const NameLookup& names)
        : columns_(columns), separator_(separator), names_(names) {}

    void read(const Row& row) {
        check_width(row, columns_.most);
        if (is_rest(row)) {
            if (!list_.pitches.empty())
                list_.pitches.back().ends_phrase = true;
            return;
        }
        ListedPitch pitch;
        pitch.weight = weight(row);
        if (pitch.weight.numerator() == 0) // a grace note
            return;
        pitch.place = cell(row, columns_.pitch, "pitch").place;
        pitch.written = with_point(cell(row, columns_.pitch, "pitch").text, separator_);
        pitch.label = columns_.label ? cell(row, *columns_.label, "label").text : "";
        read_rests(row);
        read_pitch(row, pitch);
        if (columns_.kind == PitchKind::degrees && pitch.label.empty()
            && pitch.above.figure == list_.period)
            return; // what closes a scale is listed where it has a name
        if (columns_.basis)
            pitch.above.basis = basis_of(cell(row, *columns_.basis, "basis").text);
        if (columns_.uncertainty && !cell(row, *columns_.uncertainty, "uncertainty").text.empty())
            pitch.above.half_width = uncertainty(row);
        onsets_.push_back(columns_.onset ? number(row, *columns_.onset, "onset") : Rational(0));
        list_.pitches.push_back(std::move(pitch));
    }

    PitchList take() {
        sort_by_onset();
        if (!list_.pitches.empty())
            list_.pitches.back().ends_phrase = true;
        const bool track = columns_.kind == PitchKind::hertz && !columns_.weight
                           && list_.pitches.size() >= least_track;
        list_.in_time = columns_.onset || columns_.index || track
                        || (columns_.timed_weight && mostly_repeated());
        list_.remarks = columns_.remarks;
        list_.rising = list_.unison_understood = columns_.kind == PitchKind::degrees;
        list_.counted_from = written() ? MelodyZero::written : MelodyZero::free;
        return std::move(list_);
    }

  private:
    const CsvCell& cell(const Row& row, std::size_t column, std::string_view name) const {
        if (column < row.size())
            return row[column];
        throw error(message::table_row_short, row.front().text, row.front().place, name);
    }

    bool has_number(const Row& row, std::size_t column) const {
        return is_table_number(cell(row, column, "pitch").text, separator_);
    }

    Rational number(const Row& row, std::size_t column, std::string_view name) const {
        const CsvCell& found = cell(row, column, name);
        if (!is_table_number(found.text, separator_))
            throw error(message::table_not_number, found.text, found.place, name);
        return table_number(found.text);
    }

    /// A comma of 0 or less, or a frequency of 0, is silence.
    bool is_rest(const Row& row) const {
        return (columns_.kind == PitchKind::written_commas || columns_.kind == PitchKind::hertz)
               && has_number(row, columns_.pitch)
               && number(row, columns_.pitch, "pitch").numerator() <= 0;
    }

    /// A number, or a fraction such as 3/8.
    Rational weight(const Row& row) const {
        if (!columns_.weight)
            return Rational(1);
        const CsvCell& found = cell(row, *columns_.weight, "weight");
        const std::size_t stroke = std::min(found.text.find('/'), found.text.size());
        const std::string above = found.text.substr(0, stroke);
        const std::string below = stroke < found.text.size() ? found.text.substr(stroke + 1) : "1";
        if (!is_table_number(above, separator_) || !is_table_number(below, separator_)
            || table_number(below).numerator() <= 0)
            throw error(message::table_not_number, found.text, found.place, "weight");
        const Rational value = table_number(above) / table_number(below);
        if (value.numerator() < 0)
            throw error(message::weight_not_positive, found.text, found.place);
        return value;
    }

    Interval uncertainty(const Row& row) const {
        const Rational cents = number(row, *columns_.uncertainty, "uncertainty");
        if (cents.numerator() <= 0)
            throw error(message::uncertainty_negative, row[*columns_.uncertainty].text,
                        row[*columns_.uncertainty].place);
        return Interval::from_cents(cents);
    }

    /// A degree of a sheet.
    void read_degree(const Row& row, ListedPitch& pitch) {
        const CsvCell& found = cell(row, columns_.pitch, "interval");
        pitch.above.figure = parse_interval(found.text, found.place, names_);
        const CsvCell& note = cell(row, *columns_.note, "written_note");
        pitch.note = note.text;
        if (!note.text.empty())
            parse_note_name(note.text, note.place);
    }

    /// What every row says alike: the reference, and in our own tables all that they rest on.
    void read_rests(const Row& row) {
        const auto given = [&](const std::optional<std::size_t>& column, const auto& take) {
            if (column && *column < row.size() && !row[*column].text.empty())
                take(row[*column]);
        };
        if (list_.reference)
            return;
        given(columns_.reference, [&](const CsvCell& c) {
            list_.reference = TuningReference("A4 = " + c.text + " Hz", c.place);
        });
        given(columns_.stated_reference,
              [&](const CsvCell& c) { list_.reference = TuningReference(c.text, c.place); });
        given(columns_.tonic,
              [&](const CsvCell& c) { list_.tonic = parse_tonic(c.text, c.place); });
        given(columns_.signs,
              [&](const CsvCell& c) { list_.signs = parse_sign_style(c.text, c.place); });
        given(columns_.period, [&](const CsvCell& c) {
            if (c.text != "none")
                list_.period = parse_interval(c.text, c.place, names_);
        });
        given(columns_.apart, [&](const CsvCell&) {
            list_.same_within = Interval::from_cents(number(row, *columns_.apart, "apart_cents"));
        });
    }

    void read_pitch(const Row& row, ListedPitch& pitch) {
        if (columns_.kind == PitchKind::degrees)
            return read_degree(row, pitch);
        if (columns_.kind == PitchKind::noted)
            return read_noted(row, pitch);
        const CsvCell& found = cell(row, columns_.pitch, "pitch");
        if (columns_.kind != PitchKind::measured && has_number(row, columns_.pitch))
            return read_number(found, pitch);
        const std::string text = with_unit(with_point(found.text, separator_));
        const WrittenValue read = parse_measured(text, found.place, names_);
        if (!fits_the_column(text, read))
            throw error(message::table_no_such_pitch, found.text, found.place,
                        columns_.kind == PitchKind::hertz ? "Hz" : "c");
        pitch.written = read.text;
        pitch.above.half_width = read.uncertainty;
        if (read.pitch) {
            named_ = named_ && read.pitch->note();
            set_pitch(*read.pitch, Pitch::concert_a(), pitch);
        } else {
            pitch.above.figure = read.interval;
            named_ = false;
        }
    }

    /// "329.6 ± 0.3" in a column of frequencies or cents has the unit that its head says.
    std::string with_unit(const std::string& text) const {
        const bool bare = text.find("±") != std::string::npos
                          && text.find_first_not_of("0123456789. ±") == std::string::npos;
        const bool said = columns_.kind == PitchKind::hertz || columns_.kind == PitchKind::cents;
        return !bare || !said ? text : text + (columns_.kind == PitchKind::cents ? "c" : "Hz");
    }

    /// In a column whose head says the unit, 22-4 is no difference and 386/4 no ratio: what is no
    /// number has its own unit, and is no interval where the column has frequencies.
    bool fits_the_column(const std::string& text, const WrittenValue& read) const {
        const bool has_unit =
            std::any_of(text.begin(), text.end(), [](unsigned char c) { return std::isalpha(c); });
        return columns_.kind == PitchKind::measured
               || (has_unit && (read.pitch || columns_.kind != PitchKind::hertz));
    }

    /// A note, and after it how many cents it is off.
    void read_noted(const Row& row, ListedPitch& pitch) {
        const CsvCell& note = cell(row, columns_.pitch, "note");
        const Rational cents = number(row, *columns_.deviation, "deviation");
        const StatedPitch key(note.text, note.place);
        if (!key.is_key())
            throw error(message::table_note_no_key, note.text, note.place);
        pitch.above.basis = Basis::tuner;
        set_pitch(StatedPitch(*key.note(), cents), reference_of(list_.reference), pitch);
        named_ = false;
    }

    void read_number(const CsvCell& found, ListedPitch& pitch) {
        const Rational value = table_number(found.text);
        named_ = false;
        Interval& interval = pitch.above.figure;
        if (columns_.kind == PitchKind::hertz)
            return set_pitch(StatedPitch::in_hertz(value), Pitch::concert_a(), pitch);
        if (columns_.kind == PitchKind::commas)
            interval = Interval::octave() * (value / Integer(53));
        else if (columns_.kind == PitchKind::written_commas)
            interval = Interval::octave() * ((value - Integer(commas_of_c4)) / Integer(53));
        else
            interval = Interval::from_cents(value);
        pitch.written = to_expression(interval); // with the unit that the column says
    }

    /// Named notes are counted from C4, frequencies from the first.
    void set_pitch(const StatedPitch& stated, const Pitch& a4, ListedPitch& pitch) {
        const Pitch sounding = stated.at(a4);
        pitch.written = stated.text();
        pitch.sounds = stated;
        if (!list_.zero)
            list_.zero = named_ ? pitch_of_key(60) : sounding;
        pitch.above.figure = sounding - *list_.zero;
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
        std::vector<ListedPitch> sorted;
        for (const std::size_t i : order)
            sorted.push_back(std::move(list_.pitches[i]));
        list_.pitches = std::move(sorted);
    }

    /// A count names each pitch once; a melody comes back to its notes.
    bool mostly_repeated() const {
        std::set<std::string> different;
        for (const ListedPitch& pitch : list_.pitches)
            different.insert(pitch.written);
        return 2 * different.size() < list_.pitches.size();
    }

    Columns columns_;
    char separator_;
    const NameLookup& names_;
    PitchList list_;
    std::vector<Rational> onsets_;
    bool named_ = true;
};

} // namespace

PitchList read_pitch_table(std::string_view text, const std::string& file_name,
                           const NameLookup& names) {
    if (text.size() > limits::table_bytes)
        throw error(message::file_too_large, "", {file_name}, limits::table_bytes);
    const std::vector<Row> rows = read_rows(text, file_name);
    if (rows.empty())
        throw error(message::no_pitches, "", {file_name});
    const char separator = cell_separator(text);
    const auto bare = columns_without_header(rows.front(), separator);
    if (rows.size() - (bare ? 0 : 1) > limits::identified_pitches)
        throw error(message::too_many_pitches, "", rows.back().front().place,
                    limits::identified_pitches);
    TableReader reader(bare ? *bare : columns_of(rows.front()), separator, names);
    for (std::size_t i = bare ? 0 : 1; i < rows.size(); ++i)
        reader.read(rows[i]);
    PitchList list = reader.take();
    if (list.pitches.empty())
        throw error(message::no_pitches, "", {file_name});
    list.name = file_name;
    return list;
}

Melody read_table(std::string_view text, const std::string& file_name, const NameLookup& names) {
    return to_melody(read_pitch_table(text, file_name, names));
}

} // namespace sectio
