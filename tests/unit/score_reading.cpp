// What written notes mean: alter, signs, ties, key signatures, transposition.

#include <sectio/score/melody.hpp>
#include <sectio/score/reading.hpp>
#include <sectio/score/written.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/scores.hpp>

using namespace sectio;
using namespace sectio::score;
using support::attributes;
using support::note;
using support::signed_note;

namespace {

Score read(const std::string& measure) {
    return read_score(document_of(support::score({measure}), "tune.musicxml"));
}

/// The alteration of note `index` as text: "+1/2", "-4 commas", or the reason for none.
std::string altered(const Score& score, std::size_t index, const ReadingChoice& choice = {}) {
    const Reading reading = choose_reading(score, choice);
    const auto found = alteration_of(score, score.notes.at(index), reading);
    if (const auto* reason = std::get_if<Unreadable>(&found))
        return std::string(text(*reason));
    return text(WrittenPitch{'C', std::get<Alteration>(found), 4}, NameStyle::ascii);
}

const ReadingChoice by_sign{Source::sign, SignTable::general, Signature::written};
const ReadingChoice turkish{Source::sign, SignTable::turkish, Signature::written};

} // namespace

TEST_CASE("alter is any xs:decimal") {
    // XML Schema Part 2, 3.2.3: a sign, digits, a point; white space collapses.
    for (const char* one : {"1", "+1", " 1 ", "1.0", "+1.000", "\n+01.\n"})
        CHECK(altered(read(note("F", 4, one)), 0) == "C#");
    CHECK(altered(read(note("B", 4, "-0.5")), 0) == "C -1/2");
    CHECK(altered(read(note("B", 4, "-.25")), 0) == "C -1/4");
    CHECK(altered(read(note("B", 4, "0")), 0) == "C");
    for (const char* bad : {"", "sharp", "1e0", "1,5", "--1", "0.1234567891"})
        CHECK(support::name_of(support::error_of([&] {
                  read("<note><pitch><step>C</step><alter>" + std::string(bad)
                       + "</alter><octave>4</octave></pitch><duration>1</duration></note>");
              }))
              == "score_number");
}

TEST_CASE("By alter a key signature adds nothing, and a note without alter is natural") {
    const Score score =
        read(attributes("<key><fifths>2</fifths></key>") + note("F", 4, "1") + note("F", 4));
    CHECK(choose_reading(score).source == Source::alter);
    CHECK(altered(score, 0) == "C#");
    CHECK(altered(score, 1) == "C");
}

TEST_CASE("By alter a sign that alter contradicts is reported, not guessed") {
    const Score score = read(note("G", 4, "1") + note("A", 4, "1") + signed_note("F", 4, "sharp")
                             + signed_note("F", 4, "flat", "1") + signed_note("F", 4, "natural")
                             + signed_note("F", 4, "quarter-sharp", "0.3"));
    CHECK(choose_reading(score).source == Source::alter);
    CHECK(altered(score, 2) == "sign without alter");
    CHECK(altered(score, 3) == "sign and alter contradict each other");
    CHECK(altered(score, 4) == "C");
    CHECK(altered(score, 5) == "C +3/10");
    CHECK(choose_reading(score).evidence.contradictions == 1);
}

