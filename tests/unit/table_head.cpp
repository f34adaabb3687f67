// Headings of tables: what is understood, what is told, and rows that are longer.

#include <sectio/base/csv.hpp>
#include <sectio/instrument/fret_text.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/table_head.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using support::pitch;

namespace {

const Pitch& a4 = Pitch::concert_a();

std::vector<measure::Reading> readings(const std::string& text) {
    return measure::read_reading_table(text, "tuner.csv", a4);
}

Pitch first_pitch(const PitchList& list) {
    return *list.zero + list.pitches.front().above.figure;
}

std::string failure(const std::function<void()>& read) {
    return support::name_of(support::error_of(read));
}

} // namespace

TEST_CASE("A tuner's deviation is known by all its headings, in every command") {
    for (const char* heading :
         {"Dev.", "dev", "reading", "offset (cents)", "Abweichung", "Deviation [cents]",
          "Offset ct", "difference", "cents", "Error_cents"}) {
        CAPTURE(heading);
        const std::string table = std::string("Note\t") + heading + "\nE4\t-29\n";
        CHECK(readings(table)[0].pitch == pitch("E4-29c"));
        CHECK(first_pitch(read_pitch_table(table, "t.csv")) == pitch("E4-29c"));
    }
}

TEST_CASE("Columns that are not read are named") {
    const auto said = [](const std::string& table) {
        std::vector<std::string> remarks;
        measure::read_reading_table(table, "t.csv", a4, &remarks);
        return remarks;
    };
    using Texts = std::vector<std::string>;
    CHECK(said("note,gauge,off by\nE4,9,2\n") == Texts{"Not read of the table: gauge, off by."});
    CHECK(said("note,deviation,label\nE4,-29,x\n").empty());
    CHECK(said("E4,-29\n").empty());
    CHECK(read_pitch_table("cents,comment\n203,x\n386,y\n", "t.csv").remarks
          == Texts{"Not read of the table: comment."});
    CHECK(read_pitch_table("hz,file,note_name,deviation_cents\n440,a,A4,0\n", "t.csv")
              .remarks.empty());
    CHECK(read_fret_table("nut_mm,who\n57,x\n", "f.csv").remarks
          == Texts{"Not read of the table: who."});
    CHECK(read_fret_table("nut_mm,name\n57,x\n", "f.csv").remarks.empty());
}

TEST_CASE("In a column with a unit a cell is a number of it or has a unit of its own") {
    const auto refused = [](const std::string& table) {
        return failure([&] { read_pitch_table(table, "t.csv"); });
    };
    for (const char* cell : {"22-4", "22\u22124", "440/3", "2^3", "440-29c", "3/2"})
        CHECK(refused("hz,label\n230,a\n" + std::string(cell) + ",b\n") == "table_no_such_pitch");
    for (const char* cell : {"386-4", "386/1"})
        for (const char* head : {"cents", "commas"})
            CHECK(refused(std::string(head) + "\n230\n" + cell + "\n") == "table_no_such_pitch");
    CHECK(read_pitch_table("hz,label\n220,a\nA4-1200c,b\n", "t.csv").pitches[1].above.figure
          == Interval());
    CHECK(read_pitch_table("cents\n0\n386.3c\n5of53\n", "t.csv").pitches.size() == 3);
    CHECK(read_pitch_table("interval\n1/1\n440/3\n", "t.csv").pitches.size() == 2);
}

TEST_CASE("A row with more cells than headings is refused, unless they are empty") {
    CHECK(failure([] { readings("hz\n349,9\n"); }) == "table_row_long");
    CHECK(failure([] { readings("note,deviation\nE4,-29,5\n"); }) == "table_row_long");
    CHECK(failure([] { readings("E4,x,y\n"); }) == "table_row_long");
    CHECK(failure([] { read_fret_table("nut_mm,name\n112,5,b\n", "f.csv"); }) == "table_row_long");
    CHECK(failure([] { read_fret_table("112 mm,5\n", "f.csv"); }) == "table_row_long");
    CHECK(failure([] { read_pitch_table("cents,label\n203,9,b\n", "t.csv"); }) == "table_row_long");
    CHECK(readings("note,deviation\nE4,-29,,\n")[0].pitch == pitch("E4-29c"));
    CHECK(read_pitch_table("cents,label\n203,b,\n386,c,\n", "t.csv").pitches.size() == 2);
}

