// Annotated scores: where the texts go, what they say, and that nothing else changes.

#include <sectio/score/annotation.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/paths.hpp>
#include <support/scores.hpp>

using namespace sectio;
using namespace sectio::score;
using sectio::score::Placement;
using support::attributes;
using support::note;
using support::signed_note;

namespace {

/// D, E, F♯ … a just major scale on D: E +4, F♯ −14, A +2.
std::unique_ptr<NoteTuning> just() {
    Scale scale = parse_degrees("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", "");
    scale.name = "just";
    return tuning_by_scale(scale, "D4");
}

struct Result {
    Annotation annotation;
    std::string text;
};

/// Annotates, and checks on the way that taking the insertions out gives the input back.
Result annotated(const std::string& bytes, const AnnotationOptions& options = {}) {
    const Document document = document_of(bytes, "tune.musicxml");
    Result result{annotate(read_score(document), *just(), options), ""};
    result.text = annotated_file(document, result.annotation);
    if (!document.archive) {
        CHECK(result.annotation.insertions.applied(bytes) == result.text);
        CHECK(result.annotation.insertions.removed(result.text) == bytes);
    }
    return result;
}

bool has(const std::string& text, const std::string& piece) {
    return text.find(piece) != std::string::npos;
}

std::size_t count(const std::string& text, const std::string& piece) {
    std::size_t n = 0;
    for (std::size_t at = text.find(piece); at != std::string::npos; at = text.find(piece, at + 1))
        ++n;
    return n;
}

std::string chord_note(const std::string& step, int octave, const std::string& alter = "") {
    return note(step, octave, alter).insert(6, "<chord/>");
}

const std::string words_start = "<words font-size=\"9\" font-style=\"normal\">";

/// All without an identity of its own: texts between <words…> and </words>.
std::vector<std::string> words_of(const std::string& text) {
    std::vector<std::string> out;
    for (std::size_t at = text.find(words_start); at != std::string::npos;
         at = text.find(words_start, at + 1)) {
        const std::size_t begin = at + words_start.size();
        out.push_back(text.substr(begin, text.find('<', begin) - begin));
    }
    return out;
}

using Texts = std::vector<std::string>;

} // namespace

TEST_CASE("Each note has its deviation before it") {
    const Result result =
        annotated(support::score({attributes() + note("D", 4) + note("E", 4) + note("F", 4, "1")}));
    CHECK(words_of(result.text) == Texts{"0", "+4", "−14"});
    CHECK(has(result.text,
              "+4</words></direction-type></direction><!--/sectio--><note><pitch><step>E"));
    const Annotation& a = result.annotation;
    CHECK(a.notes == 3);
    CHECK(a.annotated == 3);
    CHECK(a.texts == 3);
    REQUIRE(a.table.size() == 3);
    CHECK(a.table[0].written == "D");
    CHECK(a.table[2].written == "F#");
    CHECK(a.table[2].deviation == support::interval("5/4 - 4of12"));
}

TEST_CASE("Digits after the point are as asked") {
    AnnotationOptions options;
    options.places = 2;
    CHECK(words_of(annotated(support::score({note("E", 4)}), options).text) == Texts{"+3.91"});
    options.places = 7;
    CHECK(support::name_of(
              support::error_of([&] { annotated(support::score({note("E", 4)}), options); }))
          == "digits_out_of_range");
}

TEST_CASE("A chord has one text, its highest note first, before all its notes") {
    const std::string bytes =
        support::score({note("D", 4)
                        + "<direction><direction-type><words>in between</words></direction-type>"
                          "</direction>"
                        + chord_note("A", 4) + chord_note("F", 4, "1") + note("E", 4)});
    const Result result = annotated(bytes);
    CHECK(words_of(result.text) == Texts{"+2\n−14\n0", "+4"});
    CHECK(result.annotation.annotated == 4);
    CHECK(result.annotation.texts == 2);
}