TEST_CASE("Every accidental value of MusicXML 4.0 is known") {
    // Values: musicxml.xsd 4.0, simple type accidental-value. Quarter tones: its documentation.
    struct Row {
        const char* name;
        const char *general, *turkish;
    };
    const char* none = "sign without a stated value";
    const Row row = GENERATE_COPY(values<Row>({{"sharp", "C#", "C +4 commas"},
                                               {"natural", "C", "C"},
                                               {"flat", "Cb", "C -5 commas"},
                                               {"double-sharp", "C##", none},
                                               {"sharp-sharp", "C##", none},
                                               {"flat-flat", "Cbb", none},
                                               {"natural-sharp", "C#", "C +4 commas"},
                                               {"natural-flat", "Cb", "C -5 commas"},
                                               {"quarter-flat", "C -1/2", "C -1 comma"},
                                               {"quarter-sharp", "C +1/2", "C +1 comma"},
                                               {"three-quarters-flat", "C -3/2", none},
                                               {"three-quarters-sharp", "C +3/2", none},
                                               {"sharp-down", "C +1/2", none},
                                               {"sharp-up", "C +3/2", none},
                                               {"natural-down", "C -1/2", none},
                                               {"natural-up", "C +1/2", none},
                                               {"flat-down", "C -3/2", none},
                                               {"flat-up", "C -1/2", none},
                                               {"double-sharp-down", "C +3/2", none},
                                               {"double-sharp-up", "C +5/2", none},
                                               {"flat-flat-down", "C -5/2", none},
                                               {"flat-flat-up", "C -3/2", none},
                                               {"arrow-down", "C -1/2", none},
                                               {"arrow-up", "C +1/2", none},
                                               {"triple-sharp", "C###", none},
                                               {"triple-flat", "Cbbb", none},
                                               {"slash-quarter-sharp", none, "C +5 commas"},
                                               {"slash-sharp", none, "C +8 commas"},
                                               {"slash-flat", none, "C -4 commas"},
                                               {"double-slash-flat", none, "C -8 commas"},
                                               {"sharp-1", none, "C +1 comma"},
                                               {"sharp-2", none, "C +2 commas"},
                                               {"sharp-3", none, "C +3 commas"},
                                               {"sharp-5", none, "C +5 commas"},
                                               {"flat-1", none, "C -1 comma"},
                                               {"flat-2", none, "C -2 commas"},
                                               {"flat-3", none, "C -3 commas"},
                                               {"flat-4", none, "C -4 commas"},
                                               {"sori", "C +1/2", none},
                                               {"koron", "C -1/2", none},
                                               {"other", none, none}}));
    const Score score = read(signed_note("C", 4, row.name));
    CHECK(score.unknown_signs.empty());
    CHECK(altered(score, 0, by_sign) == row.general);
    CHECK(altered(score, 0, turkish) == row.turkish);
    CHECK(all_signs().size() == 1 + 41 + 31); // "no sign", the 41 of the schema, glyphs
}

TEST_CASE("An accidental without a value is read by its glyph") {
    const auto glyph = [](const std::string& name, const std::string& value = "other") {
        return read("<note><pitch><step>E</step><octave>4</octave></pitch><duration>1</duration>"
                    "<accidental smufl=\""
                    + name + "\">" + value + "</accidental></note>");
    };
    CHECK(altered(glyph("accidentalKoron"), 0) == "C -1/2");
    CHECK(altered(glyph("accidentalThreeQuarterTonesSharpArabic"), 0) == "C +3/2");
    CHECK(altered(glyph("accidentalKucukMucennebFlat"), 0) == "C -5 commas");
    CHECK(altered(glyph("accidental3CommaSharp"), 0) == "C +3 commas");
    CHECK(altered(glyph("accidentalBakiyeFlat", "sharp"), 0, by_sign) == "C#"); // a value counts
    CHECK(altered(glyph("accidentalNaturalOneArrowDown"), 0) == "sign without a stated value");
    CHECK(read(signed_note("E", 4, "accidentalKoron")).unknown_signs.size() == 1);
    const std::string key =
        "<key><key-step>B</key-step><key-alter>-1</key-alter>"
        "<key-accidental smufl=\"accidentalKomaFlat\">other</key-accidental></key>";
    CHECK(choose_reading(read(attributes(key) + note("B", 4))).evidence.comma_signatures == 1);
}

TEST_CASE("A sign outside the standard is counted and has no value") {
    const Score score = read(signed_note("C", 4, "wavy"));
    CHECK(score.unknown_signs.at("wavy") == 1);
    CHECK(altered(score, 0, by_sign) == "sign without a stated value");
}

