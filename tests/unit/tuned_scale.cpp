// A scale on a tonic with a reference: pitches, names and places of its degrees.

#include <sectio/interval/messages.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/intervals.hpp>

#include <set>

using namespace sectio;

namespace {

TunedScale on(std::string_view degrees, const char* tonic, const char* reference = nullptr) {
    TuningOptions options;
    if (tonic)
        options.tonic = parse_tonic(tonic, {"--tonic"});
    if (reference)
        options.reference = reference;
    return tuned(parse_degrees(degrees, "test"), options);
}

Scale without_period() {
    return read_scale_file("name = \"set\"\nperiod = \"none\"\ntonic = \"D4\"\n"
                           "degrees = [\"-498c\", \"-200c\", \"9/8\", \"3/2\"]",
                           "set.toml");
}

std::string notes(const TunedScale& scale) {
    std::string text;
    for (const TunedDegree& degree : scale.degrees())
        text += (text.empty() ? "" : " ") + degree.note.text();
    return text;
}

} // namespace

TEST_CASE("Seven degrees have seven letters, by double signs where single ones do not suffice") {
    // Kanakāngi, the first of Venkatamakhin's 72: its two lowest notes of D and of A lie a semitone
    // apart. Written so in Western letters, common practice, no source.
    const TunedScale scale = tuned(*Catalogue::installed().find("kanakangi")->scale(), {"C4", {}});
    std::string names;
    for (const TunedDegree& degree : scale.degrees())
        names += degree.note.name.text() + " ";
    CHECK(names == "C Db Ebb F G Ab Bbb ");
    // A tonic that nobody named is no B sharp, though that has fewer double signs.
    CHECK(tuned(*Catalogue::installed().find("kanakangi")->scale()).tonic().note.name.text()
          == "C");
    for (const Entry& entry : Catalogue::installed().all()) {
        if (entry.family() != "mēḷakarta")
            continue;
        std::set<char> letters;
        const TunedScale melakarta = tuned(*entry.scale(), {"C4", {}});
        for (const TunedDegree& degree : melakarta.degrees())
            letters.insert(degree.note.name.letter);
        CHECK(letters.size() == 7);
    }
}

TEST_CASE("What the caller says goes before what the scale says, and that before the usual") {
    Scale scale = parse_degrees("9/8, 3/2", "test");
    CHECK(tuned(scale).tonic().written() == "C4");
    CHECK(tuned(scale).a4() == Pitch::concert_a());
    scale.tonic = "D4";
    scale.reference = "A4 = 415 Hz";
    CHECK(tuned(scale).tonic().written() == "D4");
    CHECK(tuned(scale).a4() == Pitch::from_hertz(Rational(415)));
    CHECK(tuned(scale).tonic().pitch
          == Pitch::from_hertz(Rational(415)) - Interval::from_steps(7, 12));
    CHECK(tuned(scale, {"E4", "A4=442"}).tonic().pitch
          == Pitch::from_hertz(Rational(442)) - Interval::from_steps(5, 12));
}

TEST_CASE("A tonic without octave lies in the octave from middle C up") {
    CHECK(on("3/2", "D").tonic().written() == "D4");
    CHECK(on("3/2", "E♭").tonic().pitch == on("3/2", "Eb4").tonic().pitch);
    CHECK(support::name_of(support::error_of([] { on("3/2", "x"); })) == "expected_pitch");
    CHECK(support::error_of([] { on("3/2", "D4?"); })->place().text() == "--tonic:3");
}

TEST_CASE("A tonic keeps the name that it was written with") {
    CHECK(notes(on("9/8, 5/4", "D#4")) == "D#4 F4 G4");
    CHECK(notes(on("9/8, 5/4", "Eb4")) == "Eb4 F4 G4");
    CHECK(notes(on("9/8,5/4,4/3,3/2,5/3,15/8", "C#4")) == "C#4 D#4 E#4 F#4 G#4 A#4 B#4");
    CHECK(notes(on("9/8,5/4,4/3,3/2,5/3,15/8", "Db4")) == "Db4 Eb4 F4 Gb4 Ab4 Bb4 C5");
    CHECK(notes(on("9/8,5/4,4/3,3/2,5/3,15/8", "277.18Hz")) == "Db4 Eb4 F4 Gb4 Ab4 Bb4 C5");
    CHECK(on("9/8, 5/4", "D#4").closing()->note.text() == "D#5");
}

TEST_CASE("Without a period the tonic is the degree 1/1, not the lowest") {
    const TunedScale scale = tuned(without_period());
    CHECK(scale.tonic_index() == 2);
    CHECK(notes(scale) == "A3 C4 D4 E4 A4");
    CHECK(scale.degrees()[2].pitch == scale.tonic().pitch);
    CHECK(scale.degrees()[2].deviation.is_unison());
    CHECK(scale.number(2) == 1);
    CHECK(scale.number(3) == 2);
    CHECK(scale.number(1) == -1);
    CHECK(scale.number(0) == -2);
    CHECK_FALSE(scale.closing());
    CHECK(scale.step(-2)->degree == 0);
    CHECK_FALSE(scale.step(-3));
    CHECK(scale.step(2)->degree == 4);
    CHECK_FALSE(scale.step(3));
}

