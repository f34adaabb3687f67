// Every transposition with every quarter tone: what the player reads, and how far it deviates.

#include <sectio/score/annotation.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/scores.hpp>

#include <cstdlib>

using namespace sectio;
using namespace sectio::score;

namespace {

constexpr std::string_view letters = "CDEFGAB";
constexpr std::array letter_keys{0, 2, 4, 5, 7, 9, 11};

/// An equal division by what its whole tone and its sharp hold; sharps that have halves.
struct Division {
    int steps, tone, sharp;

    int of_letter(int place) const {
        const int octaves = place >= 0 ? place / 7 : -((6 - place) / 7);
        const int within = place - 7 * octaves;
        // E to F is a semitone: a whole tone less a sharp.
        return steps * octaves + tone * within - (within > 2 ? sharp : 0);
    }
};

int keys_of(int place) {
    const int octaves = place >= 0 ? place / 7 : -((6 - place) / 7);
    return 12 * octaves + letter_keys[static_cast<std::size_t>(place - 7 * octaves)];
}

std::string alter_text(int quarter_tones) {
    return std::to_string(quarter_tones / 2.0).substr(0, quarter_tones < 0 ? 4 : 3);
}

/// All letters with all quarter tones up to a double sign.
std::string all_notes() {
    std::string notes;
    for (const char letter : letters)
        for (int quarter_tones = -4; quarter_tones <= 4; ++quarter_tones)
            notes += support::note(std::string(1, letter), 4, alter_text(quarter_tones));
    return notes;
}

std::string transposed(int diatonic, int chromatic, int octaves) {
    return support::attributes("<transpose><diatonic>" + std::to_string(diatonic)
                               + "</diatonic><chromatic>" + std::to_string(chromatic)
                               + "</chromatic><octave-change>" + std::to_string(octaves)
                               + "</octave-change></transpose>");
}

/// The table's row of a letter with quarter tones.
const TableRow* row_of(const Annotation& annotation, char letter, int quarter_tones) {
    const WrittenPitch pitch{letter, {Rational(quarter_tones, 2), AlterationUnit::semitone}, 4};
    for (const TableRow& row : annotation.table)
        if (row.written == text(pitch, NameStyle::ascii))
            return &row;
    return nullptr;
}

Annotation annotated(const std::string& bytes, const NoteTuning& tuning, PitchKind kind) {
    AnnotationOptions options;
    options.pitch = kind;
    return annotate(read_score(document_of(bytes, "t")), tuning, options);
}

/// Quarter tones toward the plain letter, in whole semitones: half goes down in size.
int base(int quarter_tones) {
    return quarter_tones / 2;
}

/// By hand: steps of the sounding note, less the keys of the note that is read, as it sounds.
void check_all(const Annotation& annotation, const Division& division, int diatonic,
               int chromatic) {
    const int moved =
        division.of_letter(diatonic) + division.sharp * (chromatic - keys_of(diatonic));
    for (int place = 0; place < 7; ++place)
        for (int quarter_tones = -4; quarter_tones <= 4; ++quarter_tones) {
            const char letter = letters[static_cast<std::size_t>(place)];
            CAPTURE(division.steps, diatonic, chromatic, letter, quarter_tones);
            const TableRow* row = row_of(annotation, letter, quarter_tones);
            REQUIRE(row != nullptr);
            const int steps =
                division.of_letter(place) + division.sharp * quarter_tones / 2 + moved;
            const int keys = keys_of(place) + base(quarter_tones) + chromatic;
            CHECK(row->deviation
                  == Interval::from_steps(steps, division.steps) - Interval::from_steps(keys, 12));
        }
}

struct Move {
    int diatonic, chromatic;
};

/// Clarinets in B-flat and A, saxophones, horn, piccolo trumpet in E-flat, and enharmonic ones.
constexpr std::array moves{Move{-1, -2}, Move{-2, -3}, Move{-4, -7}, Move{-5, -9},  Move{2, 3},
                           Move{1, 2},   Move{1, 1},   Move{0, -1},  Move{-8, -14}, Move{3, 6},
                           Move{4, 6},   Move{0, 0},   Move{7, 12}};

} // namespace