TEST_CASE("The kind of a score is told by its evidence") {
    SECTION("signs without alter, none altered without a sign") {
        const Score score = read(signed_note("B", 4, "slash-flat") + note("A", 4) + note("B", 4));
        const Reading reading = choose_reading(score);
        CHECK(reading.source == Source::sign);
        CHECK(reading.table == SignTable::turkish);
        CHECK(altered(score, 0) == "C -4 commas");
        CHECK(altered(score, 2) == "C"); // no sign: natural, though the step had one before
    }
    SECTION("a key signature in commas") {
        const std::string key = "<key><key-step>B</key-step><key-alter>-2</key-alter>"
                                "<key-accidental>quarter-flat</key-accidental></key>";
        const Score score =
            read(attributes(key) + signed_note("B", 4, "quarter-flat", "-0.5") + note("B", 4));
        const Reading reading = choose_reading(score);
        CHECK(reading.source == Source::sign);
        CHECK(reading.evidence.comma_signatures == 1);
        CHECK(altered(score, 0) == "C -1 comma");
        CHECK(altered(score, 0, {{}, {}, Signature::practised}) == "C -2 commas");
        CHECK(altered(score, 1, {{}, {}, Signature::practised})
              == "C"); // the signature is not applied
    }
    SECTION("a key signature in quarter tones is none in commas") {
        const std::string key = "<key><key-step>B</key-step><key-alter>-0.5</key-alter>"
                                "<key-accidental>quarter-flat</key-accidental></key>";
        const Score score = read(attributes(key) + signed_note("B", 4, "quarter-flat", "-0.5"));
        CHECK(choose_reading(score).source == Source::alter);
        CHECK(altered(score, 0) == "C -1/2");
    }
    SECTION("a makam named, every altered note with its sign") {
        const std::string words = "<direction><direction-type><words>Makam: "
                                  "Invented</words></direction-type></direction>";
        CHECK(choose_reading(read(words + signed_note("C", 4, "sharp", "+1"))).source
              == Source::sign);
        CHECK(choose_reading(read(words + note("C", 4, "1"))).source == Source::alter);
    }
    SECTION("alter without signs outweighs one sign without alter") {
        const Score score =
            read(note("C", 4, "1") + note("F", 4, "1") + signed_note("G", 4, "sharp"));
        CHECK(choose_reading(score).source == Source::alter);
        CHECK(altered(score, 2, by_sign) == "C#");
        CHECK(choose_reading(score, by_sign).reason == "as asked");
    }
}

TEST_CASE("Grace notes that lose their signs are not taken for naturals") {
    const auto grace = [](const std::string& sign) {
        return "<note><grace/><pitch><step>B</step><octave>4</octave></pitch>" + sign + "</note>";
    };
    const Score lost = read(signed_note("B", 4, "slash-flat") + grace(""));
    CHECK(choose_reading(lost).grace_signs_lost);
    CHECK(altered(lost, 1) == "grace note without sign");
    const Score kept = read(signed_note("B", 4, "slash-flat") + grace("")
                            + grace("<accidental>slash-flat</accidental>"));
    CHECK_FALSE(choose_reading(kept).grace_signs_lost);
    CHECK(altered(kept, 1) == "C");
    CHECK(altered(kept, 2) == "C -4 commas");
}

TEST_CASE("A tied note without a sign keeps the sign before the tie") {
    const Score score =
        read(note("B", 4, "", "<tie type=\"start\"/><accidental>slash-flat</accidental>")
             + note("B", 4, "", "<tie type=\"stop\"/><tie type=\"start\"/>")
             + note("B", 4, "", "<tie type=\"stop\"/>") + note("B", 4));
    for (const std::size_t tied : {0U, 1U, 2U})
        CHECK(altered(score, tied, turkish) == "C -4 commas");
    CHECK(altered(score, 3, turkish) == "C");
}

