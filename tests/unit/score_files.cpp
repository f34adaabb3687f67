// Files of scores: encodings, archives, hostile and damaged input.

#include <sectio/base/limits.hpp>
#include <sectio/base/markup.hpp>
#include <sectio/score/score.hpp>

#include <support/bytes.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>
#include <support/scores.hpp>

using namespace sectio;
using namespace sectio::score;
using support::error_of;
using support::name_of;

namespace {

Score read(const std::string& bytes) {
    return read_score(document_of(bytes, "tune.musicxml"));
}

std::string name_of_error(const std::string& bytes) {
    return name_of(error_of([&] { read(bytes); }));
}

const std::string tune = support::score({support::attributes() + support::note("D", 4)});

/// `tune` with another XML declaration.
std::string declared(const std::string& declaration) {
    return declaration + tune.substr(tune.find("?>") + 2);
}

} // namespace

TEST_CASE("A score is read in every encoding that MusicXML files have") {
    CHECK(read(tune).encoding == Encoding::utf8);
    CHECK(read("\xEF\xBB\xBF" + tune).encoding == Encoding::utf8);
    const std::string plain = declared("");
    for (const bool little : {false, true}) {
        const Encoding wide = little ? Encoding::utf16_little : Encoding::utf16_big;
        CHECK(read(support::utf16(plain, little, true)).encoding == wide);
        CHECK(read(support::utf16(plain, little, false)).encoding == wide);
        const std::string stated = declared("<?xml version=\"1.0\" encoding=\"UTF-16\"?>");
        CHECK(read(support::utf16(stated, little, true)).encoding == wide);
    }
    CHECK(read(declared("<?xml version='1.0' encoding='ISO-8859-1'?>")).encoding
          == Encoding::latin1);
    CHECK(read(declared("<?xml version='1.0' encoding='us-ascii'?>")).encoding == Encoding::ascii);
    CHECK(read(declared("<?xml version='1.0' encoding='Windows-1252'?>")).encoding
          == Encoding::windows1252);
    CHECK(name_of_error(declared("<?xml version='1.0' encoding='EBCDIC-CP-US'?>"))
          == "xml_encoding");
}

TEST_CASE("The places of a note are bytes of the file, whatever its encoding") {
    // 0x80 is € in windows-1252 (WHATWG Encoding Standard), é one byte in ISO-8859-1, two in UTF-8.
    std::string latin = declared("<?xml version='1.0' encoding='ISO-8859-1'?>");
    latin.replace(latin.find("Drone"), 5, "Dr\xE9ne");
    std::string windows = declared("<?xml version='1.0' encoding='windows-1252'?>");
    windows.replace(windows.find("Drone"), 5, "\x80");
    std::string utf8 = tune;
    utf8.replace(utf8.find("Drone"), 5, "Dréne");
    for (const std::string& bytes : {latin, windows, utf8, "\xEF\xBB\xBF" + utf8}) {
        const Note note = read(bytes).notes.at(0);
        CHECK(bytes.compare(note.head_at, 6, "<note>") == 0);
        CHECK(bytes.compare(note.lyric_at, 7, "</note>") == 0);
    }
    CHECK(read(latin).parts.at(0).name == "Dréne zither");
    CHECK(read(windows).parts.at(0).name == "€ zither");
    const std::string wide = support::utf16(declared(""), false, true);
    const Note note = read(wide).notes.at(0);
    CHECK(wide.compare(note.head_at, 12, support::utf16("<note>", false, false)) == 0);
    CHECK(wide.compare(note.lyric_at, 14, support::utf16("</note>", false, false)) == 0);
}

TEST_CASE("Text is encoded for the file it goes into") {
    CHECK(encoded("−14 ♭", Encoding::utf8) == "−14 ♭");
    CHECK(encoded("−4", Encoding::latin1) == "&#8722;4");
    CHECK(encoded("é", Encoding::ascii) == "&#233;");
    CHECK(encoded("−", Encoding::utf16_big) == "\x22\x12");
    CHECK(encoded("−", Encoding::utf16_little) == "\x12\x22");
    // U+1D12A, double sharp: surrogates D834 DD2A (Unicode 15, section 3.9).
    CHECK(encoded("\U0001D12A", Encoding::utf16_big) == "\xD8\x34\xDD\x2A");
    CHECK(escaped("a<b & \"c\">") == "a&lt;b &amp; &quot;c&quot;&gt;");
}

