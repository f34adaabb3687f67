// The printed pages as a PDF reader sees them: poppler's pdftotext, pdfinfo and pdffonts.

#include "support/paths.hpp"
#include "support/process.hpp"

#include <sectio/print/paper.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <regex>
#include <set>

using support::run;
using support::run_sectio;

namespace {

struct Box {
    double x1, y1, x2, y2;
    std::string word;
};

struct PageBoxes {
    double width, height;
    std::vector<Box> words;
};

/// Boxes reach from a font's ascender to its descender. The font of music signs declares three
/// times the height of its ♯, ♭ and noteheads, which stand in the middle: of theirs the middle
/// third counts.
Box inked(Box box) {
    static const std::set<std::string> signs{"♯", "♭", "♮", "𝅝", "𝄞", "𝄠", "𝄡", "𝄢", "𝄪", "𝄫"};
    if (signs.count(box.word) > 0) {
        const double third = (box.y2 - box.y1) / 3;
        box.y1 += third, box.y2 -= third;
    }
    return box;
}

std::vector<PageBoxes> read_boxes(const std::filesystem::path& pdf) {
    static const std::regex page(R"re(<page width="([\d.]+)" height="([\d.]+)">)re");
    static const std::regex word(
        R"re(<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)</word>)re");
    std::vector<PageBoxes> pages;
    const auto outcome = run({"pdftotext", "-bbox", pdf.string(), "-"});
    REQUIRE(outcome.exit_code == 0);
    for (const std::string& line : support::lines_of(outcome.out)) {
        std::smatch m;
        if (std::regex_search(line, m, page))
            pages.push_back({std::stod(m[1]), std::stod(m[2]), {}});
        else if (std::regex_search(line, m, word) && !pages.empty())
            pages.back().words.push_back(
                inked({std::stod(m[1]), std::stod(m[2]), std::stod(m[3]), std::stod(m[4]), m[5]}));
    }
    return pages;
}

/// Neighbours may share this much, in points: the rounding of the boxes; and lines this part of
/// their height, as boxes reach to where a font's highest sign would.
constexpr double shared = 0.1, shared_of_line = 0.05;

std::vector<std::string> overlaps(const PageBoxes& page) {
    std::vector<std::string> found;
    for (std::size_t i = 0; i < page.words.size(); ++i)
        for (std::size_t k = 0; k < i; ++k) {
            const Box &a = page.words[i], &b = page.words[k];
            if (std::min(a.x2, b.x2) - std::max(a.x1, b.x1) > shared
                && std::min(a.y2, b.y2) - std::max(a.y1, b.y1)
                       > shared_of_line * std::min(a.y2 - a.y1, b.y2 - b.y1))
                found.push_back(
                    fmt::format("`{}` and `{}` at {:.1f}, {:.1f}", a.word, b.word, a.x1, a.y1));
        }
    return found;
}

std::vector<std::string> outside(const PageBoxes& page) {
    const sectio::Paper margins = page.width > page.height ? sectio::card_paper : sectio::a4_paper;
    std::vector<std::string> found;
    for (const Box& box : page.words)
        if (box.x1 < margins.left - 1 || box.x2 > page.width - margins.right + 1
            || box.y1 < margins.top - 2 || box.y2 > page.height - margins.bottom + 2)
            found.push_back(fmt::format("`{}` at {:.1f}, {:.1f}", box.word, box.x1, box.y1));
    return found;
}

bool has_reader() {
    return support::has_program("pdftotext") && support::has_program("pdffonts");
}

std::string steps_of_53(int count) {
    std::string list;
    for (int i = 1; i < count; ++i)
        list += fmt::format("{}{}of53", i > 1 ? "," : "", i * 53 / count);
    return list;
}

struct Case {
    std::string name, scale, against;
};

/// Scales of 5, 8, 24 and 53 degrees, neighbours a comma apart, long names, other periods, twelve
/// divisions, measured figures.
std::vector<Case> cases(const support::TempDir& folder) {
    support::write_file(
        folder / "long.toml",
        R"(name = 'A name that does not end where a name should, but goes on to say who sang it, where, when and to whom, and then once more'
source = 'An equally long source, invented for this test, which runs over the end of its line and then further on, past any width of paper'
tonic = 'F#4'
remarks = ['A remark.']
degrees = [
  { interval = '19383245667680019896796723/19342813113834066795298816 + 9/8', name = 'Hüseynî Aşîrân’dan sonra gelen perde: Irak, Geveşt ve Acem', note = 'G#' },
  { interval = '5/4', name = 'مقام الراست والدوكاه', uncertainty = '0.4c' },
  { interval = '3/2', name = 'Donaudampfschifffahrtsgesellschaftskapitänskajütenschlüssel' },
  { interval = '5/3', name = 'a second name of sixty letters, as a collector might note it', uncertainty = '12c' }])");
    support::write_file(folder / "bells.toml", "name='Bells'\nperiod='none'\ndegrees=['241.3c',{"
                                               "interval='1950c',uncertainty='12c'},'4000c']");
    support::write_file(
        folder / "twelfth.toml",
        "name='Twelfth'\nperiod='3/1'\ndegrees=['1of13(3/1)','4of13(3/1)','7of13(3/1)']");
    const auto file = [&](const char* name) { return (folder / name).string(); };
    return {
        {"five", "9/8,5/4,3/2,5/3", "12,53"},
        {"eight", "9/8,5/4,81/64,4/3,3/2,5/3,15/8", "12,53"},
        {"twenty-four", "turkish-24", "12,53"},
        {"fifty-three", steps_of_53(53), "12,53"},
        {"crowded", "1c,2c,3c,4c,5c,6c,7c,1193c,1194c,1195c,1196c,1197c,1198c,1199c", "12,53"},
        {"many divisions", "9/8,5/4,4/3,3/2,5/3,15/8", "12,53,19,31,22,41,24,17,7,5,72,13(3/1)"},
        {"fine division", "3/2", "12,10000000,1000"},
        {"long period", "3/2", "12,7(19383245667680019896796723/1934281311383406679529881)"},
        {"long", file("long.toml"), "12,53,31"},
        {"bells", file("bells.toml"), "12,53"},
        {"systems", "rast",
         "12,turkish-24," + file("long.toml") + "," + file("bells.toml") + ",urmawi-17"},
        {"systems alone", file("long.toml"), "urmawi-17,turkish-24,jing-fang-60"},
        {"twelfth", file("twelfth.toml"), "12,53,13(3/1)"}};
}

} // namespace