TEST_CASE("Degrees go on through the periods in both directions") {
    const TunedScale scale = on("9/8, 3/2", "C4");
    CHECK(*scale.step(0) == DegreeAt{0, 0});
    CHECK(*scale.step(4) == DegreeAt{1, 1});
    CHECK(*scale.step(-1) == DegreeAt{2, -1});
    CHECK(scale.pitch({2, -1}) == scale.tonic().pitch - Interval::from_ratio(4, 3));
    CHECK(scale.tuned({2, -1}).note.text() == "G3");
    CHECK(scale.tuned({2, -1}).deviation.cents(3) == "1.955");
}

TEST_CASE("The nearest degree is found in any period; half way the lower one") {
    const TunedScale scale = on("100c, 700c", "C4");
    const auto at = [&](const char* above) {
        return scale.nearest(scale.tonic().pitch + parse_interval(above));
    };
    CHECK(at("40c").at == DegreeAt{0, 0});
    CHECK(at("40c").rest == parse_interval("40c"));
    CHECK(at("50c").at == DegreeAt{0, 0});
    CHECK(at("51c").at == DegreeAt{1, 0});
    CHECK(at("1190c").at == DegreeAt{0, 1});
    CHECK(at("1190c").rest == parse_interval("-10c"));
    CHECK(at("-2390c").at == DegreeAt{0, -2});
    const TunedScale set = tuned(without_period());
    const auto in_set = [&](const char* above) {
        return set.nearest(set.tonic().pitch + parse_interval(above));
    };
    CHECK(in_set("-5000c").at == DegreeAt{0, 0});
    CHECK(in_set("-5000c").rest == parse_interval("-4502c"));
    CHECK(in_set("5000c").at == DegreeAt{4, 0});
    CHECK(in_set("-90c").at == DegreeAt{2, 0});
}

TEST_CASE("All that sounds between two pitches is listed, ends included") {
    const TunedScale scale = on("9/8, 3/2", "C4");
    const auto found = scale.between(parse_pitch("C4"), parse_pitch("C5"));
    CHECK(found == std::vector<DegreeAt>{{0, 0}, {1, 0}, {2, 0}, {0, 1}});
    CHECK(scale.between(parse_pitch("C4+1c"), parse_pitch("D4")).empty());
    CHECK(scale.between(parse_pitch("B3"), parse_pitch("C4")).size() == 1);
    CHECK(scale.between(parse_pitch("C4"), parse_pitch("B3")).empty());
    const TunedScale set = tuned(without_period());
    CHECK(set.between(parse_pitch("C1"), parse_pitch("C9")).size() == 5);
}

TEST_CASE("Degrees and entries of what has no name live as long as the loop over them") {
    std::string notes;
    for (const TunedDegree& degree : on("9/8,3/2", "D4").degrees())
        notes += degree.note.text() + " ";
    CHECK(notes == "D4 E4 A4 ");
    std::size_t entries = 0;
    for (const Entry& entry : Catalogue(SECTIO_DATA_DIR "/catalogue").all())
        entries += entry.id.empty() ? 0u : 1u;
    CHECK(entries == Catalogue::installed().all().size());
}

TEST_CASE("Scales of the catalogue begin where their theory writes them") {
    const auto tonic_of = [](const char* id) {
        const TunedScale scale = tuned(*Catalogue::installed().find(id)->scale());
        return scale.tonic().note.text();
    };
    // Staff notation of Turkish theory (H. S. Arel; common practice, from memory).
    CHECK(tonic_of("rast") == "G4");
    CHECK(tonic_of("hicaz") == "A4");
    CHECK(tonic_of("segah") == "B4");
    // Arab staff notation (common practice, from memory).
    CHECK(tonic_of("maqam-rast") == "C4");
    CHECK(tonic_of("maqam-bayati") == "D4");
    // Finals of the modes: MacDowell, Critical and Historical Essays (1912).
    CHECK(tonic_of("church-dorian") == "D4");
    CHECK(tonic_of("church-phrygian") == "E4");
    CHECK(tonic_of("zarlino") == "C4");
    const auto rast = Catalogue::installed().find("rast");
    CHECK(tuned(*rast->scale(), {.tonic = "D4"}).tonic().note.text() == "D4");
    CHECK(rast->scale()->tonic == "G4");
}

TEST_CASE("Segâh lies a comma below B, so that its neighbours are written without signs") {
    const TunedScale segah = tuned(*Catalogue::installed().find("segah")->scale());
    std::string notes;
    for (const TunedDegree& degree : segah.degrees())
        notes += degree.note.text() + " ";
    CHECK(notes == "B4 C5 D5 E5 F#5 G5 A#5 ");
    // Eight commas of 53 above A4 = 440 Hz.
    const Interval above = segah.tonic().pitch - Pitch::concert_a();
    CHECK(abs(above - Interval::from_steps(8, 53)) < Interval::from_cents(Rational(1, 100)));
}

TEST_CASE("Every makam and maqam has its tonic's place") {
    for (const Entry& entry : Catalogue::installed().all()) {
        if (entry.kind() != EntryKind::scale
            || (entry.tradition() != "Turkish makam" && entry.tradition() != "Arab"))
            continue;
        CAPTURE(entry.id, entry.tonic_name());
        CHECK((entry.scale()->tonic || entry.tonic_name() == "Rāst"
               || entry.tonic_name() == "Kaba Çârgâh"));
    }
}