TEST_CASE("A document that is not well-formed is refused with line and column") {
    struct Row {
        const char *piece, *with;
    };
    // Each breaks a well-formedness constraint of XML 1.0.
    const Row row = GENERATE(values<Row>({{"</measure>", "</mesure>"},
                                          {"<step>D</step>", "<step>D"},
                                          {"number=\"1\"", "number=1"},
                                          {"number=\"1\"", "number=\"1\" number=\"2\""},
                                          {"number=\"1\"", "number=\"<\""},
                                          {"Drone", "Drone & zither"},
                                          {"Drone", "&unheard;"},
                                          {"Drone", "&#0;"},
                                          {"Drone", "\x01"},
                                          {"Drone", "\xFF\xFE"},
                                          {"Drone", "]]>"},
                                          {"Drone", "<!-- a -- b -->"}}));
    std::string bytes = tune;
    bytes.replace(bytes.find(row.piece), std::string(row.piece).size(), row.with);
    const auto error = error_of([&] { read(bytes); });
    CHECK(name_of(error) == "xml_not_well_formed");
    REQUIRE(error);
    CHECK(error->place().source == "tune.musicxml");
    CHECK(error->place().line > 0);
    CHECK(error->place().column > 0);
}

TEST_CASE("A score cut off anywhere is refused, not read in part") {
    const std::size_t last = tune.rfind("</score-partwise>") + 16;
    for (std::size_t length = 1; length <= last; length += 7)
        CHECK(name_of_error(tune.substr(0, length)) == "xml_not_well_formed");
    CHECK(name_of_error("") == "score_empty");
    CHECK(name_of_error(tune + tune) == "xml_not_well_formed");
}

TEST_CASE("Entities are expanded within limits and never fetched") {
    const auto with_type = [](const std::string& type, const std::string& name) {
        std::string bytes = tune;
        bytes.insert(bytes.find("<score-partwise"), "<!DOCTYPE score-partwise " + type + ">");
        return bytes.replace(bytes.find("Drone zither"), 12, name);
    };
    CHECK(read(with_type("[<!ENTITY z \"Zither &amp; drone\">]", "&z;")).parts.at(0).name
          == "Zither & drone");
    // The standard's DTD is an address: it is not fetched, and its own entities are passed over.
    const std::string standard = "PUBLIC \"-//Recordare//DTD MusicXML 4.0 Partwise//EN\" "
                                 "\"http://www.musicxml.org/dtds/partwise.dtd\"";
    CHECK(read(with_type(standard, "Zither")).notes.size() == 1);
    CHECK(read(with_type(standard, "Z&eacute;ther")).notes.size() == 1);

    CHECK(name_of_error(with_type("[<!ENTITY z SYSTEM \"/etc/hostname\">]", "&z;"))
          == "xml_external_entity");
    std::string laughs = "[<!ENTITY a0 \"ha ha ha ha ha ha ha ha ha ha\">";
    for (int i = 1; i <= 20; ++i) {
        const std::string before = "&a" + std::to_string(i - 1) + ";";
        laughs +=
            "<!ENTITY a" + std::to_string(i) + " \"" + before + before + before + before + "\">";
    }
    CHECK(name_of_error(with_type(laughs + "]", "&a20;")) == "xml_entity_bomb");
    std::string many = "[";
    for (std::size_t i = 0; i <= limits::xml_entities; ++i)
        many += "<!ENTITY b" + std::to_string(i) + " \"x\">";
    CHECK(name_of_error(with_type(many + "]", "x")) == "xml_too_many_entities");
    CHECK(name_of_error(with_type("[<!ENTITY l \"&l;\">]", "&l;"))
          == "xml_not_well_formed"); // recursion
    std::string deep;
    for (int i = 0; i < 300; ++i)
        deep.insert(0, "<a>").append("</a>");
    CHECK(name_of_error("<score-partwise>" + deep + "</score-partwise>") == "xml_too_deep");
}

TEST_CASE("A note that an entity brings is known to have no bytes of its own") {
    std::string bytes = support::score({support::attributes() + support::note("D", 4) + "&n;"});
    bytes.insert(bytes.find("<score-partwise"),
                 "<!DOCTYPE score-partwise [<!ENTITY n "
                 "'<note><pitch><step>E</step><octave>4</octave></pitch>"
                 "<duration>1</duration></note>'>]>");
    const Score score = read(bytes);
    REQUIRE(score.notes.size() == 2);
    CHECK_FALSE(score.notes[0].is(Note::in_entity));
    CHECK(score.notes[1].is(Note::in_entity));
}

