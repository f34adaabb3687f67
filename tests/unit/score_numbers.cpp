// The numbers of a score at the ends of what each may be, and just beyond.

#include <sectio/base/error.hpp>
#include <sectio/score/document.hpp>
#include <sectio/score/score.hpp>

#include <support/errors.hpp>
#include <support/scores.hpp>

using namespace sectio;

namespace {

score::Score read(const std::string& text) {
    return score::read_score(score::document_of(text, "numbers.musicxml"));
}

/// A score of one note with one element, its number `value`.
std::string with(const std::string& element, const std::string& value) {
    const std::string set = "<" + element + ">" + value + "</" + element + ">";
    const std::string in_key = "<key><key-step>B</key-step>" + set + "</key>";
    if (element == "divisions")
        return support::score({"<attributes>" + set + "</attributes>" + support::note("D", 4)});
    if (element == "fifths")
        return support::score(
            {support::attributes("<key>" + set + "</key>") + support::note("D", 4)});
    if (element == "key-alter")
        return support::score({support::attributes(in_key) + support::note("D", 4)});
    if (element == "diatonic" || element == "chromatic" || element == "octave-change")
        return support::score(
            {support::attributes("<transpose>" + set + "</transpose>") + support::note("D", 4)});
    if (element == "backup" || element == "forward")
        return support::score({support::attributes() + support::note("D", 4) + "<" + element
                               + "><duration>" + value + "</duration></" + element + ">"});
    std::string inside = "<pitch><step>D</step>";
    inside += element == "alter" ? set : "";
    inside += element == "octave" ? set : "<octave>4</octave>";
    inside += "</pitch>";
    inside += element == "duration" ? set : "<duration>1</duration>";
    inside += element == "staff" ? set : "";
    return support::score({support::attributes() + "<note>" + inside + "</note>"});
}

std::string told(const std::string& element, const std::string& value) {
    return support::name_of(support::error_of([&] { read(with(element, value)); }));
}

} // namespace

TEST_CASE("Each number of a score is taken to its end and refused beyond") {
    struct Row {
        const char* element;
        std::vector<const char*> taken, refused;
    };
    const Row rows[]{
        {"divisions", {"1", "480", "0.5"}, {"0", "-1", "", "x"}},
        {"duration", {"0", "0.5", "7"}, {"-1", "-0.001", "one"}},
        {"backup", {"0", "1"}, {"-1", "x"}},
        {"forward", {"0", "1"}, {"-1", "x"}},
        {"fifths", {"-1000", "1000", "0"}, {"-1001", "1001", "0.5", "x"}},
        {"key-alter", {"-53", "53", "0.5"}, {"-53.1", "53.1", "x"}},
        {"alter", {"-53", "53", "-0.5"}, {"-54", "53.000001", "half"}},
        {"octave", {"-20", "20", "4"}, {"-21", "21", "4.5"}},
        {"staff", {"0", "1", "10000", "-3"}, {"10001", "1.5", "x"}},
        {"diatonic", {"-140", "140"}, {"-141", "141", "0.5"}},
        {"chromatic", {"-240", "240", "0.5"}, {"-241", "240.5", "x"}},
        {"octave-change", {"-20", "20"}, {"-21", "21", "0.5"}},
    };
    for (const Row& row : rows) {
        for (const char* value : row.taken) {
            CAPTURE(row.element, value);
            CHECK(told(row.element, value) == "no error");
        }
        for (const char* value : row.refused) {
            CAPTURE(row.element, value);
            CHECK(told(row.element, value) == "score_number");
        }
    }
}

TEST_CASE("Divisions say how long a note is, and counting numbers that cannot be are left out") {
    const std::string half = "<attributes><divisions>0.5</divisions></attributes>";
    const std::string fine = "<attributes><divisions>3</divisions></attributes>";
    const score::Score score =
        read(support::score({half + support::note("D", 4) + fine + support::note("E", 4)}));
    REQUIRE(score.notes.size() == 2);
    CHECK(score.notes[0].duration == score::QuarterNotes(2, 1));
    CHECK(score.notes[1].duration == score::QuarterNotes(1, 3));
    const auto lines = [](const std::string& number) {
        return read(support::score({support::attributes()
                                    + support::note("D", 4, "",
                                                    "<lyric number=\"" + number
                                                        + "\"><text>la</text></lyric>")}))
            .lyric_lines;
    };
    CHECK(lines("3") == 3);
    CHECK(lines("999999999") == 999999999);
    CHECK(lines("1000000000") == 1); // more than nine digits are no number here
    CHECK(lines("0") == 1);
    CHECK(lines("-2") == 1);
    CHECK(lines("1.5") == 1);
    CHECK(lines("verse") == 1);
}