TEST_CASE("Quarter tones of transposing parts count from the note that is read") {
    for (const Division& division : {Division{24, 4, 2}, Division{31, 5, 2}, Division{17, 3, 2}}) {
        const auto tuning = tuning_by_division(EqualDivision(division.steps), "C4");
        for (const auto& [diatonic, chromatic] : moves)
            for (const int octaves : {0, 1}) {
                const std::string bytes =
                    support::score({transposed(diatonic, chromatic, octaves) + all_notes()});
                check_all(annotated(bytes, *tuning, PitchKind::sounding), division, diatonic,
                          chromatic);
                check_all(annotated(bytes, *tuning, PitchKind::written), division, 0, 0);
            }
    }
}

TEST_CASE("A transposing part takes the scale's degree and counts from the note that is read") {
    Scale scale = parse_degrees("9/8, 11/9, 4/3, 3/2", "");
    const auto tuning = tuning_by_scale(scale, "C4");
    // Written F half-sharp of a B-flat clarinet sounds E half-flat, the degree 11/9 (347.408
    // cents), and is read from F, which sounds E♭ (300 cents).
    const std::string note = support::note("F", 4, "0.5");
    const Annotation clarinet =
        annotated(support::score({transposed(-1, -2, 0) + note}), *tuning, PitchKind::sounding);
    REQUIRE(clarinet.table.size() == 1);
    CHECK(clarinet.table[0].base == "F");
    CHECK(clarinet.table[0].deviation.cents(3) == "47.408");
}

TEST_CASE("A part that is a quarter tone off is read as its player hears 12 equal steps") {
    const std::string attributes = support::attributes(
        "<transpose><diatonic>0</diatonic><chromatic>0.5</chromatic></transpose>");
    const auto tuning = tuning_by_division(EqualDivision(24), "C4");
    const Annotation found = annotated(support::score({attributes + support::note("D", 4)}),
                                       *tuning, PitchKind::sounding);
    REQUIRE(found.table.size() == 1);
    CHECK(found.table[0].deviation == Interval());
}

TEST_CASE("A tonic is the note that was written") {
    const auto deviation = [](const NoteTuning& tuning, const WrittenPitch& pitch) {
        return std::get<Interval>(tuning.tune(std::vector{pitch}).at(0)).cents(3);
    };
    const auto plain = [](char step, Rational sharps) {
        return WrittenPitch{step, {sharps, AlterationUnit::semitone}, 4};
    };
    // D half-sharp lies 50 cents above D, and so does not become a note of its own key's kin.
    const auto half_sharp = tuning_by_division(EqualDivision(24), "D𝄲4");
    CHECK(deviation(*half_sharp, plain('D', Rational(1, 2))) == "50.000");
    CHECK(deviation(*half_sharp, plain('D', 0)) == "0.000");
    // A D that is 80 cents high is a D, not a D sharp: its fifth is an A.
    const auto high = tuning_by_system(*Catalogue::installed().find("pythagorean-12"), "D4+80c");
    CHECK(deviation(*high, plain('D', 0)) == "80.000");
    CHECK(deviation(*high, plain('A', 0)) == "81.955");
    // E sharp stays E sharp: seven fifths above its E, and a fifth below B sharp.
    const auto sharp = tuning_by_system(*Catalogue::installed().find("pythagorean-12"), "E♯4");
    CHECK(deviation(*sharp, plain('E', 1)) == "0.000");
    CHECK(deviation(*sharp, plain('F', 0)) == "-23.460");
    CHECK(support::name_of(support::error_of(
              [] { static_cast<void>(tuning_by_division(EqualDivision(19), "D𝄲4")); }))
          == "tonic_not_in_system");
}

TEST_CASE("Of several degrees in reach the nearest is taken, whatever their order") {
    Scale scale = parse_degrees("30of53, 31of53", "");
    const auto tuning = tuning_by_scale(scale, "C4");
    const auto outcome =
        tuning->tune(std::vector{WrittenPitch{'G', {0, AlterationUnit::comma}, 4}});
    CHECK(std::get<Interval>(outcome.at(0)) == support::interval("31of53 - 7of12"));
}