TEST_CASE("Directions name the voice and staff of their note; a lower voice has its texts below") {
    const std::string where = "<voice>1</voice><staff>2</staff>",
                      lower = "<voice>2</voice><staff>2</staff>";
    const std::string bytes =
        support::score({attributes() + note("E", 4, "", where)
                        + "<backup><duration>1</duration></backup>" + note("D", 4, "", lower)});
    const Result result = annotated(bytes);
    CHECK(has(result.text, "placement=\"above\"><direction-type>" + words_start
                               + "+4</words></direction-type>" + where));
    CHECK(has(result.text, "placement=\"below\"><direction-type>" + words_start
                               + "0</words></direction-type>" + lower));
    AnnotationOptions options;
    options.placement = Placement::below;
    CHECK(count(annotated(bytes, options).text, "placement=\"below\"") == 2);
}

TEST_CASE("Lyrics stand on lines of their own") {
    AnnotationOptions options;
    options.kind = TextKind::lyric;
    const std::string sung = "<lyric number=\"2\"><text>la</text></lyric>";
    const std::string bytes = support::score(
        {attributes() + note("E", 4, "", sung + "<play/>") + note("D", 4) + chord_note("A", 4)});
    const Result result = annotated(bytes, options);
    CHECK(has(result.text,
              sung
                  + "<!--sectio--><lyric number=\"3\" name=\"cents\"><syllabic>single</syllabic>"
                    "<text font-size=\"9\">+4</text></lyric><!--/sectio--><play/>"));
    CHECK(has(
        result.text,
        "<lyric number=\"3\" name=\"cents\"><syllabic>single</syllabic><text font-size=\"9\">+2"));
    CHECK(has(
        result.text,
        "<lyric number=\"4\" name=\"cents\"><syllabic>single</syllabic><text font-size=\"9\">0"));
    options.placement = Placement::above;
    CHECK(count(annotated(bytes, options).text, " name=\"cents\" placement=\"above\"") == 3);
}

TEST_CASE("Two voices of a staff have different lyric lines") {
    AnnotationOptions options;
    options.kind = TextKind::lyric;
    const std::string bytes = support::score({attributes() + note("E", 4, "", "<voice>1</voice>")
                                              + "<backup><duration>1</duration></backup>"
                                              + note("D", 4, "", "<voice>2</voice>")});
    const Result result = annotated(bytes, options);
    CHECK(has(result.text, "number=\"1\" name=\"cents\""));
    CHECK(has(result.text, "number=\"2\" name=\"cents\""));
}

TEST_CASE("With changes a number holds in its voice until another comes") {
    AnnotationOptions options;
    options.changes = true;
    const std::string second = "<voice>2</voice>";
    const Result result =
        annotated(support::score({note("E", 4) + note("E", 5) + note("D", 4, "", second)
                                  + note("E", 4) + note("D", 4)}),
                  options);
    CHECK(words_of(result.text) == Texts{"+4", "0", "0"});
    CHECK(result.annotation.annotated == 5);
    CHECK(result.annotation.texts == 3);
}

TEST_CASE("Notes that the tuning lacks are marked and listed") {
    const Result result = annotated(
        support::score({note("D", 4) + note("F", 4), note("F", 5) + signed_note("G", 4, "sharp")}));
    CHECK(words_of(result.text) == Texts{"0", "?", "?", "?"});
    const Annotation& a = result.annotation;
    REQUIRE(a.unmatched.size() == 3);
    CHECK(a.names.parts[a.unmatched[1].part] == "Drone zither");
    CHECK(a.names.measures[a.unmatched[1].measure] == "2");
    CHECK(a.names.pitches[a.unmatched[1].pitch] == "F5");
    CHECK(a.names.reasons[a.unmatched[1].reason] == "the scale has no degree within 50 cents");
    CHECK(a.notes == a.annotated + a.skipped + a.unmatched.size());
}

