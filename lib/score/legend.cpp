#include <sectio/base/markup.hpp>
#include <sectio/score/legend.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

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

/// The page, where a score states none: A4 with margins of half an inch, a staff 7 mm high (40
/// tenths).
struct Page {
    explicit Page(const PageMarks& marks)
        : left(marks.left.value_or(QuarterNotes(70, 1))),
          bottom(marks.bottom.value_or(QuarterNotes(70, 1))),
          right(marks.width.value_or(QuarterNotes(1200, 1))
                - marks.right.value_or(QuarterNotes(70, 1))),
          top(marks.height.value_or(QuarterNotes(1697, 1))
              - marks.top.value_or(QuarterNotes(70, 1))) {}
    QuarterNotes left, bottom, right,
        top; ///< of the printed area, from the page's lower left corner
};

/// Engravers run the lines of one credit together, so each line is a credit.
std::vector<std::string_view> lines_of(std::string_view text) {
    std::vector<std::string_view> lines;
    for (std::size_t end = text.find('\n'); end != std::string_view::npos; end = text.find('\n')) {
        lines.push_back(text.substr(0, end));
        text.remove_prefix(end + 1);
    }
    lines.push_back(text);
    return lines;
}

std::string decimal(QuarterNotes value) {
    return fmt::format("{}", value.num() / value.den());
}

struct CreditStyle {
    std::string_view type; ///< credit-type; may be empty
    QuarterNotes x, y;
    int points;
    std::string_view justify, valign;
};

std::string credit(const CreditStyle& style, std::string_view text) {
    if (text.empty())
        return "";
    const std::string type =
        style.type.empty() ? "" : fmt::format("<credit-type>{}</credit-type>", style.type);
    return fmt::format("<credit page=\"1\">{}<credit-words default-x=\"{}\" default-y=\"{}\" "
                       "font-size=\"{}\" justify=\"{}\" valign=\"{}\">{}</credit-words></credit>",
                       type, decimal(style.x), decimal(style.y), style.points, style.justify,
                       style.valign, escaped(text));
}

/// Titles in the middle, the poet on the left and the composer on the right.
std::string head_credits(const PageMarks& marks, const Page& page) {
    const QuarterNotes middle = (page.left + page.right) / QuarterNotes(2, 1);
    const bool both = !marks.work.empty() && !marks.movement.empty();
    const QuarterNotes second = page.top - QuarterNotes(70, 1),
                       third = page.top - QuarterNotes(110, 1);
    return credit({"title", middle, page.top, 22, "center", "top"},
                  marks.work.empty() ? marks.movement : marks.work)
           + credit({"subtitle", middle, second, 14, "center", "top"}, both ? marks.movement : "")
           + credit({"lyricist", page.left, third, 10, "left", "bottom"}, marks.lyricist)
           + credit({"composer", page.right, third, 10, "right", "bottom"}, marks.composer);
}

bool starts_with_sign(std::string_view label) {
    return label.starts_with("♮") || label.starts_with("♯") || label.starts_with("♭");
}

/// A row and the height of its lowest note in the octave, to sort by.
struct Sorted {
    TableRow row;
    Rational height;
    WrittenPitch pitch;
    std::set<std::uint16_t> parts;
};

Rational in_octave(const WrittenPitch& pitch) {
    return keys_of_letter(pitch.step) + semitones(pitch.alteration);
}

Sorted row_of(const NoteClass& found) {
    const WrittenPitch& pitch = found.nominal;
    const int sharps = whole_semitones(pitch.alteration);
    TableRow row;
    row.written = text(pitch, NameStyle::ascii);
    row.shown = text(pitch, NameStyle::unicode);
    row.base = plain_name(pitch.step, sharps, NameStyle::ascii);
    row.shown_base = plain_name(pitch.step, sharps, NameStyle::unicode);
    row.count = found.count;
    row.deviation = std::get<Interval>(found.outcome);
    return {row, in_octave(pitch), pitch, {found.parts.begin(), found.parts.end()}};
}

/// Notes of one name that deviate differently are told apart by their octaves.
void name_octaves(std::vector<Sorted>& rows) {
    std::map<std::string, std::vector<Sorted*>> names;
    for (Sorted& row : rows)
        names[row.row.written].push_back(&row);
    for (const auto& entry : names) {
        const std::vector<Sorted*>& same = entry.second;
        const bool alike = std::all_of(same.begin(), same.end(), [&](const Sorted* row) {
            return row->row.deviation == same.front()->row.deviation;
        });
        for (Sorted* row : alike ? std::vector<Sorted*>{} : same) {
            row->row.written = text_with_octave(row->pitch, NameStyle::ascii);
            row->row.shown = text_with_octave(row->pitch, NameStyle::unicode);
        }
    }
}

/// In the order of the rows; those of one name and deviation become one.
std::vector<TableRow> joined(std::vector<Sorted> rows, const std::vector<std::string>& parts) {
    std::vector<Sorted> table;
    std::map<std::pair<std::string, Interval>, std::size_t> places;
    for (Sorted& row : rows) {
        const auto [place, added] =
            places.try_emplace({row.row.written, row.row.deviation}, table.size());
        if (added) {
            table.push_back(std::move(row));
            continue;
        }
        Sorted& same = table[place->second];
        same.row.count += row.row.count;
        same.parts.merge(row.parts);
    }
    std::vector<TableRow> result;
    for (Sorted& row : table) {
        for (const std::uint16_t part : row.parts)
            row.row.parts.push_back(parts[part]);
        result.push_back(std::move(row.row));
    }
    return result;
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

std::string legend_credits(const Score& score, const std::string& text, int points) {
    // A point is 0.3528 mm, two tenths of a staff space of 7/4 mm; a line is a quarter higher.
    const std::int64_t line = (5 * points + 1) / 2;
    const std::vector<std::string_view> lines = lines_of(text);
    const auto height = static_cast<std::int64_t>(lines.size()) * line;
    const Page page(score.page);
    QuarterNotes foot = page.bottom;
    if (score.page.lowest_credit
        && *score.page.lowest_credit < foot + QuarterNotes(height + line, 1))
        foot = *score.page.lowest_credit + QuarterNotes(line, 1);
    std::string credits = score.page.credits ? "" : head_credits(score.page, page);
    for (std::size_t i = 0; i < lines.size(); ++i) {
        const auto up = static_cast<std::int64_t>(lines.size() - 1 - i) * line;
        credits +=
            credit({"", page.left, foot + QuarterNotes(up, 1), points, "left", "bottom"}, lines[i]);
    }
    return credits;
}

std::string legend_direction(const std::string& text, int points) {
    return fmt::format(
        "<direction placement=\"above\"><direction-type><words font-size=\"{}\">{}</words>"
        "</direction-type></direction>",
        points, escaped(text));
}

std::vector<TableRow> table_of(const std::vector<NoteClass>& classes,
                               const std::vector<std::string>& parts) {
    std::vector<Sorted> rows;
    for (const NoteClass& found : classes)
        if (found.count > 0)
            rows.push_back(row_of(found));
    name_octaves(rows);
    std::stable_sort(rows.begin(), rows.end(), [](const Sorted& a, const Sorted& b) {
        return std::pair(a.height, a.pitch.octave) < std::pair(b.height, b.pitch.octave);
    });
    return joined(std::move(rows), parts);
}

} // namespace sectio::score
