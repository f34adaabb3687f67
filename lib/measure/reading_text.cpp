// Readings as people write them: one, a list.

#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/readings.hpp>
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

/// Where ± stands.
std::size_t width_sign(std::string_view text) {
    return std::min(text.find("±"), text.find("+-"));
}

/// `E4 -41`, `E4-41ct` and `E4 41 cents flat` as `E4-41c`; anything else as it stands.
std::string as_note_and_cents(std::string_view text) {
    static const std::regex spelling(
        "([A-Ga-g](?:#|b|♯|♭)*-?[0-9]+)\\s*([-+]|−|–)?\\s*([0-9]+(?:\\.[0-9]+)?)\\s*"
        "(?:[Cc]ents?|[Cc]t|c|¢)?\\s*(flat|sharp)?");
    constexpr std::size_t longest = 80; // std::regex goes deep on long texts
    std::cmatch found;
    if (text.size() > longest || !std::regex_match(text.begin(), text.end(), found, spelling))
        return std::string(text);
    const bool said = found[4].matched, in_tune = std::stod(found[3].str()) == 0;
    if (said == found[2].matched && !in_tune) // twice or not at all
        return std::string(text);
    const bool is_down = !in_tune && (said ? found[4] == "flat" : found[2] != "+");
    return found[1].str() + (is_down ? "-" : "+") + found[3].str() + "c";
}

/// `-41`, `+3.5 ct` and `0`: cents after a note, and no reading themselves.
bool is_deviation(std::string_view text) {
    text = trimmed(text);
    return has_sign(text) || text == "0";
}

/// Refuses `293.5`, and `D-1`, which a tuner says of a flat D: nobody hears the octave −1.
void check_whole(std::string_view text, const Place& place) {
    if (!text.empty() && text.find_first_not_of("0123456789.") == text.npos)
        throw error(message::reading_needs_unit, text, place, text);
    const std::size_t minus = std::min(text.find('-'), text.size());
    const std::string_view name = text.substr(0, minus), digits = text.substr(minus);
    if (digits.size() > 1 && is_note_name(name)
        && digits.find_first_not_of("0123456789", 1) == digits.npos)
        throw error(message::missing_octave, text, place, name);
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
    const std::size_t sign = std::min(width_sign(text), text.size());
    check_whole(trimmed(text.substr(0, sign)), place);
    const std::string plain =
        as_note_and_cents(trimmed(text.substr(0, sign))).append(text.substr(sign));
    const std::string_view written = plain;
    if (width_sign(written) == written.npos) {
        const Pitch pitch = parse_pitch(written, a4, place);
        return {std::move(label), pitch, half_digit(written, pitch), written_note(plain, a4)};
    }
    const WrittenValue read = parse_measured(written, place, nullptr);
    if (!read.pitch)
        throw error(message::reading_not_pitch, written, place);
    return {std::move(label), read.pitch->at(a4), *read.uncertainty, written_note(plain, a4)};
}

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

/// A reading and the label before it.
struct Labelled {
    std::string label, text;
    std::size_t begin = 0; ///< of the reading
};

/// `fret 1 = E4-41c`; in `D4: -12` a note stands before its cents, and no label.
Labelled labelled(std::string_view text) {
    const std::size_t mark = text.find_first_of("=:");
    if (mark == text.npos)
        return {"", std::string(text)};
    const std::string label(trimmed(text.substr(0, mark))), rest(text.substr(mark + 1));
    if (looks_like_pitch(label) && is_deviation(rest))
        return {"", label + " " + std::string(trimmed(rest))};
    return {label, rest, mark + 1};
}

std::string_view leading_digits(std::string_view text) {
    return text.substr(0, text.find_first_not_of("0123456789"));
}

/// Hands each reading of a list and its place to `use`.
template <typename Use>
void each_reading(std::string_view text, const Place& place, const Use& use) {
    std::size_t column = std::max<std::size_t>(place.column, 1);
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find_first_of(",;\n", begin), text.size());
        const std::string_view piece = text.substr(begin, end - begin);
        if (is_decimal_comma(text, end))
            throw error(message::reading_decimal_comma, trimmed(piece),
                        {place.source, place.line, column}, trimmed(piece),
                        leading_digits(text.substr(end + 1)));
        const bool is_labelled = piece.find_first_of("=:") != piece.npos;
        for (std::size_t at = 0; at < piece.size();) {
            const std::string_view rest = piece.substr(at);
            const std::string_view one =
                rest.substr(0, is_labelled ? rest.npos : first_reading(rest));
            if (!trimmed(one).empty())
                use(one, Place{place.source, place.line, column});
            column += character_count(one);
            at += one.size();
        }
        ++column;
        begin = end + 1;
    }
}

} // namespace

Reading parse_reading(std::string_view text, const Pitch& a4, const Place& place) {
    const Labelled read = labelled(text);
    const std::size_t column = place.column + character_count(text.substr(0, read.begin));
    return reading_of(read.label, read.text, a4, {place.source, place.line, column});
}

std::string joined_readings(const std::vector<std::string>& arguments) {
    std::string text;
    for (const std::string& argument : arguments)
        text += (text.empty() ? "" : is_deviation(argument) ? " " : ", ") + argument;
    return text;
}

std::vector<Reading> parse_readings(std::string_view text, const Pitch& a4, const Place& place) {
    std::vector<Reading> readings;
    each_reading(text, place, [&](std::string_view one, const Place& at) {
        readings.push_back(parse_reading(one, a4, at));
    });
    if (readings.empty())
        throw error(message::no_readings, text, place);
    return readings;
}

std::string readings_as_pitches(std::string_view text) {
    std::string pitches;
    each_reading(text, {}, [&](std::string_view one, const Place&) {
        const std::string plain = labelled(one).text;
        const std::size_t sign = std::min(width_sign(plain), plain.size());
        pitches += (pitches.empty() ? "" : ", ") + as_note_and_cents(trimmed(plain.substr(0, sign)))
                   + plain.substr(sign);
    });
    return pitches;
}

} // namespace sectio::measure