TEST_CASE("Of two voices that hold one note each keeps the sign before its own tie") {
    const auto tied = [](const char* type, const char* voice, const char* sign) {
        return support::note("F", 4, "",
                             std::string("<voice>") + voice + "</voice>" + sign
                                 + "<notations><tied type=\"" + type + "\"/></notations>");
    };
    const std::string back = "<backup><duration>1</duration></backup>";
    const char* const sharp = "<accidental>sharp</accidental>";
    const Score score = read_score(
        document_of(support::score({support::attributes() + tied("start", "1", sharp) + back
                                        + tied("start", "2", sharp),
                                    tied("stop", "1", "") + back + tied("stop", "2", "")}),
                    "t"));
    REQUIRE(score.notes.size() == 4);
    for (const Note& note : score.notes)
        CHECK(score.spellings[note.tied].sign == *sign_named("sharp"));
}

TEST_CASE("Time is counted through chords, backup, forward and grace notes") {
    const Score score =
        read(attributes() + note("C", 4) + note("E", 4, "", "").insert(6, "<chord/>")
             + "<note><grace/><pitch><step>F</step><octave>4</octave></pitch></note>" + note("G", 4)
             + "<backup><duration>2</duration></backup>"
             + "<forward><duration>1</duration></forward>" + note("A", 3));
    REQUIRE(score.notes.size() == 5);
    const std::vector<int> onsets{0, 0, 1, 1, 1};
    for (std::size_t i = 0; i < onsets.size(); ++i)
        CHECK(score.notes[i].onset == QuarterNotes(onsets[i], 1));
    CHECK(score.notes[1].is(Note::chord));
    CHECK(score.notes[1].head_at == score.notes[0].head_at);
}

TEST_CASE("A transposing part sounds by its steps and semitones") {
    const auto transposition = [](int diatonic, int chromatic, int octaves, bool stated = true) {
        return Transposition{diatonic, QuarterNotes(chromatic, 1), octaves, stated};
    };
    const auto sounds = [](WrittenPitch written, const Transposition& by) {
        return text_with_octave(sounding(written, by), NameStyle::ascii);
    };
    const Alteration natural, flat{-1, AlterationUnit::semitone};
    // Clarinet in B flat, alto saxophone in E flat, trumpet in D, guitar, horn in F.
    CHECK(sounds({'D', natural, 5}, transposition(-1, -2, 0)) == "C5");
    CHECK(sounds({'C', natural, 4}, transposition(-1, -2, 0)) == "Bb3");
    CHECK(sounds({'A', natural, 5}, transposition(-5, -9, 0)) == "C5");
    CHECK(sounds({'B', flat, 4}, transposition(1, 2, 0)) == "C5");
    CHECK(sounds({'E', natural, 4}, transposition(0, 0, -1)) == "E3");
    CHECK(sounds({'G', natural, 4}, transposition(0, -7, 0, false)) == "C4");
    // Clarinet in A, where only the semitones are stated: a minor third down, C to A.
    CHECK(sounds({'C', natural, 5}, transposition(0, -3, 0, false)) == "A4");
    // Commas keep their measure: a whole tone is 9 of them, so B less one comma becomes A less one.
    CHECK(sounds({'B', {-1, AlterationUnit::comma}, 4}, transposition(-1, -2, 0)) == "A4 -1 comma");
    CHECK(sounds({'C', {4, AlterationUnit::comma}, 4}, transposition(-2, -3, 0)) == "A3 +4 commas");
}

TEST_CASE("The key that a deviation counts from is the nearest, towards the plain letter") {
    const auto key = [](char step, int num, int den, AlterationUnit unit) {
        return base_key({step, {Rational(num, den), unit}, 4});
    };
    CHECK(key('A', 0, 1, AlterationUnit::semitone) == 69);
    CHECK(key('F', 1, 1, AlterationUnit::semitone) == 66);
    CHECK(key('F', 1, 2, AlterationUnit::semitone) == 65);
    CHECK(key('F', 3, 2, AlterationUnit::semitone) == 66);
    CHECK(key('B', -1, 2, AlterationUnit::semitone) == 71);
    CHECK(key('B', -3, 2, AlterationUnit::semitone) == 70);
    CHECK(key('B', -1, 1, AlterationUnit::comma) == 71); // 22.6 cents
    CHECK(key('B', -4, 1, AlterationUnit::comma) == 70); // 90.6 cents
    CHECK(key('G', 8, 1, AlterationUnit::comma) == 69);  // 181.1 cents
}

