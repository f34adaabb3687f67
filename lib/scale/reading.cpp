#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace sectio {

namespace {

/// A piece of a list and the place that it begins at.
struct Item {
    std::string_view text;
    Place place;
};

/// The pieces, columns counted in characters. Empty ones count where they stand between others on
/// one line, since something is missing there.
std::vector<Item> items_of(std::string_view text, const Place& place) {
    std::vector<Item> items;
    Place here{place.source, place.line, std::max<std::size_t>(place.column, 1)};
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;\n", begin), text.size());
        const std::string_view piece = text.substr(begin, end - begin);
        const bool between = begin > 0 && text[begin - 1] != '\n' && end < text.size()
                             && text[end] != '\n' && !items.empty();
        if (!trimmed(piece).empty() || between)
            items.push_back({piece, here});
        here.column += character_count(piece) + 1;
        if (end < text.size() && text[end] == '\n' && here.line > 0)
            here = {here.source, here.line + 1, 1};
        begin = end + 1;
    }
    return items;
}

void check_count(std::size_t count, const Place& place) {
    if (count == 0)
        throw error(message::no_pitches, "", place);
    if (count > limits::identified_pitches)
        throw error(message::too_many_pitches, "", place, limits::identified_pitches);
}

/// Its first line that says anything assigns a key or begins a table.
bool looks_like_toml(std::string_view text) {
    while (!text.empty()) {
        const std::string_view line = text.substr(0, text.find('\n'));
        const std::string_view said = trimmed(line);
        if (!said.empty() && !said.starts_with('#')) {
            const std::size_t key =
                said.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_-");
            const std::size_t sign = said.find_first_not_of(" \t", std::min(key, said.size()));
            return said.starts_with('[')
                   || (key != 0 && sign != std::string_view::npos && said[sign] == '=');
        }
        text.remove_prefix(std::min(text.size(), line.size() + 1));
    }
    return false;
}

/// One line with several cells is a list; more lines are a table.
bool looks_like_list(std::string_view text) {
    return trimmed(text).find('\n') == std::string_view::npos;
}

/// The text with nothing but line ends in place of what stands above `handed_on` and that line
/// itself, so that places stay true.
std::optional<std::string> handed_text(std::string_view text) {
    const std::string line = fmt::format("\n{}\n", handed_on);
    const std::size_t at = text.rfind(line);
    if (at == std::string::npos)
        return std::nullopt;
    const std::size_t end = at + line.size();
    const auto lines =
        std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(end), '\n');
    return std::string(static_cast<std::size_t>(lines), '\n').append(text.substr(end));
}

bool reads_alone(std::string_view word, const NameLookup& names) {
    try {
        parse_measured(word, {}, names);
        return true;
    } catch (const Error& e) {
        return is_note_name(word) || e.id() == message::cents_need_unit;
    }
}

/// The cents of the note before them: "-29c" in "E4 -29c".
bool belongs_to_note(std::string_view word, std::string_view before) {
    constexpr std::size_t longest_sign = 3; // bytes of a minus sign
    return has_sign(word) && word.find_first_of("0123456789") <= longest_sign
           && looks_like_pitch(before);
}

/// "9/8 5/4 3/2": words of which each is an interval, a pitch or a note and the whole is none, with
/// commas between them.
std::optional<std::string> blanks_as_commas(std::string_view text, const NameLookup& names) {
    constexpr std::size_t longest = 10'000;
    if (text.find_first_of(",;\n") != text.npos || text.size() > longest
        || trimmed(text).find(' ') == std::string_view::npos || reads_alone(text, names))
        return std::nullopt;
    std::string listed(text);
    std::string_view before;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t begin = std::min(text.find_first_not_of(' ', at), text.size());
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        if (begin == end)
            break;
        const std::string_view word = text.substr(begin, end - begin);
        const bool goes_on = belongs_to_note(word, before);
        if (!goes_on && !reads_alone(word, names))
            return std::nullopt;
        if (at > 0 && !goes_on)
            listed[begin - 1] = ',';
        before = word;
        at = end;
    }
    return listed.find(',') == listed.npos ? std::nullopt : std::optional(std::move(listed));
}

} // namespace

PitchList parse_pitches(std::string_view text, const Place& place, const NameLookup& names) {
    if (const auto listed = blanks_as_commas(text, names))
        return parse_pitches(*listed, place, names);
    PitchList list;
    list.name = std::string(trimmed(text));
    const auto items = items_of(text, place);
    check_count(items.size(), place);
    const bool as_pitches = looks_like_pitch(items.front().text);
    for (const Item& item : items) {
        if (looks_like_pitch(item.text) != as_pitches && !is_note_name(item.text))
            throw error(message::pitches_mixed, item.text, item.place);
        const WrittenValue read = parse_measured(item.text, item.place, names);
        ListedPitch pitch;
        pitch.above = {read.interval, read.uncertainty, Basis::stated};
        pitch.written = read.text;
        pitch.sounds = read.pitch;
        if (read.pitch) {
            const Pitch sounding = read.pitch->at(Pitch::concert_a());
            if (!list.zero)
                list.zero = sounding;
            pitch.above.figure = sounding - *list.zero;
        }
        pitch.place = item.place;
        list.pitches.push_back(std::move(pitch));
    }
    if (!as_pitches) {
        list.unison_understood = true;
        list.period = Interval::octave();
        list.rising = std::all_of(list.pitches.begin(), list.pitches.end(),
                                  [](const ListedPitch& p) { return p.above.exact(); });
    }
    return list;
}

Scale parse_degrees(std::string_view text, const std::string& source, const NameLookup& names) {
    return to_scale(parse_pitches(text, {source, 0, 1}, names));
}

PitchList read_pitches(std::string_view text, const std::string& file, const NameLookup& names) {
    text = without_byte_order_mark(text);
    if (const auto handed = handed_text(text))
        return read_pitches(*handed, file, names);
    if (file.ends_with(".json") || trimmed(text).starts_with('{'))
        return read_json(text, file);
    if (file.ends_with(".toml") || looks_like_toml(text)) {
        if (text.size() > limits::scale_file_bytes)
            throw error(message::file_too_large, "", Place{file}, limits::scale_file_bytes);
        return read_scale_document(parse_toml(text, file), names);
    }
    if (looks_like_list(text))
        return parse_pitches(text, {file, 1, 1}, names);
    return read_pitch_table(text, file, names);
}

} // namespace sectio
