#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/pitch.hpp>

#include <array>
#include <cmath>
#include <string_view>

namespace sectio {

namespace {

constexpr int a4_key = 69;
constexpr int middle_c_octave = 4;
constexpr std::string_view letters = "CDEFGAB";
constexpr std::array letter_keys{0, 2, 4, 5, 7, 9, 11};

int letter_key(char letter) {
    const std::size_t place = letters.find(letter);
    if (place == letters.npos)
        refuse_argument("the letter of a note", "A to G", {letter});
    return letter_keys[place];
}

int floor_div(int a, int b) {
    return a / b - (a % b < 0 ? 1 : 0);
}

} // namespace

Pitch::Pitch(Interval above_hertz) : above_hertz_(std::move(above_hertz)) {
    if (std::abs(above_hertz_.estimate().value) > limits::pitch_octaves)
        throw error(message::pitch_out_of_range, "", {}, limits::pitch_octaves);
}

Pitch Pitch::from_hertz(const Rational& frequency) {
    if (frequency.numerator() <= 0)
        throw error(message::frequency_not_positive, exact_decimal(frequency), {});
    return Pitch(Interval::from_ratio(frequency.numerator(), frequency.denominator()));
}

Pitch Pitch::from_hertz(double frequency, int digits) {
    check_digits(digits);
    return from_hertz(rounded(frequency, digits));
}

const Pitch& Pitch::concert_a() {
    static const Pitch a4 = from_hertz(Rational(440));
    return a4;
}

Pitch operator+(const Pitch& pitch, const Interval& interval) {
    return Pitch(pitch.above_hertz_ + interval);
}

double Pitch::hertz_estimate() const {
    return std::exp2(above_hertz_.estimate().value);
}

int NoteName::quarter_tones_from_c() const {
    return 2 * letter_key(letter) + quarter_tones;
}

std::string NoteName::text(bool unicode) const {
    // Quarter-tone signs exist in Unicode only: U+1D132 and U+1D133.
    constexpr std::array<std::string_view, 9> plain{
        "bb", "b\U0001D133", "b", "\U0001D133", "", "\U0001D132", "#", "#\U0001D132", "##"};
    constexpr std::array<std::string_view, 9> signs{"\U0001D12B", "♭\U0001D133", "♭", "\U0001D133",
                                                    "",           "\U0001D132",  "♯", "♯\U0001D132",
                                                    "\U0001D12A"};
    constexpr int most = plain.size() / 2;
    if (quarter_tones < -most || quarter_tones > most)
        refuse_argument("a note's quarter tones", fmt::format("from -{0} to {0}", most),
                        fmt::to_string(quarter_tones));
    const auto index = static_cast<std::size_t>(quarter_tones + most);
    return letter + std::string(unicode ? signs[index] : plain[index]);
}

std::string NoteInOctave::text(bool unicode) const {
    return name.text(unicode) + std::to_string(octave);
}

KeyedPitch nearest_key(const Pitch& pitch, const Pitch& a4) {
    const Interval above = pitch - a4;
    const Interval semitone = Interval::from_steps(1, 12);
    // Keys from A4, half way going down: the largest k with k - 1/2 < size, which is
    // -floor(1/2 - size) in semitones.
    const Interval half = Interval::from_steps(1, 24);
    const Integer keys = -whole_periods(half - above, semitone);
    return {a4_key + keys.convert_to<int>(), above - keys * semitone};
}

Pitch pitch_of_key(int key, const Pitch& a4) {
    return a4 + Integer(key - a4_key) * Interval::from_steps(1, 12);
}

int key_of(const NoteInOctave& note) {
    constexpr int most = 100'000'000; // 12 keys each are far from overflowing
    if (note.octave < -most || note.octave > most)
        refuse_argument("a note's octave", fmt::format("from -{0} to {0}", most),
                        fmt::to_string(note.octave));
    return 12 * (note.octave + 1) + floor_div(note.name.quarter_tones_from_c(), 2);
}

NoteInOctave usual_note(int key) {
    constexpr std::array<NoteName, 12> usual{
        NoteName{'C', 0}, NoteName{'C', 2}, NoteName{'D', 0},  NoteName{'E', -2},
        NoteName{'E', 0}, NoteName{'F', 0}, NoteName{'F', 2},  NoteName{'G', 0},
        NoteName{'G', 2}, NoteName{'A', 0}, NoteName{'B', -2}, NoteName{'B', 0}};
    const int octave = floor_div(key, 12);
    return {usual[static_cast<std::size_t>(key - 12L * octave)], octave - 1};
}

std::optional<NoteInOctave> note_with_letter(int key, char letter) {
    if (letters.find(letter) == std::string_view::npos)
        return std::nullopt;
    const int middle = letter_key(letter) + 12 * (middle_c_octave + 1);
    // The alteration nearest to none: keys modulo 12 from -6 to 5.
    const int distance = key - middle;
    const int octaves = floor_div(distance + 6, 12);
    const int alteration = distance - 12 * octaves;
    if (alteration < -2 || alteration > 2)
        return std::nullopt;
    return NoteInOctave{{letter, 2 * alteration}, middle_c_octave + octaves};
}

} // namespace sectio
