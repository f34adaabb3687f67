// Written pitches in scales and tuning systems.

#include <sectio/base/error.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/score/annotation.hpp>
#include <sectio/score/tuning.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using namespace sectio::score;

namespace {

constexpr AlterationUnit semitone = AlterationUnit::semitone, comma = AlterationUnit::comma;

WrittenPitch plain(char step, int sharps, int octave) {
    return {step, {sharps, semitone}, octave};
}

/// Deviations in cents with three digits, or the reasons for none.
std::vector<std::string> tuned(const NoteTuning& tuning, const std::vector<WrittenPitch>& pitches) {
    std::vector<std::string> out;
    for (const Outcome& outcome : tuning.tune(pitches))
        out.push_back(std::holds_alternative<Lacking>(outcome)
                          ? std::get<Lacking>(outcome).reason
                          : std::get<Interval>(outcome).cents(3));
    return out;
}

std::string tuned(const NoteTuning& tuning, const WrittenPitch& pitch) {
    return tuned(tuning, std::vector{pitch}).at(0);
}

std::unique_ptr<NoteTuning> by_scale(const std::string& degrees, const std::string& tonic) {
    return tuning_by_scale(parse_degrees(degrees, "scale"), parse_tonic(tonic));
}

std::unique_ptr<NoteTuning> by_system(const std::string& id, const std::string& tonic) {
    return tuning_by_system(Catalogue::installed().find(id).value(), tonic);
}

const char* no_degree = "the scale has no degree within 50 cents";

} // namespace

TEST_CASE("In meantone and Pythagorean tuning G sharp and A flat differ") {
    // Cents of the quarter-comma meantone on C: Barbour, "Tuning and Temperament" (1951), table of
    // 1/4-comma meantone: G♯ 772.6, A♭ 813.7, F♯ 579.5, E 386.3, B 1082.9. Pythagorean: ibid., G♯
    // 815.6, A♭ 792.2. Digits beyond Barbour's from log2(5) and log2(3).
    const auto meantone = by_system("quarter-comma-meantone", "C4");
    CHECK(tuned(*meantone, plain('G', 1, 4)) == "-27.373");
    CHECK(tuned(*meantone, plain('A', -1, 4)) == "13.686");
    CHECK(tuned(*meantone, plain('F', 1, 5)) == "-20.529");
    CHECK(tuned(*meantone, plain('E', 0, 2)) == "-13.686");
    CHECK(tuned(*meantone, plain('B', 0, 3)) == "-17.108");
    const auto pythagorean = by_system("pythagorean-12", "C4");
    CHECK(tuned(*pythagorean, plain('G', 1, 4)) == "15.640");
    CHECK(tuned(*pythagorean, plain('A', -1, 4)) == "-7.820");
    // B sharp lies a Pythagorean comma, 23.460 cents, above C; it counts from the same key.
    CHECK(tuned(*pythagorean, plain('B', 1, 3)) == "23.460");
    CHECK(tuned(*pythagorean, plain('C', 0, 4)) == "0.000");
}

TEST_CASE("The tonic of a system does not deviate, and the others keep their distances") {
    const auto on_a = by_system("quarter-comma-meantone", "A4");
    CHECK(tuned(*on_a, plain('A', 0, 4)) == "0.000");
    CHECK(tuned(*on_a, plain('C', 0, 5)) == "10.265"); // three fifths down, 3.42157 each
    CHECK(tuned(*on_a, plain('C', 1, 5)) == "-13.686");
    const auto sharp = by_system("quarter-comma-meantone", "A4+10c");
    CHECK(tuned(*sharp, plain('A', 0, 4)) == "10.000");
}