TEST_CASE("The melody is the upper line, tied notes one, phrases ended by rests and marks") {
    const std::string rest = "<note><rest/><duration>2</duration></note>";
    const std::string fermata = "<notations><fermata/></notations>";
    const std::string grace =
        "<note><grace/><pitch><step>B</step><octave>4</octave></pitch></note>";
    const Score score =
        read(attributes() + note("D", 4) + note("A", 3, "", "").insert(6, "<chord/>") + grace
             + note("E", 4, "", "<tie type=\"start\"/>") + note("E", 4, "", "<tie type=\"stop\"/>")
             + rest + note("F", 4, "1", fermata) + note("D", 4));
    const Melody melody = melody_of(score).melody;
    CHECK(melody.in_time);
    CHECK(melody.zero == MelodyZero::written);
    REQUIRE(melody.notes.size() == 4);
    const std::vector<const char*> pitches{"2of12", "4of12", "6of12", "2of12"};
    const std::vector<bool> ends{false, true, true, true};
    for (std::size_t i = 0; i < pitches.size(); ++i) {
        CHECK(melody.notes[i].interval == support::interval(pitches[i]));
        CHECK(melody.notes[i].ends_phrase == ends[i]);
    }
    CHECK(melody.notes[1].weight == Rational(2));
}

TEST_CASE("A lower voice that moves below a held note is no part of the melody") {
    const auto lasting = [](const std::string& step, int octave, int beats) {
        std::string text = note(step, octave, "", "<voice>1</voice>");
        return text.replace(text.find("<duration>1"), 11, "<duration>" + std::to_string(beats));
    };
    const std::string back = "<backup><duration>4</duration></backup>";
    const std::string transposed =
        "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>";
    const Score score =
        read(attributes(transposed) + lasting("D", 5, 3) + lasting("C", 6, 1) + back + note("F", 3)
             + note("G", 3) + lasting("A", 5, 2) + signed_note("B", 4, "wavy"));
    const ScoreMelody line = melody_of(score);
    REQUIRE(line.melody.notes.size() == 3);
    const std::vector<const char*> pitches{"14of12", "21of12", "24of12"};
    const std::vector<int> beats{2, 1, 1}; // each until a higher one begins
    for (std::size_t i = 0; i < pitches.size(); ++i) {
        CHECK(line.melody.notes[i].interval == support::interval(pitches[i]));
        CHECK(line.melody.notes[i].weight == Rational(beats[i]));
    }
    CHECK(line.remarks
          == std::vector<std::string>{
              "Of notes that sound together the highest is taken; left out below it: 2.",
              "Left out, since the score does not say their pitch: 1.",
              "Notes are named as they are written; the part sounds 2 semitones lower."});
}

TEST_CASE("A final bar line ends a phrase, a plain one does not") {
    const auto with = [](const std::string& style) {
        const std::string bar = "<barline><bar-style>" + style + "</bar-style></barline>";
        return melody_of(
                   read_score(document_of(support::score({note("D", 4) + bar, note("E", 4)}), "t")))
            .melody.notes.at(0)
            .ends_phrase;
    };
    CHECK(with("light-heavy"));
    CHECK_FALSE(with("light-light"));
}

TEST_CASE("In Turkish notation the melody counts commas from C4") {
    // Commas: D 9, A 40, B less one 48 (common practice of the 53-comma scale; E 18, F 22, G 31).
    const Score score =
        read(note("D", 4) + note("A", 4) + signed_note("B", 4, "quarter-flat", "-0.5"));
    const Melody melody = melody_of(score, turkish).melody;
    REQUIRE(melody.notes.size() == 3);
    CHECK(melody.notes[0].interval == support::interval("9of53"));
    CHECK(melody.notes[1].interval == support::interval("40of53"));
    CHECK(melody.notes[2].interval == support::interval("48of53"));
}