TEST_CASE("Notes without a pitch, hidden ones and those of entities are counted and left alone") {
    const std::string unpitched = "<note><unpitched/><duration>1</duration></note>";
    const std::string rest = "<note><rest/><duration>1</duration></note>";
    std::string hidden = note("E", 4);
    hidden.insert(5, " print-object=\"no\"");
    std::string bytes = support::score({unpitched + rest + hidden + "&n;" + note("D", 4)});
    bytes.insert(bytes.find("<score-partwise"),
                 "<!DOCTYPE score-partwise [<!ENTITY n '" + note("E", 4) + "'>]>");
    const Annotation a = annotated(bytes).annotation;
    CHECK(a.skipped == 3);
    CHECK(a.rests == 1);
    CHECK(a.skipped_because
          == std::map<std::string, std::size_t>{
              {"not printed", 1}, {"stands in an entity", 1}, {"without pitch", 1}});
    CHECK(a.annotated == 1);
}

TEST_CASE("A number that counts from another key than the sign shows names the sign") {
    AnnotationOptions options;
    options.reading = {Source::sign, SignTable::turkish, Signature::written};
    const Document document = document_of(
        support::score({signed_note("B", 4, "quarter-flat") + signed_note("F", 5, "sharp")
                        + signed_note("E", 4, "slash-flat")}),
        "t");
    const auto tuning = tuning_by_division(EqualDivision(53), "C4");
    const Annotation a = annotate(read_score(document), *tuning, options);
    // In commas of 1200/53: B 49 - 1 = 1086.79 (B is 1100), F 22 + 4 = 588.68 (F♯ is 600),
    // E 18 - 4 = 316.98 (E♭ is 300).
    CHECK(words_of(annotated_file(document, a)) == Texts{"♮−13", "−11", "♭+17"});
}

TEST_CASE("Transposing parts meet the scale as they sound, or as they are written") {
    const std::string clarinet =
        attributes("<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>");
    const std::string bytes =
        support::score({clarinet + note("E", 4) + note("B", 4)}); // sound D4, A4
    CHECK(words_of(annotated(bytes).text) == Texts{"0", "+2"});
    AnnotationOptions options;
    options.pitch = PitchKind::written;
    CHECK(words_of(annotated(bytes, options).text) == Texts{"+4", "−16"});
}

TEST_CASE("Transposition belongs to its staff") {
    const std::string lower =
        attributes("<staves>2</staves><transpose number=\"2\"><diatonic>-1</diatonic>"
                   "<chromatic>-2</chromatic></transpose>");
    const std::string bytes = support::score(
        {lower + note("E", 4, "", "<staff>1</staff>") + note("E", 4, "", "<staff>2</staff>")});
    CHECK(words_of(annotated(bytes).text) == Texts{"+4", "0"});
}

TEST_CASE("The legend is a credit before the part list, or words where credits are unknown") {
    const std::string title =
        "<credit page=\"1\"><credit-words>An invented tune</credit-words></credit>";
    std::string bytes = support::score({attributes() + note("D", 4)});
    bytes.insert(bytes.find("<part-list>"), title);
    const Result with = annotated(bytes);
    CHECK(has(with.text, title + "<!--sectio--><credit page=\"1\"><credit-words"));
    CHECK(has(with.text, ">just on D4.</credit-words></credit><credit"));
    CHECK(has(with.text, "</credit><!--/sectio--><part-list>"));

    const Result old = annotated(support::score({attributes() + note("D", 4)}, "1.0"));
    CHECK_FALSE(has(old.text, "<credit"));
    CHECK(has(old.text, "just on D4"));
    CHECK(old.text.find("just on D4") < old.text.find("<attributes>"));
}

TEST_CASE("A score without credits gets its head as credits, since engravers drop it otherwise") {
    std::string bytes = support::score({attributes() + note("D", 4)});
    bytes.insert(bytes.find("<part-list>"),
                 "<work><work-title>Tunes &amp; drones</work-title></work><movement-title>The\n "
                 "well</movement-title>"
                 "<identification><creator type=\"composer\">nobody</creator></identification>");
    const std::string text = annotated(bytes).text;
    CHECK(has(text, "<credit-type>title</credit-type>"));
    CHECK(has(text, ">Tunes &amp; drones</credit-words>"));
    CHECK(has(text, ">The well</credit-words>"));
    CHECK(has(text, "justify=\"right\" valign=\"bottom\">nobody</credit-words>"));
    CHECK_FALSE(has(text, "lyricist"));
}

