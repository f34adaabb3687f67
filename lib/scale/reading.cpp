#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>
#include <filesystem>
#include <sstream>

namespace sectio {

namespace {

/// A piece of a list and the column that it begins at, counted in characters.
struct Item {
    std::string_view text;
    Place place;
};

std::vector<Item> items_of(std::string_view text, const Place& place) {
    std::vector<Item> items;
    std::size_t column = std::max<std::size_t>(place.column, 1);
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;\n", begin), text.size());
        const std::string_view piece = text.substr(begin, end - begin);
        if (piece.find_first_not_of(" \t\r") != std::string_view::npos)
            items.push_back({piece, {place.source, place.line, column}});
        column += character_count(piece) + 1;
        begin = end + 1;
    }
    return items;
}

bool holds_unison(const Melody& melody) {
    return std::any_of(melody.notes.begin(), melody.notes.end(),
                       [](const WeightedPitch& n) { return n.interval.is_unison(); });
}

void check_count(std::size_t count, const Place& place) {
    if (count == 0)
        throw error(message::no_pitches, "", place);
    if (count > limits::identified_pitches)
        throw error(message::too_many_pitches, "", place, limits::identified_pitches);
}

/// A scale file is the only input that assigns its degrees.
bool looks_like_scale_file(std::string_view text) {
    for (std::size_t at = 0; (at = text.find("degrees", at)) != std::string_view::npos; ++at) {
        const std::size_t next = text.find_first_not_of(" \t", at + 7);
        if (next != std::string_view::npos && text[next] == '=')
            return true;
    }
    return false;
}

/// One line with several cells is a list; more lines are a table.
bool looks_like_list(std::string_view text) {
    const std::size_t end = text.find_last_not_of(" \t\r\n");
    return end != std::string_view::npos && text.substr(0, end).find('\n') == text.npos;
}

Melody read_text(const std::string& text, const std::string& file, const Catalogue& catalogue) {
    if (looks_like_scale_file(text))
        return melody_of(read_scale_file(text, file, catalogue.names(), DegreeOrder::any));
    if (looks_like_list(text))
        return parse_pitches(text, {file, 1, 1}, catalogue.names());
    return read_table(text, file, catalogue.names());
}

bool holds_digit_or_comma(const std::string& text) {
    return text.find_first_of("0123456789,;") != std::string::npos;
}

} // namespace

Melody parse_pitches(std::string_view text, const Place& place, const NameLookup& names) {
    Melody melody;
    melody.name = std::string(text);
    const auto items = items_of(text, place);
    check_count(items.size(), place);
    const bool as_pitches = looks_like_pitch(items.front().text);
    for (const Item& item : items) {
        if (looks_like_pitch(item.text) != as_pitches)
            throw error(message::pitches_mixed, item.text, item.place);
        const WrittenFigure read = parse_measured(item.text, item.place, names);
        if (read.pitch && !melody.sounding_zero)
            melody.sounding_zero = read.pitch;
        melody.notes.push_back({read.pitch ? *read.pitch - *melody.sounding_zero : read.interval,
                                Rational(1), false, read.uncertainty});
    }
    if (!as_pitches && !holds_unison(melody))
        melody.notes.insert(melody.notes.begin(), WeightedPitch{});
    return melody;
}

Melody melody_of(const Scale& scale) {
    Melody melody;
    melody.name = scale.name;
    for (const Degree& degree : scale.degrees)
        melody.notes.push_back({degree.interval, Rational(1), false, degree.uncertainty});
    if (!holds_unison(melody))
        melody.notes.insert(melody.notes.begin(), WeightedPitch{});
    if (scale.period && *scale.period != Interval::octave())
        melody.notes.push_back({*scale.period, Rational(1), false, scale.closing.uncertainty});
    if (scale.tonic) {
        const Pitch a4 = scale.reference ? parse_reference(*scale.reference) : Pitch::concert_a();
        melody.sounding_zero = parse_pitch(*scale.tonic, a4);
    }
    return melody;
}

Melody load_melody(const std::string& text, const Catalogue& catalogue, std::istream& input) {
    if (text == "-")
        return read_text(read_whole(input, "standard input", limits::table_bytes), "standard input",
                         catalogue);
    std::error_code ignored;
    const bool is_file = std::filesystem::is_regular_file(text, ignored);
    if (!catalogue.find(text) && is_file)
        return read_text(read_whole(text, limits::table_bytes), text, catalogue);
    if (!is_file && holds_digit_or_comma(text) && !catalogue.find(text)
        && catalogue.named(text).empty() && !text.ends_with(".toml") && !text.ends_with(".csv"))
        return parse_pitches(text, {"SCALE"}, catalogue.names());
    if (text.ends_with(".csv") && !is_file)
        read_whole(text, limits::table_bytes); // says why it cannot be read
    return melody_of(load_scale(text, catalogue, input, DegreeOrder::any));
}

} // namespace sectio
