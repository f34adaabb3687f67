#include <sectio/base/argument.hpp>
#include <sectio/score/written.hpp>

#include <fmt/format.h>

#include <array>
#include <cstdlib>

namespace sectio::score {

namespace {

/// Letters in the order of the staff.
constexpr std::string_view staff = "CDEFGAB";

int place_on_staff(char step) {
    const std::size_t place = staff.find(step);
    if (place == staff.npos)
        refuse_argument("the step of a note", "C, D, E, F, G, A or B", {step});
    return static_cast<int>(place);
}

int floor_div(int a, int b) {
    return a / b - (a % b < 0 ? 1 : 0);
}

/// Steps of the staff usually meant by so many semitones within an octave: 2 is a whole tone and
/// so one step, 6 an augmented fourth (common practice, no source).
int usual_diatonic(int semitones) {
    constexpr std::array steps{0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
    const int size = std::abs(semitones);
    const int up = steps[static_cast<std::size_t>(size % 12)] + 7 * (size / 12);
    return semitones < 0 ? -up : up;
}

/// Commas from a step by so many staff steps and semitones: the interval is n fifths less k
/// octaves, n = 7·chromatic - 12·diatonic, and 53 commas give a fifth 31 of them.
int commas_of(int diatonic, int chromatic) {
    const int fifths = 7 * chromatic - 12 * diatonic;
    const int octaves = (7 * fifths - chromatic) / 12; // exact: 7n - c = 48c - 84d
    return 31 * fifths - 53 * octaves;
}

std::string suffix(const Alteration& alteration, NameStyle style) {
    const Rational& amount = alteration.amount;
    const std::string size =
        amount.denominator() == 1
            ? fmt::format("{}", boost::multiprecision::abs(amount.numerator()).str())
            : fmt::format("{}/{}", boost::multiprecision::abs(amount.numerator()).str(),
                          amount.denominator().str());
    const bool comma = alteration.unit == AlterationUnit::comma;
    const std::string_view minus = style == NameStyle::unicode ? "−" : "-";
    return fmt::format(" {}{}{}", amount < 0 ? minus : "+", size,
                       !comma        ? ""
                       : size == "1" ? " comma"
                                     : " commas");
}

std::string named(const WrittenPitch& pitch, NameStyle style, const std::string& octave) {
    if (pitch.alteration.is_plain())
        return plain_name(pitch.step, whole_semitones(pitch.alteration), style) + octave;
    return pitch.step + octave + suffix(pitch.alteration, style);
}

} // namespace

int keys_of_letter(char step) {
    constexpr std::array keys{0, 2, 4, 5, 7, 9, 11};
    return keys[static_cast<std::size_t>(place_on_staff(step))];
}

int fifths_of_letter(char step) {
    constexpr std::array fifths{0, 2, 4, -1, 1, 3, 5};
    return fifths[static_cast<std::size_t>(place_on_staff(step))];
}

int commas_of_letter(char step) {
    constexpr std::array commas{0, 9, 18, 22, 31, 40, 49};
    return commas[static_cast<std::size_t>(place_on_staff(step))];
}

Rational semitones(const Alteration& alteration) {
    return alteration.unit == AlterationUnit::semitone ? alteration.amount
                                                       : alteration.amount * Rational(12, 53);
}

int whole_semitones(const Alteration& alteration) {
    const Rational exact = semitones(alteration);
    const Rational size = boost::abs(exact);
    // ceil(size - 1/2): exactly half goes down in size
    const int rounded = static_cast<int>(-floor(Rational(1, 2) - size));
    return exact < 0 ? -rounded : rounded;
}

int base_key(const WrittenPitch& pitch) {
    return 12 * (pitch.octave + 1) + keys_of_letter(pitch.step) + whole_semitones(pitch.alteration);
}

Rational height(const WrittenPitch& pitch) {
    return 12 * (pitch.octave + 1) + keys_of_letter(pitch.step) + semitones(pitch.alteration);
}

WrittenPitch sounding(const WrittenPitch& written, const Transposition& transposition) {
    const Rational chromatic(transposition.chromatic.num(), transposition.chromatic.den());
    const int whole = static_cast<int>(boost::rational_cast<Integer>(chromatic));
    const int diatonic =
        transposition.stated_diatonic ? transposition.diatonic : usual_diatonic(whole);
    const int place = place_on_staff(written.step) + diatonic;
    const int octaves = floor_div(place, 7);
    WrittenPitch out = written;
    out.step = staff[static_cast<std::size_t>(place - 7 * octaves)];
    out.octave += octaves + transposition.octaves;
    if (written.alteration.unit == AlterationUnit::comma && chromatic.denominator() == 1)
        out.alteration.amount += commas_of_letter(written.step) + commas_of(diatonic, whole)
                                 - commas_of_letter(out.step) - 53 * octaves;
    else
        out.alteration = {semitones(written.alteration) + keys_of_letter(written.step) + chromatic
                              - keys_of_letter(out.step) - 12 * octaves,
                          AlterationUnit::semitone};
    return out;
}

Rational moved_keys(const Transposition& transposition) {
    return Rational(transposition.chromatic.num(), transposition.chromatic.den())
           + 12 * transposition.octaves;
}

std::string plain_name(char step, int semitones, NameStyle style) {
    const bool unicode = style == NameStyle::unicode;
    const std::string_view sign = semitones < 0 ? (unicode ? "♭" : "b") : (unicode ? "♯" : "#");
    constexpr int most_signs = 1000;
    check_argument(semitones >= -most_signs && semitones <= most_signs, "the signs of a note",
                   fmt::format("at most {}", most_signs));
    std::string name(1, step);
    for (int i = 0; i < std::abs(semitones); ++i)
        name += sign;
    return name;
}

std::string text(const WrittenPitch& pitch, NameStyle style) {
    return named(pitch, style, "");
}

std::string text_with_octave(const WrittenPitch& pitch, NameStyle style) {
    return named(pitch, style, std::to_string(pitch.octave));
}

} // namespace sectio::score