TEST_CASE("In an equal division spelling counts steps") {
    // 19 equal steps: whole tone 3, sharp 1, so C♯ is 1 step (63.158c) and D♭ 2 (126.316c).
    const auto nineteen = tuning_by_division(EqualDivision(19), "C4");
    CHECK(tuned(*nineteen, plain('C', 1, 4)) == "-36.842");
    CHECK(tuned(*nineteen, plain('D', -1, 4)) == "26.316");
    // 12 equal steps deviate nowhere.
    const auto twelve = tuning_by_division(EqualDivision(12), "D4");
    CHECK(tuned(*twelve, plain('D', -2, 4)) == "0.000");
    // 24 equal steps have quarter tones, 19 have none.
    const WrittenPitch quarter{'F', {Rational(1, 2), semitone}, 4};
    CHECK(tuned(*tuning_by_division(EqualDivision(24), "C4"), quarter) == "50.000");
    CHECK(tuned(*nineteen, quarter) == "this alteration is none of the 19 equal steps");
}

TEST_CASE("The signs of Turkish theory are places in its chain of fifths") {
    // Arel, Ezgi and Uzdilek: koma 23.46, bakiye 90.22, küçük mücennep 113.69, büyük mücennep
    // 180.45 cents, as Pythagorean intervals: comma 3^12/2^19, limma 256/243, apotome 2187/2048,
    // 65536/59049.
    const auto turkish = by_system("turkish-24", "C4");
    const auto from_f = [&](int commas) {
        const WrittenPitch pitch{'F', {commas, comma}, 4};
        const Outcome outcome = turkish->tune(std::vector{pitch}).at(0);
        // Above F natural, which is 4/3.
        return std::get<Interval>(outcome) + Interval::from_steps(base_key(pitch) - 60, 12)
               - support::interval("4/3");
    };
    CHECK(from_f(0) == Interval());
    CHECK(from_f(1) == support::interval("531441/524288"));
    CHECK(from_f(4) == support::interval("256/243"));
    CHECK(from_f(5) == support::interval("2187/2048"));
    CHECK(from_f(8) == support::interval("65536/59049"));
    CHECK(from_f(-1) == support::interval("524288/531441"));
    CHECK(from_f(-4) == support::interval("243/256"));
    CHECK(from_f(-5) == support::interval("2048/2187"));
}

TEST_CASE("In 53 equal steps a comma is a step") {
    const auto system = tuning_by_division(EqualDivision(53), "C4");
    for (int commas = -9; commas <= 9; ++commas) {
        const WrittenPitch pitch{'G', {commas, comma}, 4};
        const Interval deviation = std::get<Interval>(system->tune(std::vector{pitch}).at(0));
        CHECK(deviation + Interval::from_steps(base_key(pitch) - 60, 12)
              == Interval::from_steps(31 + commas, 53));
    }
}

TEST_CASE("A written note takes its scale degree in every octave") {
    const auto just = by_scale("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", "D4");
    // Cents of just intervals: 9/8 203.910, 5/4 386.314, 3/2 701.955, 15/8 1088.269.
    for (const int octave : {1, 4, 7}) {
        CHECK(tuned(*just, plain('D', 0, octave)) == "0.000");
        CHECK(tuned(*just, plain('E', 0, octave)) == "3.910");
        CHECK(tuned(*just, plain('F', 1, octave)) == "-13.686");
        CHECK(tuned(*just, plain('A', 0, octave)) == "1.955");
        CHECK(tuned(*just, plain('C', 1, octave + 1)) == "-11.731");
    }
}

TEST_CASE("What a scale lacks is said, not guessed") {
    const auto just = by_scale("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", "D4");
    CHECK(tuned(*just, plain('F', 0, 4)) == no_degree);
    CHECK(tuned(*just, plain('G', -1, 4)) == "the scale writes this degree F#");
    const auto crowded = by_scale("9/8, 6/5, 5/4, 3/2", "D4");
    CHECK(tuned(*crowded, {'F', {Rational(1, 2), semitone}, 4})
          == "the scale has several degrees within 50 cents, and none of this spelling");
    // A neutral third, 347.4 cents, belongs to the quarter-sharp F where the score has one.
    const auto neutral = by_scale("9/8, 11/9, 3/2", "D4");
    const WrittenPitch quarter{'F', {Rational(1, 2), semitone}, 4};
    CHECK(tuned(*neutral, plain('F', 0, 4)) == "47.408");
    CHECK(tuned(*neutral, {plain('F', 0, 4), quarter})
          == std::vector<std::string>{"another written note lies nearer to the degree", "47.408"});
}