TEST_CASE("No word of a sheet covers another or leaves the margins") {
    if (!has_reader())
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    const std::string pdf = (folder / "sheet.pdf").string();
    for (const Case& c : cases(folder))
        for (const char* paper : {"a4", "letter"})
            for (const char* tonic : {"C4", "F#4+20c"}) {
                const auto outcome = run_sectio({"sheet", c.scale, "--against", c.against,
                                                 "--tonic", tonic, "--paper", paper, "--out", pdf,
                                                 "--digits", c.name == "five" ? "6" : "1"});
                CAPTURE(c.name, paper, tonic, outcome.err);
                REQUIRE(outcome.exit_code == 0);
                const auto pages = read_boxes(pdf);
                REQUIRE_FALSE(pages.empty());
                for (const PageBoxes& page : pages) {
                    CHECK(page.words.size() > 10);
                    CHECK(overlaps(page) == std::vector<std::string>{});
                    CHECK(outside(page) == std::vector<std::string>{});
                }
            }
}

TEST_CASE("No word of any page covers another, on any paper and in large type") {
    if (!has_reader())
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    const std::string pdf = (folder / "sheet.pdf").string();
    for (const Case& c : cases(folder))
        for (const std::vector<std::string>& look : std::vector<std::vector<std::string>>{
                 {"--pages", "all"},
                 {"--pages", "beside"},
                 {"--paper", "card", "--large", "--pages", "all"}}) {
            std::vector<std::string> arguments{"sheet",   c.scale, "--against",
                                               c.against, "--out", pdf};
            arguments.insert(arguments.end(), look.begin(), look.end());
            const auto outcome = run_sectio(arguments);
            CAPTURE(c.name, look, outcome.err);
            REQUIRE(outcome.exit_code == 0);
            for (const PageBoxes& page : read_boxes(pdf)) {
                CHECK(overlaps(page) == std::vector<std::string>{});
                CHECK(outside(page) == std::vector<std::string>{});
            }
        }
}

