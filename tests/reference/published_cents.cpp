// Sizes of named intervals and deviations of historical scales against printed tables. The tables
// print whole cents or tenths; ours must round to what they print.

#include <support/intervals.hpp>

#include <array>

using sectio::Integer;
using sectio::Interval;
using support::interval;

namespace {

/// Ellis: A. J. Ellis, Appendix XX, section D, in H. Helmholtz, On the Sensations of Tone, 2nd
/// English ed., London 1885, pp. 453-456: "Table of intervals not exceeding one octave". He prints
/// whole cents. Barbour: J. M. Barbour, Tuning and Temperament, East Lansing 1951: tenths and
/// hundredths. All printed figures from memory, none from this program.
struct Published {
    const char *name, *interval;
    int digits; ///< printed after the point
    const char* printed;
    const char* source;
};

constexpr auto ellis = "Ellis 1885, App. XX D (from memory)";
constexpr auto barbour = "Barbour 1951 (from memory)";

const std::array published{
    Published{"skhisma", "32805/32768", 0, "2", ellis},
    Published{"diaskhisma", "2048/2025", 0, "20", ellis},
    Published{"comma of Didymus", "81/80", 0, "22", ellis},
    Published{"Pythagorean comma", "531441/524288", 0, "23", ellis},
    Published{"septimal comma", "64/63", 0, "27", ellis},
    Published{"great diesis", "128/125", 0, "41", ellis},
    Published{"septimal quarter tone", "36/35", 0, "49", ellis},
    Published{"33rd harmonic", "33/32", 0, "53", ellis},
    Published{"small semitone", "25/24", 0, "71", ellis},
    Published{"Pythagorean limma", "256/243", 0, "90", ellis},
    Published{"larger limma", "135/128", 0, "92", ellis},
    Published{"Arabic semitone", "18/17", 0, "99", ellis},
    Published{"17th harmonic", "17/16", 0, "105", ellis},
    Published{"diatonic semitone", "16/15", 0, "112", ellis},
    Published{"apotome", "2187/2048", 0, "114", ellis},
    Published{"great limma", "27/25", 0, "133", ellis},
    Published{"three-quarter tone", "12/11", 0, "151", ellis},
    Published{"trumpet three-quarter tone", "11/10", 0, "165", ellis},
    Published{"grave second, minor tone", "10/9", 0, "182", ellis},
    Published{"major tone", "9/8", 0, "204", ellis},
    Published{"supersecond", "8/7", 0, "231", ellis},
    Published{"subminor third", "7/6", 0, "267", ellis},
    Published{"augmented second", "75/64", 0, "275", ellis},
    Published{"Pythagorean minor third", "32/27", 0, "294", ellis},
    Published{"19th harmonic", "19/16", 0, "298", ellis},
    Published{"just minor third", "6/5", 0, "316", ellis},
    Published{"Zalzal's third", "27/22", 0, "355", ellis},
    Published{"just major third", "5/4", 0, "386", ellis},
    Published{"Pythagorean major third", "81/64", 0, "408", ellis},
    Published{"diminished fourth", "32/25", 0, "427", ellis},
    Published{"septimal major third", "9/7", 0, "435", ellis},
    Published{"grave fourth", "21/16", 0, "471", ellis},
    Published{"perfect fourth", "4/3", 0, "498", ellis},
    Published{"acute fourth", "27/20", 0, "520", ellis},
    Published{"11th harmonic", "11/8", 0, "551", ellis},
    Published{"septimal tritone", "7/5", 0, "583", ellis},
    Published{"false fifth, tritone", "45/32", 0, "590", ellis},
    Published{"diminished fifth", "64/45", 0, "610", ellis},
    Published{"Pythagorean tritone", "729/512", 0, "612", ellis},
    Published{"grave fifth", "40/27", 0, "680", ellis},
    Published{"perfect fifth", "3/2", 0, "702", ellis},
    Published{"augmented fifth", "25/16", 0, "773", ellis},
    Published{"just minor sixth", "8/5", 0, "814", ellis},
    Published{"13th harmonic", "13/8", 0, "841", ellis},
    Published{"just major sixth", "5/3", 0, "884", ellis},
    Published{"Pythagorean major sixth", "27/16", 0, "906", ellis},
    Published{"harmonic seventh", "7/4", 0, "969", ellis},
    Published{"minor seventh", "16/9", 0, "996", ellis},
    Published{"acute minor seventh", "9/5", 0, "1018", ellis},
    Published{"just major seventh", "15/8", 0, "1088", ellis},
    Published{"Pythagorean major seventh", "243/128", 0, "1110", ellis},
    Published{"syntonic comma", "81/80", 1, "21.5", barbour},
    Published{"ditonic comma", "12 x 3/2 - 7 x 2/1", 2, "23.46", barbour},
    Published{"schisma", "32805/32768", 2, "1.95", barbour},
    Published{"meantone fifth", "5^(1/4)", 1, "696.6", barbour},
    Published{"great diesis", "2/1 - 3 x 5/4", 2, "41.06", barbour},
    Published{"fifth of 53", "31of53", 1, "701.9", barbour},
};

} // namespace