TEST_CASE("A system of twelve named notes gives each its own note, however it is written") {
    // Werckmeister III: 0 90 192 294 390 498 588 696 792 888 996 1092 cents (Barbour, "Tuning and
    // Temperament", 1951, Correct Temperament No. 1).
    const auto werckmeister = by_system("werckmeister-iii", "C4");
    const auto at = [&](char step, const Rational& amount, AlterationUnit unit = semitone) {
        return tuned(*werckmeister, {step, {amount, unit}, 4});
    };
    CHECK(at('E', 0) == "-9.775");
    CHECK(at('E', -1) == "-5.865");
    CHECK(at('F', 0) == "-1.955");
    CHECK(at('F', 1) == "-11.730");
    CHECK(at('B', 0) == "-7.820");
    // Named otherwise than the system does: the note of the same key.
    CHECK(at('D', 1) == "-5.865");
    CHECK(at('F', -1) == "-9.775");
    CHECK(at('G', -1) == "-11.730");
    CHECK(at('B', 1) == "0.000");
    CHECK(at('C', -1) == "-7.820");
    CHECK(at('E', Rational(-1, 2)) == "the system has no note of this name");
    // Commas of 53: E less 5 and D and 4 are 13 of them, 294.340 cents; E flat is nearest. 18, the
    // Pythagorean E, lies 17 cents from Werckmeister's E and belongs to none.
    CHECK(at('E', -5, comma) == "-5.865");
    CHECK(at('D', 4, comma) == "-5.865");
    CHECK(at('C', 31, comma) == "-3.910");
    CHECK(at('E', -1, comma) == "-9.775");
    CHECK(at('E', 1, comma) == "the system has no note of this name");
    CHECK(at('C', -1, comma) == "the system has no note of this name");
    // On another tonic the deviations count from its note, and the tonic from its key.
    const auto on_a = by_system("werckmeister-iii", "A4");
    CHECK(tuned(*on_a, plain('A', 0, 4)) == "0.000");
    CHECK(tuned(*on_a, plain('C', 0, 5)) == "11.730");
    const auto high = by_system("werckmeister-iii", "E4+7c");
    CHECK(tuned(*high, plain('E', 0, 3)) == "7.000");
    CHECK(tuned(*high, plain('B', 0, 4)) == "8.955");
}

TEST_CASE("A chain of fifths reaches sixty places to either side, and no farther") {
    // A system whose degrees are so many pure fifths; the note a sharp above F has its own place
    // in a chain and none among named notes.
    const auto f_sharp = [](int longest) {
        SystemFacts facts;
        for (const int n : {0, 1, 2, -1, longest}) {
            Degree degree;
            degree.interval = reduced(Integer(n) * support::interval("3/2"));
            facts.scale.degrees.push_back(degree);
        }
        std::sort(facts.scale.degrees.begin(), facts.scale.degrees.end(),
                  [](const Degree& a, const Degree& b) { return a.interval < b.interval; });
        facts.scale.period = Interval::octave();
        Entry entry;
        entry.id = entry.name = "made-up";
        entry.facts = facts;
        return tuned(*tuning_by_system(entry, "C4"), plain('F', 1, 4));
    };
    for (const int longest : {60, -60})
        CHECK(f_sharp(longest) == "11.730"); // six fifths, 1.955 cents each
    for (const int longest : {61, -61})
        CHECK(f_sharp(longest) == "the system has no note of this name");
}