TEST_CASE("The legend stands above what the page has at its foot") {
    std::string bytes = support::score({note("D", 4)});
    bytes.insert(
        bytes.find("<part-list>"),
        "<defaults><page-layout><page-height>1500</page-height><page-width>1100</"
        "page-width><page-margins>"
        "<left-margin>80</left-margin><right-margin>80</right-margin><top-margin>80</top-margin>"
        "<bottom-margin>90</bottom-margin></page-margins></page-layout></defaults>"
        "<credit><credit-words default-x=\"500\" default-y=\"95\">an invented "
        "tune</credit-words></credit>");
    CHECK(has(annotated(bytes).text, "default-x=\"80\" default-y=\"164\""));
}

TEST_CASE("Latin-1 gets references, UTF-16 its own units, an archive keeps its other entries") {
    std::string latin = support::score({note("F", 4, "1")});
    latin.replace(latin.find("UTF-8"), 5, "ISO-8859-1");
    CHECK(has(annotated(latin).text, "&#8722;14</words>"));

    const std::string plain = support::score({note("F", 4, "1")});
    const std::string wide = support::utf16(plain.substr(plain.find("?>") + 2), false, true);
    CHECK(has(annotated(wide).text, support::utf16("−14</words>", false, false)));

    const std::string zip =
        support::stored_zip({{"META-INF/container.xml", support::container("t.xml")},
                             {"t.xml", plain},
                             {"other.bin", "kept as it is"}});
    const Result packed = annotated(zip);
    CHECK(is_archive(packed.text));
    CHECK(document_of(packed.text, "t").bytes == plain);
    CHECK(has(packed.text, "kept as it is"));
}

TEST_CASE("Partwise and timewise scores have the same notes") {
    const std::string head =
        "<part-list><score-part id=\"a\"><part-name>A</part-name></score-part>"
        "<score-part id=\"b\"><part-name>B</part-name></score-part></part-list>";
    const auto part = [](const std::string& id, const std::string& music) {
        return "<part id=\"" + id + "\">" + music + "</part>";
    };
    const auto measure = [](const std::string& music) {
        return "<measure number=\"1\">" + music + "</measure>";
    };
    const std::string a = attributes() + note("D", 4),
                      b = attributes() + note("E", 4) + chord_note("A", 4);
    const Result by_parts =
        annotated("<score-partwise>" + head + part("a", measure(a) + measure(note("E", 4)))
                  + part("b", measure(b) + measure(note("D", 5))) + "</score-partwise>");
    const Result by_time = annotated(
        "<score-timewise>" + head + measure(part("a", a) + part("b", b))
        + measure(part("a", note("E", 4)) + part("b", note("D", 5))) + "</score-timewise>");
    CHECK(words_of(by_parts.text) == Texts{"0", "+4", "+2\n+4", "0"});
    CHECK(words_of(by_time.text) == Texts{"0", "+2\n+4", "+4", "0"});
    CHECK(by_parts.annotation.table.size() == by_time.annotation.table.size());
}

TEST_CASE("A chord note without its chord is taken as a note of its own") {
    const std::string head = "<part-list><score-part id=\"a\"/><score-part id=\"b\"/></part-list>";
    const std::string bytes = "<score-timewise>" + head + "<measure><part id=\"a\">" + note("D", 4)
                              + "</part><part id=\"b\">" + note("E", 4)
                              + "</part></measure><measure><part id=\"a\">" + chord_note("A", 4)
                              + "</part></measure></score-timewise>";
    CHECK(words_of(annotated(bytes).text) == Texts{"0", "+4", "+2"});
}

