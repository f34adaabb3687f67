// A scale on staves: which letters and signs it gets, and that page and score say the same.

#include "support/errors.hpp"
#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <sectio/print/lay_out.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/scale_file_text.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/sheet/staff.hpp>

#include <catch2/catch.hpp>

#include <regex>

using namespace sectio;
using score::Clef;

namespace {

TunedScale scale_on(const std::string& degrees, const std::string& tonic) {
    TuningOptions options;
    options.tonic = tonic;
    return tuned(parse_degrees(degrees, "test"), options);
}

/// "D4 E4 F4 +4 commas*": a star where a natural stands.
std::string written(const score::StaffScale& staff) {
    std::string text;
    for (const score::StaffNote& n : staff.notes)
        text += (text.empty() ? "" : ", ")
                + score::text_with_octave(n.pitch, score::NameStyle::ascii)
                + (n.sign == *score::sign_named("natural") ? "*" : "");
    return text;
}

std::string written(const std::string& degrees, const std::string& tonic, SignStyle style) {
    return written(score::staff_scale(scale_on(degrees, tonic), style));
}

page::Page page_of(const TunedScale& scale, const StaffOptions& options = {}) {
    page::Page page;
    page.title = "On staves";
    page.blocks = staff_blocks(scale, options);
    return page;
}

std::vector<std::string> all_matches(const std::string& text, const std::string& pattern) {
    const std::regex form(pattern);
    std::vector<std::string> found;
    for (std::sregex_iterator it(text.begin(), text.end(), form), end; it != end; ++it)
        found.push_back((*it)[1]);
    return found;
}

const std::string just = "9/8,5/4,4/3,3/2,5/3,15/8";
const std::string rast = "9of53,17of53,22of53,31of53,40of53,48of53";

} // namespace

TEST_CASE("Plain signs are the names of the nearest keys, and a line's next note gets a natural") {
    CHECK(written(just, "D4", SignStyle::plain) == "D4, E4, F#4, G4, A4, B4, C#5, D5");
    CHECK(written("1of12,2of12", "F4", SignStyle::plain) == "F4, F#4, G4, F5");
    CHECK(written("9/8,6/5,81/64", "C4", SignStyle::plain) == "C4, D4, Eb4, E4*, C5");
}

TEST_CASE("Scales of the catalogue are written as their theory prints them") {
    const auto of = [](const char* id) {
        const auto entry = Catalogue::installed().find(id);
        return written(score::staff_scale(tuned(*entry->scale(), {})));
    };
    // Wikipedia, Enharmonic genus (2014), Notation (seen): a half flat, then a double flat, so that
    // the letters go on: E F G A.
    CHECK(of("aristoxenus-enharmonic") == "E4, F4 -1/2, Gbb4, A4, B4, C5 -1/2, Dbb5, E5");
    CHECK(of("archytas-enharmonic") == "E4, F4, Gbb4, A4, B4, C5, Dbb5, E5");
    // V. N. Bhatkhande's and Venkatamakhin's lowest Ri and Ga are two letters (common practice).
    CHECK(of("kanakangi") == "C4, Db4, Ebb4, F4, G4, Ab4, Bbb4, C5");
    // Shur from G: the second degree is A koron (common practice, from memory).
    CHECK(of("dastgah-shur") == "G4, A4 -1/2, Bb4, C5, D5, Eb5, F5, G5");
    const auto shur =
        score::staff_scale(tuned(*Catalogue::installed().find("dastgah-shur")->scale(), {}));
    CHECK(score::all_signs()[shur.notes[1].sign].name == "koron");
    // No sign of Persian notation lies between koron and a double flat.
    CHECK(written("9of24", "D4", SignStyle::persian) == "D4, G4 -1/2, D5");
    CHECK(written("1of24,11of24", "Eb4", SignStyle::persian) == "Eb4, E4 -1/2, A4 -1/2, Eb5");
}

TEST_CASE("Segâh is written a comma below B, and an instrument that sounds lower changes no sign") {
    const auto of = [](const char* id, const TuningOptions& options) {
        const auto entry = Catalogue::installed().find(id);
        return written(score::staff_scale(tuned(*entry->scale(), options), SignStyle::comma));
    };
    // Turkish staff notation (H. S. Arel; common practice, from memory).
    CHECK(of("segah", {})
          == "B4 -1 comma, C5, D5, E5 -1 comma, F5 +4 commas, G5, A5 +4 commas, B5 -1 comma");
    CHECK(of("rast", {}) == "G4, A4, B4 -1 comma, C5, D5, E5, F5 +4 commas, G5");
    CHECK(of("rast", {.tonic = "G4-20c"}) == of("rast", {}));
    // The same on a tonic of its own, as a scale file keeps it.
    Scale own = *Catalogue::installed().find("rast")->scale();
    for (const char* tonic : {"F#4", "Eb4", "G4-20c", "B4-18.87c"}) {
        own.tonic = tonic;
        CHECK(written(score::staff_scale(tuned(own), SignStyle::comma))
              == of("rast", {.tonic = tonic}));
    }
}