TEST_CASE("What a scale lacks is taken from the system behind it, from the scale's tonic") {
    const auto rest = [](const std::string& id) {
        return tuning_with_rest(by_scale("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", "D4"),
                                by_system(id, "D4"));
    };
    // The scale's own third of D is 5/4 in both; D♯ is an apotome, 2187/2048, above D, and F three
    // fifths down, 32/27: 113.685 and 294.135 cents.
    const auto both = rest("pythagorean-12");
    CHECK(tuned(*both, {plain('F', 1, 4), plain('D', 1, 4), plain('F', 0, 4)})
          == std::vector<std::string>{"-13.686", "13.685", "-5.865"});
    CHECK(both->text().find("; the rest: ") != std::string::npos);
    CHECK(both->cure().empty());
    const auto scale = by_scale("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", "D4");
    CHECK(tuned(*scale, plain('D', 1, 4)) != "13.685");
    CHECK(scale->cure().find("--rest") != std::string::npos);
}

TEST_CASE("A part of a sharp or a semitone has a place where it is a number of equal steps") {
    // 24, 36, 48, 72 and 96 equal steps refine 12, whose sharp they divide into 2, 3, 4, 6 and 8.
    const auto at = [](int steps, const Rational& alter) {
        return tuned(*tuning_by_division(EqualDivision(steps), "C4"),
                     WrittenPitch{'F', {alter, AlterationUnit::semitone}, 4});
    };
    CHECK(at(48, Rational(1, 4)) == "25.000");
    CHECK(at(48, Rational(-3, 4)) == "25.000"); // below E♯'s key, which is F's own
    CHECK(at(36, Rational(333333, 1000000)) == "33.333");
    CHECK(at(36, Rational(67, 100)) == "-33.333"); // from F♯
    CHECK(at(72, Rational(166667, 1000000)) == "16.667");
    CHECK(at(72, Rational(17, 100)) == "16.667");
    CHECK(at(96, Rational(1, 8)) == "12.500");
    CHECK(at(53, Rational(1, 5)) == "20.755"); // F is 22 steps: -1.887, and a step 22.642
    // Semitones of MusicXML, twelfths of the octave: 12/53 = 0.2264…, 12/31 = 0.38709…, 12/19.
    CHECK(at(53, Rational(2264, 10000)) == "20.755");
    CHECK(at(31, Rational(387097, 1000000)) == "41.935"); // F is 13 steps: 3.226, and 38.710
    CHECK(at(19, Rational(63, 100)) == "-31.579");        // F is 8: 5.263, and 63.158; from F♯
    for (const auto& [steps, alter] : {std::pair(36, Rational(1, 4)),
                                       {48, Rational(1, 8)},
                                       {12, Rational(1, 2)},
                                       {72, Rational(15, 100)},
                                       {53, Rational(1, 2)}})
        CHECK(at(steps, alter)
              == "this alteration is none of the " + std::to_string(steps) + " equal steps");
}

TEST_CASE("A scale is no tuning system, whatever its fifths are") {
    for (const char* id : {"rast", "hicaz", "segah", "zarlino", "church-dorian", "thaat-todi"}) {
        const auto error = support::error_of([&] { by_system(id, "C4"); });
        CHECK(support::name_of(error) == "system_is_scale");
        CHECK(error->advice() == "write --scale " + std::string(id));
    }
}

TEST_CASE("Commas meet degrees within half a comma") {
    // Rast in commas 0 9 17 22 31 40 48; from G4 its third is B less one comma.
    const auto rast = by_scale("9of53, 17of53, 22of53, 31of53, 40of53, 48of53", "G4");
    const auto commas = [](char step, int count, int octave) {
        return WrittenPitch{step, {count, comma}, octave};
    };
    CHECK(tuned(*rast, commas('B', -1, 4)) == "-15.094"); // 17 x 1200/53 = 384.906
    CHECK(tuned(*rast, commas('F', 4, 5)) == "-13.208");  // 48 x 1200/53 = 1086.792
    CHECK(tuned(*rast, commas('F', 0, 5)) == no_degree);
    CHECK(tuned(*rast, {commas('B', 0, 4), commas('B', -1, 4)}).at(0)
          == "another written note lies nearer to the degree");
}