TEST_CASE("An annotated score is known again, and annotating it replaces the earlier texts") {
    AnnotationOptions lyrics;
    lyrics.kind = TextKind::lyric;
    const std::string plain = support::score({attributes() + note("D", 4) + note("E", 4)});
    const std::string latin = std::string(plain).replace(plain.find("UTF-8"), 5, "ISO-8859-1");
    const std::string body = plain.substr(plain.find("?>") + 2);
    for (const std::string& bytes :
         {plain, latin, support::utf16(body, true, true), support::utf16(body, false, true)}) {
        const Result once = annotated(bytes);
        const Document again = document_of(once.text, "t");
        CHECK(again.earlier_texts == 3); // two notes and the legend
        CHECK(again.bytes == bytes);
        CHECK(annotated(again.bytes, lyrics).text == annotated(bytes, lyrics).text);
    }
    CHECK(document_of(plain, "t").earlier_texts == 0);
    const std::string cut = annotated(plain).text;
    CHECK(support::name_of(support::error_of(
              [&] { document_of(cut.substr(0, cut.rfind("<!--/sectio-->")), "t"); }))
          == "insertion_open");
}

TEST_CASE("What a score says in a CDATA section is no earlier text of ours") {
    const std::string words = "<![CDATA[a <!--sectio-->b<!--/sectio--> c]]>";
    std::string body = support::score({attributes() + note("D", 4) + note("E", 4)});
    body = body.substr(body.find("?>") + 2);
    const std::size_t name = body.find("<part-name>") + std::string("<part-name>").size();
    body.insert(name, words);
    body.insert(body.find("</score-partwise>"), "<!-- <![CDATA[ -->");
    for (const std::string& bytes : {body, support::utf16(body, true, true)}) {
        CHECK(document_of(bytes, "t").earlier_texts == 0);
        const Document again = document_of(annotated(bytes).text, "t");
        CHECK(again.earlier_texts == 3);
        CHECK(again.bytes == bytes);
    }
}

TEST_CASE("Texts and legend have the size that is asked for") {
    AnnotationOptions options;
    options.points = 14;
    const std::string text = annotated(support::score({note("E", 4)}), options).text;
    CHECK(has(text, "<words font-size=\"14\" font-style=\"normal\">+4"));
    CHECK(has(text, "font-size=\"14\" justify=\"left\""));
    for (const int points : {3, 41}) {
        options.points = points;
        CHECK(support::name_of(
                  support::error_of([&] { annotated(support::score({note("E", 4)}), options); }))
              == "score_text_size");
    }
}

TEST_CASE("A file is written whole") {
    const support::TempDir folder;
    const std::string input = (folder / "tune.musicxml").string(),
                      output = (folder / "out.musicxml").string();
    support::write_file(input, support::score({note("E", 4)}));
    const Document document = read_document(input);
    const Annotation a = annotate(read_score(document), *just(), {});
    write_annotated(document, a, output);
    CHECK(support::read_file(output) == annotated_file(document, a));
    CHECK(support::read_file(input) == document.bytes);
}

TEST_CASE("The ending of an annotated file says whether it is compressed, whatever came") {
    const support::TempDir folder;
    const std::string input = (folder / "tune.musicxml").string(),
                      packed = (folder / "packed.MXL").string(),
                      again = (folder / "again.mxl").string(),
                      unpacked = (folder / "unpacked.xml").string();
    support::write_file(input, support::score({note("E", 4)}));
    const Document plain = read_document(input);
    const Annotation a = annotate(read_score(plain), *just(), {});
    write_annotated(plain, a, packed);
    REQUIRE(is_archive(support::read_file(packed)));
    const Document compressed = read_document(packed);
    CHECK(compressed.bytes == plain.bytes);
    CHECK(compressed.earlier_texts > 0);

    write_annotated(compressed, a, again);
    CHECK(is_archive(support::read_file(again)));
    write_annotated(compressed, a, unpacked);
    CHECK(support::read_file(unpacked) == annotated_file(plain, a));
    CHECK(pack("<a/>") == pack("<a/>"));
}