TEST_CASE("What is no score says so") {
    CHECK(name_of_error("<html/>") == "not_a_score");
    CHECK(name_of_error("<opus/>") == "score_is_opus");
    CHECK(read("<score-partwise/>").notes.empty());
    CHECK(name_of_error("<score-partwise><part id=\"X\"/></score-partwise>")
          == "score_part_unknown");
    // Music outside a part or a measure is passed over, not read with the state of none.
    CHECK(read("<score-partwise><measure>" + support::note("D", 4) + "</measure></score-partwise>")
              .notes.empty());
    CHECK(
        read("<score-timewise><part id=\"X\">" + support::note("D", 4) + "</part></score-timewise>")
            .notes.empty());
    std::string bytes = tune;
    CHECK(name_of_error(bytes.replace(bytes.find(">D<") + 1, 1, "H")) == "score_step");
    bytes = tune;
    CHECK(name_of_error(bytes.replace(bytes.find(">4<") + 1, 1, "x")) == "score_number");
    bytes = tune;
    CHECK(name_of_error(bytes.replace(bytes.find("<octave>4</octave>"), 18, ""))
          == "score_pitch_incomplete");
}

TEST_CASE("A compressed score is found by its container") {
    const std::string type = "application/vnd.recordare.musicxml+xml";
    const std::string zip =
        support::stored_zip({{"mimetype", "application/vnd.recordare.musicxml"},
                             {"META-INF/container.xml", support::container("in/tune.xml", type)},
                             {"in/tune.xml", tune},
                             {"picture.png", "not a picture"}});
    const Document document = document_of(zip, "tune.mxl");
    CHECK(document.bytes == tune);
    REQUIRE(document.archive);
    CHECK(document.archive->entry == "in/tune.xml");
    CHECK(document.source == "tune.mxl#in/tune.xml");

    const Document again =
        document_of(repack(*document.archive, tune + "<!-- -->", "tune.mxl"), "tune.mxl");
    CHECK(again.bytes == tune + "<!-- -->");
    CHECK(again.archive->index == document.archive->index);
}

TEST_CASE("A damaged or misleading archive is refused") {
    const auto zip_with = [](const std::string& path) {
        return support::stored_zip(
            {{"META-INF/container.xml", support::container(path)}, {"tune.xml", tune}});
    };
    CHECK(document_of(zip_with("tune.xml"), "t").bytes == tune);
    CHECK(name_of_error(zip_with("../tune.xml")) == "archive_score_missing");
    CHECK(name_of_error(zip_with("/etc/hostname")) == "archive_score_missing");
    CHECK(name_of_error(support::stored_zip({{"tune.xml", tune}})) == "archive_without_score");
    const std::string pdf = support::container("tune.xml", "application/pdf");
    CHECK(name_of_error(support::stored_zip({{"META-INF/container.xml", pdf}, {"tune.xml", tune}}))
          == "archive_without_score");
    const std::string whole = zip_with("tune.xml");
    CHECK(name_of_error(whole.substr(0, whole.size() / 2)) == "archive_damaged");
    std::string wrong = whole; // one byte of the score changed: its CRC no longer holds
    wrong[wrong.find("Drone")] = 'd';
    CHECK(name_of_error(wrong) == "archive_damaged");
    // An entry that leaves the archive by its name is read in memory and never becomes a path.
    const std::string slip =
        support::stored_zip({{"META-INF/container.xml", support::container("../../slip.xml")},
                             {"../../slip.xml", tune}});
    CHECK(document_of(slip, "t").bytes == tune);
}

TEST_CASE("A file is read from disk, and its absence said") {
    const support::TempDir folder;
    support::write_file(folder / "tune.musicxml", tune);
    CHECK(read_document((folder / "tune.musicxml").string()).bytes == tune);
    CHECK(name_of(error_of([&] { read_document((folder / "absent.xml").string()); }))
          == "score_unreadable");
    CHECK(name_of(error_of([&] { read_document(folder.path().string()); })) == "score_unreadable");
}

TEST_CASE("An archive whose entries are too large only together is refused unread") {
    std::string zip = support::stored_zip({{"META-INF/container.xml", support::container("t.xml")},
                                           {"t.xml", tune},
                                           {"one.png", "1"},
                                           {"two.png", "2"}});
    CHECK(document_of(zip, "t").bytes == tune);
    // The size unpacked stands 8 bytes before a local header's name (APPNOTE 4.3.7), 22 before a
    // central header's (4.3.12); the method, deflated (8), 22 and 36 bytes before.
    const auto claim = [&](const std::string& name, std::uint32_t size) {
        const std::size_t local = zip.find(name), central = zip.rfind(name);
        for (const std::size_t at : {local - 8, central - 22})
            zip.replace(at, 4, support::little_endian(size, 4));
        for (const std::size_t at : {local - 22, central - 36})
            zip.replace(at, 2, support::little_endian(8, 2));
    };
    const std::size_t others = support::container("t.xml").size() + tune.size() + 1;
    claim("two.png", static_cast<std::uint32_t>(limits::archive_bytes - others));
    CHECK(document_of(zip, "t").bytes == tune);
    claim("one.png", 2);
    CHECK(name_of_error(zip) == "archive_too_large");
}
