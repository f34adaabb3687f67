#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>
#include <string>

namespace sectio {

namespace {

std::string lower(std::string_view text) {
    std::string result(text);
    std::transform(result.begin(), result.end(), result.begin(), [](unsigned char c) {
        return static_cast<char>(c < 0x80 ? std::tolower(c) : c);
    });
    return result;
}

/// The text on both sides of ± or +-.
struct Halves {
    std::string_view value, width;
    std::size_t width_at = 0; ///< in characters
    bool has_width = false;
};

Halves split(std::string_view text) {
    for (const std::string_view sign : {std::string_view("±"), std::string_view("+-")})
        if (const std::size_t at = text.find(sign); at != std::string_view::npos) {
            const auto before = text.substr(0, at);
            return {before, text.substr(at + sign.size()),
                    character_count(before) + character_count(sign), true};
        }
    return {text, {}, 0, false};
}

/// A number alone, with no unit.
bool is_plain_number(std::string_view text) {
    const std::string_view number = trimmed(text);
    return !number.empty() && number.find_first_not_of("0123456789.-") == std::string_view::npos;
}

std::string_view unit_of(std::string_view text) {
    const std::string_view all = trimmed(text);
    return all.substr(std::min(all.size(), all.find_first_not_of("0123456789. ")));
}

bool is_hertz(std::string_view text) {
    return lower(trimmed(text)).ends_with("hz")
           && text.find_first_of("0123456789") != std::string_view::npos;
}

/// The half width of a frequency as an interval: from `pitch` up to pitch + width.
Interval width_in_hertz(const Pitch& pitch, const Pitch& width, std::string_view text,
                        const Place& place) {
    const auto base = pitch.above_hertz().ratio(), rise = width.above_hertz().ratio();
    if (!base || !rise)
        throw error(message::expected_uncertainty, text, place);
    const Rational ratio = (*base + *rise) / *base;
    return Interval::from_ratio(ratio.numerator(), ratio.denominator());
}

Interval read_width(const WrittenValue& value, std::string_view text, const Place& place) {
    if (trimmed(text).empty() || is_plain_number(text))
        throw error(message::expected_uncertainty, text, place);
    const Interval width =
        is_hertz(text) && value.pitch
            ? width_in_hertz(value.pitch->at(Pitch::concert_a()),
                             parse_pitch(text, Pitch::concert_a(), place), text, place)
            : parse_interval(text, place);
    if (!(width > Interval()))
        throw error(message::uncertainty_negative, text, place);
    return width;
}

/// H4, Fis4, Re5: read as pitches, so that the refusal says which letter to write.
bool is_note_of_another_language(std::string_view value) {
    constexpr std::size_t longest = 4; // "sol" and a sign
    const std::size_t octave = value.find_first_of("0123456789");
    if (octave == 0 || octave > longest)
        return false;
    try {
        parse_pitch(value, Pitch::concert_a());
        return false;
    } catch (const Error& e) {
        return e.id() == message::note_of_another_language;
    }
}

} // namespace

Interval parse_uncertainty(std::string_view text, const Place& place) {
    const Interval width = parse_size(text, place);
    if (!(width > Interval()))
        throw error(message::uncertainty_negative, text, place);
    return width;
}

bool looks_like_pitch(std::string_view text) {
    const std::string_view value = trimmed(split(text).value);
    if (is_hertz(value) || (is_plain_number(value) && is_hertz(split(text).width)))
        return true;
    if (value.empty() || std::string_view("ABCDEFGabcdefg").find(value[0]) == value.npos)
        return is_note_of_another_language(value);
    // A letter, its signs (which may be beyond ASCII) and an octave number.
    const std::size_t octave = value.find_first_of("-0123456789", 1);
    if (octave == value.npos)
        return false;
    const std::string_view signs = value.substr(1, octave - 1);
    for (const std::string_view known : {"", "#", "b", "##", "bb", "♯", "♭", "♮", "𝄪", "𝄫"})
        if (signs == known)
            return true;
    return is_note_of_another_language(value);
}

WrittenValue parse_measured(std::string_view text, const Place& place, const NameLookup& names) {
    const Halves halves = split(text);
    std::string value(halves.value);
    if (halves.has_width && is_plain_number(value)) {
        value.erase(value.find_last_not_of(' ') + 1);
        value += unit_of(halves.width);
    }
    WrittenValue read;
    read.text = std::string(trimmed(value));
    if (looks_like_pitch(text))
        read.pitch = StatedPitch(value, place);
    else
        read.interval = parse_interval(value, place, names);
    if (halves.has_width)
        read.uncertainty = read_width(read, halves.width,
                                      {place.source, place.line, place.column + halves.width_at});
    return read;
}

} // namespace sectio