TEST_CASE("Quarter tones keep the letter of the nearest key") {
    CHECK(written("3of24,7of24", "D4", SignStyle::quarter) == "D4, E4 -1/2, F4 +1/2, D5");
    const auto staff = score::staff_scale(scale_on("352c", "D4"), SignStyle::quarter);
    CHECK(staff.notes[1].deviation.cents(1) == "2.0");
}

TEST_CASE("Commas are counted from the tonic by the signs of theory, by numbers between them") {
    CHECK(written(rast, "G4", SignStyle::comma)
          == "G4, A4, B4 -1 comma, C5, D5, E5, F5 +4 commas, G5");
    // From D, whose letters have 9 commas up to E: the letter is that of the nearest key.
    CHECK(written("1of53,4of53,5of53,6of53,7of53,8of53", "D4", SignStyle::comma)
          == "D4, D4 +1 comma, E4 -5 commas, E4 -4 commas, E4 -3 commas, E4 -2 commas, "
             "E4 -1 comma, D5");
    CHECK(written("31of53", "F#4", SignStyle::comma) == "F4 +4 commas, C5 +4 commas, F5 +4 commas");
}

TEST_CASE("Every step of 53 has a sign that says it exactly, from every tonic") {
    std::string steps;
    for (int k = 1; k < 53; ++k)
        steps += (k > 1 ? "," : "") + std::to_string(k) + "of53";
    for (const char* tonic : {"C4", "C#4", "Eb4", "F#3", "Bb4", "B4"}) {
        const auto staff = score::staff_scale(scale_on(steps, tonic), SignStyle::comma);
        const Rational first = score::height(staff.notes[0].pitch);
        for (int k = 0; k <= 53; ++k) {
            const score::StaffNote& n = staff.notes[static_cast<std::size_t>(k)];
            const int from_c = 53 * n.pitch.octave + score::commas_of_letter(n.pitch.step)
                               + n.pitch.alteration.amount.numerator().convert_to<int>();
            const score::StaffNote& t = staff.notes[0];
            const int tonic_from_c = 53 * t.pitch.octave + score::commas_of_letter(t.pitch.step)
                                     + t.pitch.alteration.amount.numerator().convert_to<int>();
            CHECK(from_c - tonic_from_c == k);
            CHECK(n.deviation.is_unison());
        }
    }
}

TEST_CASE("The style that is usual for a scale holds all of its degrees exactly") {
    CHECK(score::usual_style(parse_degrees("2of12,4of12", "")) == SignStyle::plain);
    CHECK(score::usual_style(parse_degrees("3of24,4of12", "")) == SignStyle::quarter);
    CHECK(score::usual_style(parse_degrees(rast, "")) == SignStyle::comma);
    CHECK(score::usual_style(parse_degrees(just, "")) == SignStyle::plain);
    const auto of = [](const char* id) {
        return score::usual_style(*Catalogue::installed().find(id)->scale());
    };
    CHECK(of("turkish-24") == SignStyle::comma); // of ratios, beside steps of 53 by up to 0.8 cents
    CHECK(of("dastgah-shur") == SignStyle::persian);
    CHECK(of("maqam-rast") == SignStyle::quarter);
}

TEST_CASE("A scale that was saved is written with the same notes") {
    for (const Entry& entry : Catalogue::installed().all())
        if (const Scale* scale = entry.scale()) {
            INFO(entry.id);
            const Scale saved = read_scale_file(scale_file_text(*scale), "saved.toml");
            const auto staff = score::staff_scale(tuned(saved));
            CHECK(staff.style == score::usual_style(*scale));
            CHECK(written(staff) == written(score::staff_scale(tuned(*scale))));
        }
}

TEST_CASE("A scale file says what it is written with") {
    const auto file = [](const char* signs) {
        return read_scale_file(
            "name = 'x'\nsigns = '" + std::string(signs) + "'\ndegrees = ['3/2']", "f.toml");
    };
    for (const SignStyle style :
         {SignStyle::plain, SignStyle::quarter, SignStyle::comma, SignStyle::persian})
        CHECK(score::usual_style(file(std::string(text(style)).c_str())) == style);
    CHECK_FALSE(file("auto").signs.has_value());
    const auto refused = support::error_of([&] { file("koron"); });
    REQUIRE(refused);
    CHECK(refused->id() == Message(message::unknown_sign_style));
    CHECK(refused->place().line == 2);
}