TEST_CASE("The check of overlaps sees two texts on one place and one beside the paper") {
    if (!has_reader())
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    sectio::page::Typesetter type;
    sectio::page::TypesetDocument drawing{400, 300, "overlap", "2026-03-21", "en", {{}}, {}};
    const auto text = type.line("word", {10});
    drawing.pages[0].texts = {{100, 100, text}, {104, 103, text}, {390, 200, text}};
    support::write_file(folder / "bad.pdf", sectio::page::as_pdf(drawing));
    const auto pages = read_boxes(folder / "bad.pdf");
    REQUIRE(pages.size() == 1);
    CHECK(overlaps(pages[0]).size() == 1);
    CHECK(outside(pages[0]).size() == 1);
}

TEST_CASE("Eight degrees take one page, fifty-three several with the heads on each") {
    if (!has_reader())
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    const std::string pdf = (folder / "sheet.pdf").string();
    REQUIRE(run_sectio({"sheet", "9/8,5/4,81/64,4/3,3/2,5/3,15/8", "--out", pdf}).exit_code == 0);
    CHECK(read_boxes(pdf).size() == 1);
    REQUIRE(run_sectio(
                {"sheet", steps_of_53(53), "--title", "All", "--against", "12,53,72", "--out", pdf})
                .exit_code
            == 0);
    const auto pages = read_boxes(pdf);
    CHECK(pages.size() == 2);
    for (std::size_t i = 0; i < pages.size(); ++i) {
        const std::string number = std::to_string(i + 1);
        const std::string text =
            run({"pdftotext", "-layout", "-f", number, "-l", number, pdf, "-"}).out;
        CAPTURE(text);
        CHECK(text.find("Key, deviation") != std::string::npos);
        CHECK(text.find(fmt::format("page {} of 2", i + 1)) != std::string::npos);
    }
}

TEST_CASE("Text can be taken out of the PDF as it was put in") {
    if (!has_reader())
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    const std::string pdf = (folder / "sheet.pdf").string();
    REQUIRE(run_sectio({"sheet", "turkish-24", "--out", pdf}).exit_code == 0);
    const std::string text = run({"pdftotext", pdf, "-"}).out;
    for (const char* piece : {"Hüseynî Aşîran", "1048576/531441", "−23.5", "♯", "♭", "≈ 261.63 Hz"})
        CHECK(text.find(piece) != std::string::npos);
}

TEST_CASE("The PDF says what it is and carries its fonts") {
    if (!has_reader())
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    const std::string pdf = (folder / "sheet.pdf").string();
    REQUIRE(run_sectio({"sheet", "rast", "--paper", "letter", "--out", pdf}).exit_code == 0);
    const std::string info = run({"pdfinfo", pdf}).out;
    CHECK(std::regex_search(info, std::regex("Title: +\\S")));
    CHECK(std::regex_search(info, std::regex("Creator: +Sectio\n")));
    const std::string bytes = support::read_file(pdf);
    if (bytes.find("/ObjStm") == std::string::npos) { // cairo 1.18 compresses these
        CHECK(bytes.find("/Lang (en)") != std::string::npos);
        CHECK(bytes.find("/Outlines") != std::string::npos);
    }
    CHECK(std::regex_search(info, std::regex("Page size: +612 x 792 pts \\(letter\\)")));
    const auto fonts = support::lines_of(run({"pdffonts", pdf}).out);
    REQUIRE(fonts.size() > 2);
    for (std::size_t i = 2; i < fonts.size(); ++i) {
        CAPTURE(fonts[i]);
        CHECK(std::regex_search(fonts[i], std::regex(" yes yes yes ")));
    }
}
