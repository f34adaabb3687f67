// Large print: sizes of type as poppler's pdftohtml reads them from the file.

#include "support/paths.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <map>
#include <regex>

using support::run;
using support::run_sectio;

namespace {

/// pdftohtml gives places and sizes in whole pixels; three to a point.
constexpr double zoom = 3;
/// The line at the head of a further leaf and the one at its foot, in points from the paper's edge.
constexpr double head = 64, foot = 62;

struct Word {
    double size;
    std::string text;
};

/// The smallest text of each page between the lines at its head and foot.
std::vector<Word> smallest_texts(const std::filesystem::path& pdf) {
    const auto outcome =
        run({"pdftohtml", "-xml", "-hidden", "-i", "-stdout", "-zoom", "3", pdf.string()});
    REQUIRE(outcome.exit_code == 0);
    static const std::regex page("<page number=\"(\\d+)\".*height=\"(\\d+)\""),
        font("<fontspec id=\"(\\d+)\" size=\"(\\d+)\""),
        text("<text top=\"(-?\\d+)\".*font=\"(\\d+)\">(.*)</text>");
    std::map<std::string, double> sizes;
    std::vector<Word> smallest;
    double height = 0;
    for (const std::string& line : support::lines_of(outcome.out)) {
        std::smatch m;
        if (std::regex_search(line, m, page)) {
            height = std::stod(m[2]) / zoom;
            smallest.push_back({1e9, ""});
        } else if (std::regex_search(line, m, font)) {
            sizes[m[1]] = std::stod(m[2]) / zoom;
        } else if (std::regex_search(line, m, text)) {
            const double top = std::stod(m[1]) / zoom, size = sizes.at(m[2]);
            if ((smallest.size() == 1 || top > head) && top < height - foot
                && size < smallest.back().size)
                smallest.back() = {size, m[3]};
        }
    }
    return smallest;
}

std::vector<std::string> scales(const support::TempDir& folder) {
    support::write_file(folder / "long.toml", R"(name = 'A long name'
tonic = 'D4'
degrees = [
  { interval = '9/8', name = 'a second that has a name of several words and then some' },
  { interval = '5/4', name = 'Donaudampfschifffahrtsgesellschaftskapitän', uncertainty = '2c' },
  { interval = '3/2', name = 'نوا' }, { interval = '2of53 + 3/2', name = 'कोमल धैवत' }])");
    return {(folder / "long.toml").string(), "rast",
            (support::source_dir() / "data/examples/sundhall-zither-instrument.toml").string(),
            "440Hz,1800Hz,7000Hz"};
}

} // namespace

TEST_CASE("Large print has no type below 14 points, on any page") {
    if (!support::has_program("pdftohtml"))
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    const std::string pdf = (folder / "sheet.pdf").string();
    for (const std::string& scale : scales(folder))
        for (const char* paper : {"a4", "letter", "card"}) {
            const auto outcome =
                run_sectio({"sheet", scale, "--pages", "all,beside", "--against", "12,53,urmawi-17",
                            "--large", "--paper", paper, "--out", pdf});
            CAPTURE(scale, paper, outcome.err);
            REQUIRE(outcome.exit_code == 0);
            for (const Word& word : smallest_texts(pdf)) {
                INFO(word.text);
                CHECK(word.size >= 13.95);
            }
        }
}

TEST_CASE("The check of sizes sees the type of a usual sheet") {
    if (!support::has_program("pdftohtml"))
        SECTIO_SKIP("poppler-utils is not installed");
    const support::TempDir folder;
    REQUIRE(run_sectio({"sheet", "rast", "--out", (folder / "sheet.pdf").string()}).exit_code == 0);
    CHECK(smallest_texts(folder / "sheet.pdf").at(0).size == Approx(8.5).margin(0.6));
}
