// HTML as a general validator reads it: HTML Tidy.

#include "support/paths.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>

#include <map>
#include <regex>
#include <set>

using support::run;
using support::run_sectio;

namespace {

/// What Tidy 5.6 does not know of the standard: `div` that groups the terms and values of a `dl`
/// (HTML, 4.4.9), and lengths with a unit on `svg` (SVG 2, 8.2). The groups are left out before it
/// reads; its words on lengths are passed over.
std::string without_groups(const std::string& html) {
    static const std::regex list("<dl[^>]*>[^]*?</dl>"), group("</?div[^>]*>");
    std::string out;
    auto rest = html.cbegin();
    for (std::sregex_iterator it(html.begin(), html.end(), list), end; it != end; ++it) {
        out.append(rest, (*it)[0].first);
        out += std::regex_replace(it->str(), group, "");
        rest = (*it)[0].second;
    }
    return out.append(rest, html.cend());
}

std::vector<std::string> complaints(const std::filesystem::path& file) {
    const support::TempDir folder;
    support::write_file(folder / "page.html", without_groups(support::read_file(file)));
    const auto outcome = run({"tidy", "-errors", "-quiet", "-utf8", "--drop-empty-elements", "no",
                              (folder / "page.html").string()});
    std::vector<std::string> all;
    for (const std::string& line : support::lines_of(outcome.err))
        if (!line.empty() && line.find("<svg> attribute") == std::string::npos)
            all.push_back(line);
    return all;
}

} // namespace

TEST_CASE("A general validator finds no fault in the HTML of any page") {
    if (!support::has_program("tidy"))
        SECTIO_SKIP("tidy is not installed");
    const support::TempDir folder;
    const std::string zither =
        (support::source_dir() / "data/examples/sundhall-zither-instrument.toml").string();
    for (std::vector<std::string> page : std::vector<std::vector<std::string>>{
             {"sheet", "rast", "--pages", "all", "--against", "12,53,turkish-24"},
             {"sheet", zither, "--pages", "all"},
             {"sheet", "rast", "9/8,5/4", "urmawi-17", "--title", "A <b> & \"c\""},
             {"compare", "rast", "urmawi-17", "9/8"},
             {"interval", "3/2", "81/80", "13of53"},
             {"divisions"},
             {"commas", "--below", "5c"},
             {"catalogue", "rast"},
             {"catalogue"},
             {"identify", "rast"},
             {"frets", zither}}) {
        CAPTURE(page);
        page.insert(page.end(), {"--out", (folder / "page.html").string()});
        const auto outcome = run_sectio(page);
        INFO(outcome.err);
        REQUIRE(outcome.exit_code == 0);
        CHECK(complaints(folder / "page.html") == std::vector<std::string>{});
    }
    REQUIRE(run_sectio({"sheet", "--all", "rast", "9/8", zither, "--as", "html", "--out",
                        (folder / "set").string()})
                .exit_code
            == 0);
    CHECK(complaints(folder / "set/index.html") == std::vector<std::string>{});
}

TEST_CASE(
    "Every name in the HTML of a page stands for one thing, and what is pointed at is there") {
    const support::TempDir folder;
    const std::string file = (folder / "page.html").string();
    REQUIRE(run_sectio({"sheet", "rast", "--pages", "all", "--out", file}).exit_code == 0);
    const std::string html = support::read_file(file);
    std::map<std::string, int> names;
    std::set<std::string> pointed_at;
    static const std::regex name("\\sid=\"([^\"]*)\""), pointer("(?:href=\"#|url\\(#)([^\")]*)");
    for (std::sregex_iterator it(html.begin(), html.end(), name), end; it != end; ++it)
        ++names[(*it)[1]];
    for (std::sregex_iterator it(html.begin(), html.end(), pointer), end; it != end; ++it)
        pointed_at.insert((*it)[1]);
    CHECK(names.size() > 50);
    CHECK(pointed_at.size() > 50); // glyphs of three drawings
    for (const auto& [each, times] : names) {
        INFO(each);
        CHECK(times == 1);
    }
    for (const std::string& each : pointed_at) {
        INFO(each);
        CHECK(names.count(each) == 1);
    }
}

TEST_CASE("The validator sees a fault") {
    if (!support::has_program("tidy"))
        SECTIO_SKIP("tidy is not installed");
    const support::TempDir folder;
    support::write_file(folder / "page.html",
                        "<!DOCTYPE html><html lang=\"en\"><head><title>a</title></head>"
                        "<body><p><table><tr><td>b</td></tr></table></p></body></html>");
    CHECK_FALSE(complaints(folder / "page.html").empty());
}
