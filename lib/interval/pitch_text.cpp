// Pitches as people write them.

#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/note_text.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/interval/stated_pitch.hpp>

#include <fmt/format.h>

#include <cstdlib>

namespace sectio {

namespace {

constexpr std::size_t most_hertz_digits = 60;
constexpr int most_octave = 20;
constexpr int lowest_octave = -3; // C-3 has 2 Hz; D-12 is a tuner's D, 12 cents flat

Rational decimal_number(TextCursor& in) {
    in.skip_spaces();
    const std::size_t start = in.position();
    std::string text = in.digits();
    if (text.empty() || text.size() > most_hertz_digits)
        throw in.failure(message::expected_pitch, start);
    if (in.peek() == U'.') {
        in.skip();
        text.append(".").append(in.digits());
    }
    if (text.size() > 2 * most_hertz_digits)
        throw in.failure(message::expected_pitch, start);
    return parse_decimal(text);
}

/// The octave number after a note name; -1 is the lowest MIDI octave.
int octave_number(TextCursor& in, const NoteName& name) {
    const std::size_t start = in.position();
    // A minus before the octave reads as the octave's sign only where no cents follow: "C-1" is a
    // pitch, and "C-14c" a note without its octave.
    const bool negative = in.peek() == U'-' && is_digit(in.peek(1));
    if (negative)
        in.skip();
    const std::string digits = in.digits();
    in.skip_spaces();
    const bool no_octave = negative && std::atoi(digits.c_str()) > -lowest_octave;
    if (digits.empty() || no_octave || in.word_here("c") || in.peek() == U'.')
        throw in.failure(message::missing_octave, start, name.text());
    const int octave = digits.size() > 2 ? most_octave + 1 : std::atoi(digits.c_str());
    if (octave > most_octave)
        throw in.failure(message::pitch_out_of_range, start, limits::pitch_octaves);
    return negative ? -octave : octave;
}

/// A number that stops here is no part of a ratio or of steps.
bool number_ends(const TextCursor& in) {
    return in.at_end() || std::u32string_view(U"/:^o").find(in.peek()) == std::u32string_view::npos;
}

/// The cents after the note that begins at `start`, where some stand there.
std::optional<Rational> cents_after(TextCursor& in, std::size_t start) {
    const bool up = in.accept(U'+');
    if (!up && !in.accept(U'-'))
        return std::nullopt;
    const Rational cents = decimal_number(in);
    const std::string_view written = in.written(start);
    refuse_decimal_comma(in, start, written, "c");
    if (in.accept_word("cents") || in.accept_word("cent") || in.accept_word("c"))
        return up ? cents : -cents;
    if (number_ends(in))
        throw in.failure(message::cents_need_unit, start, written);
    throw in.failure(message::expected_pitch, in.position());
}

/// Distance of the named note from A4 in 12 equal steps.
Interval from_a4(const NoteName& name, int octave) {
    constexpr int a_quarter_tones = 18;
    return Interval::from_steps(24 * (octave - 4) + name.quarter_tones_from_c() - a_quarter_tones,
                                24);
}

/// True where what follows a number makes it a ratio, steps, cents, a power or a stack.
bool interval_goes_on(const TextCursor& in) {
    constexpr std::u32string_view marks = U"/:^+-xoc";
    return marks.find(in.peek()) != std::u32string_view::npos && !in.at_end();
}

/// In Hz.
Rational frequency(TextCursor& in, bool unit_needed) {
    in.skip_spaces();
    const std::size_t start = in.position();
    const Rational hertz = decimal_number(in);
    refuse_decimal_comma(in, start, in.written(start), "Hz");
    if (!in.accept_word("Hz") && !in.accept_word("hz") && unit_needed)
        throw in.failure(
            interval_goes_on(in) ? message::interval_not_pitch : message::expected_pitch, start);
    if (hertz.numerator() == 0)
        throw in.failure(message::frequency_not_positive, start);
    return hertz;
}

/// What `read` makes of the whole of `text`. Limits of the engine know no place of their own.
template <typename Read>
auto whole_text(std::string_view text, const Place& place, Read read) {
    TextCursor in(text, place);
    in.skip_spaces();
    try {
        auto pitch = read(in);
        in.skip_spaces();
        if (!in.at_end())
            throw in.failure(message::text_after_pitch, in.position());
        return pitch;
    } catch (const Error& e) {
        if (e.place().column != 0)
            throw;
        throw Error(e.id(), e.message(), e.advice(), std::string(text), in.place(0));
    }
}

/// A frequency alone is that of A4.
Pitch reference(TextCursor& in) {
    if (is_digit(in.peek()))
        return Pitch::from_hertz(frequency(in, false));
    const NoteName name = note_name(in);
    const int octave = octave_number(in, name);
    if (!in.accept(U'='))
        throw in.failure(message::expected_reference, in.position());
    return Pitch::from_hertz(frequency(in, false)) - from_a4(name, octave);
}

/// "-29.25c" after a note; nothing where they end after no decimal place.
std::string signed_cents(const Rational& cents) {
    const std::string decimal = exact_decimal(cents);
    check_argument(!decimal.empty(), "cents after a note", "a decimal that ends");
    return (cents.numerator() < 0 ? "" : "+") + decimal + "c";
}

} // namespace

/// A note, `D4` or `F#4-14c`, or a frequency.
StatedPitch read_stated(TextCursor& in) {
    StatedPitch stated;
    if (is_digit(in.peek())) {
        stated.hertz_ = frequency(in, true);
        return stated;
    }
    const std::size_t start = in.position();
    const NoteName name = note_name(in);
    stated.note_ = NoteInOctave{name, octave_number(in, name)};
    stated.cents_ = cents_after(in, start);
    return stated;
}

StatedPitch::StatedPitch(std::string_view text, const Place& place) {
    *this = whole_text(text, place, [](TextCursor& in) {
        StatedPitch read = read_stated(in);
        static_cast<void>(read.at(Pitch::concert_a())); // beyond what pitches can be, said here
        return read;
    });
    text_ = trimmed(text);
}

StatedPitch::StatedPitch(const NoteInOctave& note, const Rational& cents)
    : text_(note.text()), note_(note) {
    if (cents.numerator() == 0)
        return;
    text_ += signed_cents(cents);
    cents_ = cents;
}

StatedPitch StatedPitch::by_key(const Pitch& pitch, const Pitch& a4, int digits) {
    const KeyedPitch keyed = nearest_key(pitch, a4);
    const Real cents = size_in_cents(keyed.deviation);
    StatedPitch stated(usual_note(keyed.key), cents.rounded(digits));
    if (stated.cents_)
        stated.text_ =
            fmt::format("{}{}{}c", stated.note_->text(), stated.cents_->numerator() < 0 ? "" : "+",
                        cents.decimal(digits));
    return stated;
}

StatedPitch StatedPitch::in_hertz(const Rational& hertz) {
    StatedPitch stated;
    stated.hertz_ = hertz;
    stated.text_ = exact_decimal(hertz) + "Hz";
    return stated;
}

Pitch StatedPitch::at(const Pitch& a4) const {
    if (!note_)
        return Pitch::from_hertz(hertz_);
    const Pitch key = a4 + from_a4(note_->name, note_->octave);
    return cents_ ? key + Interval::from_cents(*cents_) : key;
}

StatedPitch parse_tonic(std::string_view text, const Place& place) {
    const std::string_view written = trimmed(text);
    if (written.empty() || written.find_first_of("0123456789") != written.npos)
        return StatedPitch(written, place);
    parse_note_name(written, place);
    return StatedPitch(std::string(written) + "4", place);
}

TuningReference::TuningReference(std::string_view text, const Place& place)
    : text_(text), a4_(parse_reference(text, place)) {}

Pitch parse_pitch(std::string_view text, const Pitch& a4, const Place& place) {
    return whole_text(text, place, [&a4](TextCursor& in) { return read_stated(in).at(a4); });
}

Pitch parse_reference(std::string_view text, const Place& place) {
    return whole_text(text, place, reference);
}

} // namespace sectio