TEST_CASE("The clef is the one with fewer ledger lines, or the one asked for") {
    const auto clef = [](const char* tonic) {
        return score::staff_scale(scale_on(just, tonic)).clef;
    };
    CHECK(clef("D4") == Clef::treble);
    CHECK(clef("D3") == Clef::bass);
    // The third line is B4, B3, C4 and D3.
    const score::WrittenPitch c4{'C', {}, 4};
    CHECK(score::height_on_staff(c4, Clef::treble) == -6);
    CHECK(score::height_on_staff(c4, Clef::octave_treble) == 1);
    CHECK(score::height_on_staff(c4, Clef::alto) == 0);
    CHECK(score::height_on_staff(c4, Clef::bass) == 6);
    CHECK(score::parse_clef("octave-treble") == Clef::octave_treble);
    CHECK_FALSE(score::parse_clef("auto").has_value());
    CHECK(support::error_of([] { score::parse_clef("soprano"); })->id()
          == Message(message::unknown_clef));
}

TEST_CASE("Page, table and MusicXML have the same notes, signs and figures") {
    for (const SignStyle style : {SignStyle::plain, SignStyle::quarter, SignStyle::comma}) {
        const TunedScale scale = scale_on("16/15,9/8,6/5,5/4,4/3,45/32,3/2,5/3,9/5,15/8", "E4");
        const StaffOptions options{Clef::treble, style};
        const page::Page page = page_of(scale, options);
        page::PrintOptions print;
        print.digits = 2;
        const auto rows = support::json_of(page::print_json(page, print)).at("staff");
        const std::string xml = staff_musicxml(scale, options, {2, 2, true});
        const auto steps = all_matches(xml, "<step>([A-G])</step>");
        const auto words = all_matches(xml, "<words>([^<]*)</words>");
        std::vector<std::string> signs, drawn;
        for (const auto& row : rows)
            if (row.at("accidental") != "")
                signs.push_back(row.at("accidental"));
        for (const page::Block& block : page.blocks)
            if (const auto* drawing = std::get_if<page::Drawing>(&block))
                for (const auto& label : drawing->labels)
                    if (label.bold && !label.value.empty())
                        drawn.push_back(for_people(label.value, {2, 2, true}));
        REQUIRE(steps.size() == rows.size());
        REQUIRE(words == drawn);
        CHECK(all_matches(xml, "<accidental[^>]*>([^<]*)</accidental>") == signs);
        for (std::size_t i = 0; i < rows.size(); ++i)
            CHECK(steps[i] == std::string(rows[i].at("note")).substr(0, 1));
    }
}

TEST_CASE("The MusicXML of a scale is valid by the standard's schema") {
    const auto shared = support::shared_dir();
    if (!shared || !support::has_program("xmllint"))
        SECTIO_SKIP("needs xmllint and the schema of MusicXML 4.0");
    const support::TempDir folder;
    const auto file = folder / "scale.musicxml";
    support::write_file(file, staff_musicxml(scale_on("1of53,2of53,4of53,5of53,13of53,351c", "Eb3"),
                                             {Clef::octave_treble, SignStyle::comma}, {1, 3, false},
                                             "2026-03-21"));
    const auto outcome = support::run({"xmllint", "--noout", "--nonet", "--schema",
                                       (*shared / "xsd" / "musicxml.xsd").string(), file.string()});
    INFO(outcome.err);
    CHECK(outcome.exit_code == 0);
}

TEST_CASE("A note beyond the octaves of MusicXML is refused by name") {
    CHECK(support::error_of([] { staff_musicxml(scale_on("3/2", "C10"), {}, {}); })->id()
          == Message(message::octave_out_of_score));
}

TEST_CASE("A note keeps its ledger lines two octaves from the middle, and not beyond") {
    const auto octave_signs = [](const std::string& tonic) {
        std::vector<std::string> signs;
        const TunedScale scale = scale_on("2of12", tonic);
        for (const page::Block& block : staff_blocks(scale, {Clef::treble, SignStyle::plain}))
            if (const auto* drawing = std::get_if<page::Drawing>(&block))
                for (const page::Drawing::Label& label : drawing->labels)
                    if (label.text.starts_with("8v") || label.text.starts_with("15m"))
                        signs.push_back(label.text);
        return signs;
    };
    using Signs = std::vector<std::string>;
    CHECK(octave_signs("B6") == Signs{"8va", "8va"});   // not B6, but C♯7 and B7
    CHECK(octave_signs("C8") == Signs{"15ma", "15ma"}); // and C9 in words
    CHECK(octave_signs("B2").empty());
    CHECK(octave_signs("A2") == Signs{"8vb"});
}
