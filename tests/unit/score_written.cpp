// Written pitches: letters, commas, keys, and what a transposing part makes of them.

#include <sectio/score/written.hpp>

#include <catch2/catch.hpp>

#include <cstdlib>
#include <string>

using namespace sectio;
using namespace sectio::score;

namespace {

constexpr AlterationUnit semitone = AlterationUnit::semitone, comma = AlterationUnit::comma;

Transposition by(int diatonic, int chromatic, int octaves = 0) {
    Transposition t;
    t.diatonic = diatonic;
    t.stated_diatonic = true;
    t.chromatic = QuarterNotes(chromatic, 1);
    t.octaves = octaves;
    return t;
}

Transposition by_semitones(int chromatic) {
    Transposition t;
    t.chromatic = QuarterNotes(chromatic, 1);
    return t;
}

std::string heard(const WrittenPitch& pitch, const Transposition& t) {
    return text_with_octave(sounding(pitch, t), NameStyle::ascii);
}

/// 53 to the octave, from C0.
int commas(const WrittenPitch& pitch) {
    return 53 * pitch.octave + commas_of_letter(pitch.step)
           + pitch.alteration.amount.numerator().convert_to<int>();
}

} // namespace

TEST_CASE("Letters, keys and commas of a transposing part move by its interval") {
    // In commas of Turkish theory a whole tone has 9, a limma 4, an apotome 5, a fourth 22, a fifth
    // 31 (from the chain of fifths: 12 fifths less 7 octaves are one comma of 53).
    struct Move {
        int diatonic, chromatic, commas;
    };
    const Move moves[] = {{-1, -2, -9},   {-2, -3, -13}, {-4, -7, -31}, {-5, -9, -40}, {2, 3, 13},
                          {1, 1, 4},      {0, 1, 5},     {3, 5, 22},    {3, 6, 27},    {4, 6, 26},
                          {-8, -14, -62}, {7, 12, 53},   {0, 0, 0},     {-7, -12, -53}};
    for (const auto& [diatonic, chromatic, moved] : moves)
        for (const char letter : std::string("CDEFGAB"))
            for (const int amount : {-5, -1, 0, 4}) {
                CAPTURE(diatonic, chromatic, letter, amount);
                const WrittenPitch written{letter, {amount, comma}, 4};
                const WrittenPitch out = sounding(written, by(diatonic, chromatic));
                CHECK(commas(out) - commas(written) == moved);
                CHECK(out.alteration.unit == comma);
                CHECK(std::abs(out.alteration.amount.numerator().convert_to<int>()) < 20);
                const WrittenPitch plain{letter, {Rational(amount, 2), semitone}, 4};
                const WrittenPitch keys = sounding(plain, by(diatonic, chromatic));
                CHECK(keys.step == out.step);
                CHECK(keys.octave == out.octave);
                CHECK(height(keys) - height(plain) == Rational(chromatic));
            }
}

TEST_CASE("What sounds where a part transposes has the letter that players expect") {
    const WrittenPitch d{'D', {}, 4}, b{'B', {-1, comma}, 4}, c{'C', {}, 4};
    CHECK(heard(d, by(-1, -2)) == "C4");
    CHECK(heard(c, by(-1, -2)) == "Bb3");
    CHECK(heard(c, by(-1, -2, -1)) == "Bb2");
    CHECK(heard(b, by(-1, -2)) == "A4 -1 comma");
    CHECK(heard(b, by(1, 2)) == "C5 +4 commas"); // B up a tone is C sharp, an apotome of 5 up
    // Without a stated number of steps the usual one.
    CHECK(heard(c, by_semitones(-2)) == "Bb3");
    CHECK(heard(c, by_semitones(-3)) == "A3");
    CHECK(heard(c, by_semitones(6)) == "F#4");
    CHECK(heard(c, by_semitones(1)) == "Db4");
    CHECK(heard(c, by_semitones(8)) == "Ab4");
    CHECK(heard(c, by_semitones(-14)) == "Bb2");
    CHECK(heard(c, by_semitones(24)) == "C6");
    CHECK(moved_keys(by(-1, -2, 1)) == Rational(10));
}

TEST_CASE("A transposition by part of a semitone leaves commas for semitones") {
    Transposition half = by(0, 0);
    half.chromatic = QuarterNotes(1, 2);
    const WrittenPitch out = sounding({'D', {-1, comma}, 4}, half);
    CHECK(out.alteration.unit == semitone);
    CHECK(out.alteration.amount == Rational(1, 2) - Rational(12, 53));
    CHECK(moved_keys(half) == Rational(1, 2));
}

TEST_CASE("A note belongs to the key of its letter, at half way too") {
    const auto key = [](char step, const Rational& amount, AlterationUnit unit = semitone) {
        return base_key({step, {amount, unit}, 4});
    };
    CHECK(key('C', 0) == 60);
    CHECK(key('A', 0) == 69);
    CHECK(key('B', 1) == 72);
    CHECK(key('F', Rational(1, 2)) == 65);
    CHECK(key('F', Rational(51, 100)) == 66);
    CHECK(key('F', Rational(-1, 2)) == 65);
    CHECK(key('F', Rational(-51, 100)) == 64);
    CHECK(key('F', Rational(3, 2)) == 66);
    CHECK(key('E', 2, comma) == 64);  // 45 cents
    CHECK(key('E', 3, comma) == 65);  // 68 cents
    CHECK(key('E', -3, comma) == 63); // and below
    CHECK(height({'E', {-3, comma}, 4}) == 64 - Rational(36, 53));
    CHECK(fifths_of_letter('F') == -1);
    CHECK(fifths_of_letter('B') == 5);
}

TEST_CASE("Written notes have signs where there are plain ones, else numbers") {
    const auto ascii = [](const Rational& amount, AlterationUnit unit) {
        return text({'B', {amount, unit}, 4}, NameStyle::ascii);
    };
    CHECK(ascii(0, semitone) == "B");
    CHECK(ascii(-2, semitone) == "Bbb");
    CHECK(ascii(1, semitone) == "B#");
    CHECK(ascii(Rational(-1, 2), semitone) == "B -1/2");
    CHECK(ascii(Rational(3, 2), semitone) == "B +3/2");
    CHECK(ascii(-1, comma) == "B -1 comma");
    CHECK(ascii(4, comma) == "B +4 commas");
    CHECK(text_with_octave({'B', {-1, comma}, 3}, NameStyle::unicode) == "B3 −1 comma");
    CHECK(text_with_octave({'F', {1, semitone}, -1}, NameStyle::unicode) == "F♯-1");
    CHECK(plain_name('E', -1, NameStyle::unicode) == "E♭");
}
