#include <sectio/score/legend.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio::score {

namespace {

std::string reading_text(const Annotation& annotation) {
    const Reading& reading = annotation.reading;
    if (reading.source == Source::alter)
        return "Pitches read by their alter values.";
    const bool turkish = reading.table == SignTable::turkish;
    const bool practised = turkish && reading.signature == Signature::practised;
    return fmt::format("Pitches read by their signs, {}{}.",
                       turkish ? "in commas of 53 to the octave" : "in quarter tones",
                       practised ? ", with the key signature's own values" : "");
}

std::string decimal(Beats value) {
    return fmt::format("{}", value.num() / value.den());
}

bool starts_with_sign(std::string_view label) {
    return label.starts_with("♮") || label.starts_with("♯") || label.starts_with("♭");
}

/// A row and the height of its lowest note in the octave, to sort by.
struct Sorted {
    TableRow row;
    Rational height;
    WrittenPitch pitch;
};

Rational in_octave(const WrittenPitch& pitch) {
    return keys_of_letter(pitch.step) + semitones(pitch.alteration);
}

Sorted row_of(const NoteClass& found) {
    const WrittenPitch& pitch = found.nominal;
    return {{text(pitch, NameStyle::ascii),
             plain_name(pitch.step, whole_semitones(pitch.alteration), NameStyle::ascii),
             found.count, std::get<Interval>(found.outcome)},
            in_octave(pitch),
            pitch};
}

/// Notes of one name that deviate differently are told apart by their octaves.
void name_octaves(std::vector<Sorted>& rows) {
    for (Sorted& row : rows)
        for (const Sorted& other : rows)
            if (other.row.written == text(row.pitch, NameStyle::ascii)
                && !(other.row.deviation == row.row.deviation))
                row.row.written = text_with_octave(row.pitch, NameStyle::ascii);
}

} // namespace

std::string legend_text(const Annotation& annotation, const AnnotationOptions& options,
                        const std::vector<NoteClass>& classes) {
    const auto any = [&](auto is) { return std::any_of(classes.begin(), classes.end(), is); };
    std::string text = fmt::format("Numbers: cents from 12 equal steps.\n{}.\n{}",
                                   annotation.tuning, reading_text(annotation));
    if (any([](const NoteClass& note) { return starts_with_sign(note.label); }))
        text += "\nA number after ♮, ♯ or ♭ counts from the note with that sign.";
    if (any([](const NoteClass& note) { return note.label == "?"; }))
        text += "\n?: not in the tuning, or its pitch is not in the score.";
    if (options.pitch == PitchKind::written)
        text += "\nTransposing parts: by written pitch.";
    if (options.changes)
        text += "\nA number holds until the next one of its voice.";
    return text;
}

std::optional<std::uint64_t> legend_in_header(const Score& score) {
    return score.version == "1.0" ? std::nullopt : score.page.part_list_at;
}

std::string legend_credit(const Score& score, const std::string& text) {
    constexpr std::int64_t line = 20; // tenths: one line of 8 pt
    const auto lines = std::count(text.begin(), text.end(), '\n') + 2;
    const PageMarks& page = score.page;
    const Beats left = page.left.value_or(Beats(70, 1));
    Beats bottom = page.bottom.value_or(Beats(70, 1));
    if (page.lowest_credit && *page.lowest_credit < bottom + Beats(line * lines, 1))
        bottom = *page.lowest_credit + Beats(line, 1);
    return fmt::format(
        "<credit page=\"1\"><credit-words default-x=\"{}\" default-y=\"{}\" font-size=\"8\" "
        "justify=\"left\" valign=\"bottom\">{}</credit-words></credit>",
        decimal(left), decimal(bottom), escaped(text));
}

std::string legend_direction(const std::string& text) {
    return fmt::format(
        "<direction placement=\"above\"><direction-type><words font-size=\"8\">{}</words>"
        "</direction-type></direction>",
        escaped(text));
}

std::vector<TableRow> table_of(const std::vector<NoteClass>& classes) {
    std::vector<Sorted> rows;
    for (const NoteClass& found : classes)
        if (found.count > 0)
            rows.push_back(row_of(found));
    name_octaves(rows);
    std::stable_sort(rows.begin(), rows.end(), [](const Sorted& a, const Sorted& b) {
        return std::pair(a.height, a.pitch.octave) < std::pair(b.height, b.pitch.octave);
    });
    std::vector<TableRow> table;
    for (Sorted& sorted : rows) {
        const auto same = std::find_if(table.begin(), table.end(), [&](const TableRow& row) {
            return row.written == sorted.row.written && row.deviation == sorted.row.deviation;
        });
        if (same == table.end())
            table.push_back(std::move(sorted.row));
        else
            same->count += sorted.row.count;
    }
    return table;
}

} // namespace sectio::score