TEST_CASE("A period other than the octave is followed") {
    Scale scale = parse_degrees("3/2", "scale");
    scale.period = support::interval("3/1");
    const auto tuning = tuning_by_scale(scale, "C3");
    CHECK(tuned(*tuning, plain('G', 0, 4)) == "1.955");   // 3/1 above C3
    CHECK(tuned(*tuning, plain('D', 0, 5)) == "3.910");   // 9/2
    CHECK(tuned(*tuning, plain('C', 0, 4)) == no_degree); // 2/1
    scale.period.reset();
    const auto once = tuning_by_scale(scale, "C3");
    CHECK(tuned(*once, plain('G', 0, 3)) == "1.955");
    CHECK(tuned(*once, plain('G', 0, 4)) == no_degree);
}

TEST_CASE("Where names do not return with the period, each period has its own best note") {
    // F sharp is nearest to the tonic, and C sharp a period above it lies 2 cents off.
    const auto fifths = [] {
        Scale scale = parse_degrees("1of7(3/2), 2of7(3/2)", "scale");
        scale.period = support::interval("3/2");
        return tuning_by_scale(scale, "F#3");
    }();
    const std::vector<WrittenPitch> pitches{plain('F', 1, 3), plain('C', 1, 4), plain('D', -1, 4)};
    CHECK(tuned(*fifths, pitches) == std::vector<std::string>{"0.000", "1.955", "1.955"});
    // In octaves the name that is nearer in one of them is nearer in all.
    const std::vector<WrittenPitch> octaves{plain('G', 0, 4), {'G', {Rational(1, 4), semitone}, 5}};
    CHECK(tuned(*by_scale("3/2", "C4"), octaves).back()
          == "another written note lies nearer to the degree");
}

TEST_CASE("A tonic beside its key shifts every note") {
    const auto tuning = by_scale("3/2", "D4-14c");
    CHECK(tuned(*tuning, plain('D', 0, 4)) == "-14.000");
    CHECK(tuned(*tuning, plain('A', 0, 4)) == "-12.045");
    CHECK(tuned(*by_scale("3/2", "D"), plain('A', 0, 4)) == "1.955"); // D alone is D4
    CHECK(support::name_of(support::error_of([] { by_scale("3/2", "H4"); })) != "");
}

TEST_CASE("Deviations are shown as players read them") {
    CHECK(deviation_text(support::interval("-13.6c"), 0) == "−14");
    CHECK(deviation_text(support::interval("3.9c"), 0) == "+4");
    CHECK(deviation_text(support::interval("-0.4c"), 0) == "0");
    CHECK(deviation_text(support::interval("-0.04c"), 1) == "0.0");
    CHECK(deviation_text(support::interval("0.5c"), 0) == "0"); // half to even
    CHECK(deviation_text(support::interval("1.5c"), 0) == "+2");
    CHECK(deviation_text(support::interval("-1.25c"), 1) == "−1.2");
}

TEST_CASE("Commas are counted from a tonic with a sharp or a flat") {
    // Above C, in commas: D 9, A 40, B flat 49 - 5, F sharp 22 + 4. The third is 17 commas high.
    const auto commas = [](char step, int count, int octave) {
        return WrittenPitch{step, {count, comma}, octave};
    };
    const char* third = "17of53";
    CHECK(tuned(*by_scale(third, "Bb4"), commas('D', -1, 5)) == "-15.094");
    CHECK(tuned(*by_scale(third, "F#4"), commas('A', 3, 4)) == "-15.094");
    CHECK(tuned(*by_scale(third, "F#4"), commas('A', 0, 4)) == no_degree);
}