TEST_CASE("Published sizes of named intervals") {
    static_assert(published.size() >= 40);
    for (const Published& row : published) {
        INFO(row.name << ", " << row.interval << ", " << row.source);
        CHECK(interval(row.interval).cents(row.digits) == row.printed);
    }
}

namespace {

/// Twelve notes C C# D Eb E F F# G G# A Bb B from the fifths between them: `fifths` narrows those
/// of the chain Eb-Bb-F-C-G-D-A-E-B-F#-C#-G# one by one.
std::array<Interval, 12> tuned(const std::array<Interval, 11>& narrowed) {
    std::array<Interval, 12> notes;
    Interval place; // of the chain's note, from Eb
    std::array<Interval, 12> chain{place};
    for (std::size_t i = 0; i < 11; ++i)
        chain[i + 1] = chain[i] + interval("3/2") - narrowed[i];
    constexpr std::size_t c = 3;
    for (std::size_t i = 0; i < 12; ++i)
        notes[(7 * (i + 12 - c)) % 12] = sectio::reduced(chain[i] - chain[c]);
    return notes;
}

void check(const char* source, const std::array<Interval, 12>& notes, int digits,
           const std::array<const char*, 12>& printed) {
    for (std::size_t i = 0; i < 12; ++i) {
        INFO(source << ", note " << i);
        CHECK(notes[i].cents(digits) == printed[i]);
    }
}

} // namespace

TEST_CASE("Published cents of historical scales") {
    const Interval none, comma = interval("81/80"), pythagorean = interval("531441/524288");
    const Interval quarter = comma * sectio::Rational(1, 4);
    const Interval fourth = pythagorean * sectio::Rational(1, 4);
    const Interval schisma = interval("32805/32768");

    // Barbour 1951, table of the Pythagorean tuning (Eb to G#), in whole cents (from memory).
    std::array<Interval, 11> fifths{};
    check("Pythagorean", tuned(fifths), 0,
          {"0", "114", "204", "294", "408", "498", "612", "702", "816", "906", "996", "1110"});

    // Barbour 1951, Pietro Aaron's quarter-comma meantone, in tenths (from memory).
    fifths.fill(quarter);
    check("quarter-comma meantone", tuned(fifths), 1,
          {"0.0", "76.0", "193.2", "310.3", "386.3", "503.4", "579.5", "696.6", "772.6", "889.7",
           "1006.8", "1082.9"});

    // Barbour 1951, Werckmeister's Correct Temperament No. 1 (III), in whole cents (from memory).
    // Narrowed: C-G, G-D, D-A, B-F#.
    fifths.fill(none);
    fifths[3] = fifths[4] = fifths[5] = fifths[8] = fourth;
    check("Werckmeister III", tuned(fifths), 0,
          {"0", "90", "192", "294", "390", "498", "588", "696", "792", "888", "996", "1092"});

    // Kirnberger's letter to Forkel (printed in Allgemeine Musikalische Zeitung 1871): C-G, G-D,
    // D-A, A-E narrow by a quarter comma, F#-C# by the schisma. Cents as usually printed (from
    // memory).
    fifths.fill(none);
    fifths[3] = fifths[4] = fifths[5] = fifths[6] = quarter;
    fifths[9] = schisma;
    check("Kirnberger III", tuned(fifths), 0,
          {"0", "90", "193", "294", "386", "498", "590", "697", "792", "890", "996", "1088"});
}

TEST_CASE("Published deviations from 12 equal steps, on A") {
    // Werckmeister III in whole cents against equal temperament, A = 0, as tuners' tables print it:
    // C +12 C# +2 D +4 Eb +6 E +2 F +10 F# 0 G +8 G# +4 A 0 Bb +8 B +4 (from memory).
    constexpr std::array<const char*, 12> printed{"12", "2", "4", "6", "2", "10",
                                                  "0",  "8", "4", "0", "8", "4"};
    std::array<Interval, 11> fifths{};
    fifths[3] = fifths[4] = fifths[5] = fifths[8] =
        interval("531441/524288") * sectio::Rational(1, 4);
    const auto notes = tuned(fifths);
    for (int i = 0; i < 12; ++i) {
        const auto index = static_cast<std::size_t>(i);
        const Interval deviation = notes[index] - notes[9] - Interval::from_steps(i - 9, 12);
        INFO("note " << i);
        CHECK(deviation.cents(0) == printed[index]);
    }
}