TEST_CASE("Where the comma separates no cells it is the decimal sign") {
    const auto semicolons = readings("note;deviation;uncertainty\nE4;-29,5;0,5\n");
    CHECK(semicolons[0].pitch == pitch("E4-29.5c"));
    CHECK(semicolons[0].half_width == parse_interval("0.5c"));
    CHECK(readings("hz;label\n349,90;a\n")[0].pitch == pitch("349.9Hz"));
    CHECK(readings("hz;label\n349,90;a\n")[0].half_width == parse_interval("69981/69980"));
    CHECK(read_fret_table("nut_mm;name\n112,5;b\n", "f.csv").readings[0].from_nut.figure.text()
          == "112.5 mm");
    CHECK(readings("E4;-29,5\n")[0].pitch == pitch("E4-29.5c"));
}

TEST_CASE("A table says what its notes are named by") {
    const PitchList list = read_pitch_table("note,deviation,reference_hz\nA4,0,415\n", "t.csv");
    CHECK(first_pitch(list) == pitch("415Hz"));
    CHECK(*list.reference == "A4 = 415 Hz");
    const PitchList off = read_pitch_table("note,deviation\nE4,-29.5\nE4,0\n", "t.csv");
    CHECK(first_pitch(off) == pitch("E4-29.5c"));
    CHECK(off.pitches[0].written == "E4-29.5c");
    CHECK(off.pitches[1].written == "E4");
    for (const char* note : {"E4-14c", "440Hz"}) // whose cents would those of the column be
        CHECK(
            failure([&] { read_pitch_table("note,deviation\n" + std::string(note) + ",3\n", ""); })
            == "table_note_no_key");
    CHECK(failure([] { read_pitch_table("hz,reference_hz\n440,x\n", "t.csv"); }) != "no error");
}

TEST_CASE("A quotation mark opens a cell at its beginning alone (RFC 4180), and is closed") {
    const auto cells = [](const std::string& text) {
        std::vector<std::string> all;
        for (const Row& row : read_rows(text, "t.csv"))
            for (const CsvCell& cell : row)
                all.push_back(cell.text);
        return all;
    };
    using Cells = std::vector<std::string>;
    CHECK(cells("12 3/8\",b\n13\",c\n") == Cells{"12 3/8\"", "b", "13\"", "c"});
    CHECK(cells("\"a,\nb\",c\n \"d\" ,\"\"\"e\"\"\"\n\"\",f")
          == Cells{"a,\nb", "c", "d", "\"e\"", "", "f"});
    for (const char* text : {"a,\"b\nc,d\n", "\"", "a,\"\"\"\n"})
        CHECK(failure([&] { cells(text); }) == "quote_not_closed");
}

TEST_CASE("A decimal comma is read beside a unit and a half width, where it separates no cells") {
    const auto frets = read_fret_table("nut_mm;name\n112,5 ± 0,5;a\n\"153,5 mm\";b\n", "f.csv");
    CHECK(frets.readings[0].from_nut.figure.text() == "112.5 mm");
    CHECK(frets.readings[0].from_nut.half_width->text() == "0.5 mm");
    CHECK(frets.readings[1].from_nut.figure.text() == "153.5 mm");
    CHECK(first_pitch(read_pitch_table("hz;weight\n329,6 Hz ± 0,3 Hz;1\n", "t.csv"))
          == pitch("329.6Hz"));
    const PitchList listed = read_pitch_table("hz;weight\n329,6 ± 0,3;1\n\"330,1\";1\n", "t.csv");
    CHECK(first_pitch(listed) == pitch("329.6Hz"));
    CHECK(listed.pitches[0].written == "329.6Hz");
    CHECK(listed.pitches[0].above.half_width.has_value());
    CHECK(read_pitch_table("cents\n203 ± 2\n", "t.csv").pitches[0].above.half_width
          == Interval::from_cents(2));
}
