// Files as others save and name them: UTF-16, carriage returns, names that look like options.

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using support::run_sectio;

namespace {

/// ASCII text as UTF-16, lower byte first, behind its mark.
std::string wide(const std::string& text) {
    std::string bytes = "\xFF\xFE";
    for (const char c : text)
        bytes += {c, '\0'};
    return bytes;
}

std::string with_returns(std::string text) {
    for (char& c : text)
        c = c == '\n' ? '\r' : c;
    return text;
}

} // namespace

TEST_CASE("Tables and scale files and tracks are read in UTF-16, and with carriage returns alone") {
    const support::TempDir folder;
    std::string track = "time,hz\n";
    for (int i = 100; i < 200; ++i)
        track += "0." + std::to_string(i) + ",440\n";
    for (const auto& [name, text, words] :
         {std::tuple<std::string, std::string, std::vector<std::string>>{
              "c.csv", "cents,weight\n204,1\n386,2\n498,1\n702,3\n", {"identify"}},
          {"p.csv", "label,pitch\na,440Hz\nb,500Hz\n", {"measure", "pitches"}},
          {"f.csv", "name,nut_mm\na,57.4\nb,112\n", {"measure", "frets", "--length", "620mm"}},
          {"t.csv", track, {"measure", "recording"}},
          {"s.toml", "name = 'X'\ndegrees = ['9/8', '5/4']\n", {"sheet"}},
          {"i.toml",
           "name = 'Z'\nstrings = [{ name = 'a', open = 'D4', length = '612 mm' }]\n"
           "frets = ['57.4 mm ± 0.5 mm']\n",
           {"sheet"}}}) {
        CAPTURE(name);
        const std::string file = name;
        auto asked = words;
        asked.push_back(name);
        const auto answer = [&](const std::string& bytes) {
            support::write_file(folder / file, bytes);
            const auto outcome = run_sectio(asked, {.folder = folder.path()});
            CHECK(outcome.exit_code == 0);
            return outcome.out;
        };
        const std::string plain = answer(text);
        CHECK(answer(with_returns(text)) == plain);
        if (name != "i.toml") // which is no ASCII
            CHECK(answer(wide(text)) == plain);
    }
    support::write_file(folder / "c.csv", wide("cents\n204\n").substr(2));
    const auto unmarked = run_sectio({"identify", "c.csv"}, {.folder = folder.path()});
    CHECK(unmarked.exit_code == 2);
    CHECK(unmarked.err.find("c.csv: this is neither a text nor a file of another kind")
          != std::string::npos);
    // A score in UTF-16 stays one.
    support::write_file(folder / "a", wide("<score-partwise/>"));
    CHECK(run_sectio({"sheet", "a"}, {.folder = folder.path()}).err.find("this is a score")
          != std::string::npos);
}

TEST_CASE("Behind two dashes a name that begins with a hyphen is a file's") {
    const support::TempDir folder;
    support::write_file(folder / "-x.toml", "name = 'X'\ndegrees = ['9/8', '5/4']\n");
    const auto code = [&](const std::vector<std::string>& words) {
        return run_sectio(words, {.folder = folder.path()}).exit_code;
    };
    CHECK(code({"sheet", "--", "-x.toml"}) == 0);
    CHECK(code({"sheet", "rast", "--", "-x.toml"}) == 0);
    CHECK(code({"compare", "12", "--", "-x.toml"}) == 0);
    CHECK(code({"frets", "--length", "620mm", "--", "-x.toml"}) == 0);
    CHECK(code({"sheet", "-x.toml"}) == 2);
    const auto missing = run_sectio({"sheet", "--", "-y.toml"}, {.folder = folder.path()});
    CHECK(missing.exit_code == 3);
    CHECK(missing.err.find("./-y.toml: the file cannot be read") != std::string::npos);
}

TEST_CASE("Standard input is read once, and who names it twice is told so") {
    for (const auto& words :
         {std::vector<std::string>{"compare", "-", "-"},
          {"sheet", "-", "--against", "-"},
          {"annotate", "-", "--scale", "-", "--tonic", "D4"},
          {"perform", "-", "--scale", "-", "--tonic", "D4", "--out", "x.mid"}}) {
        const auto outcome = run_sectio(words, {.input = "9/8, 5/4"});
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.err.find("standard input was read to its end already; write - once")
              != std::string::npos);
    }
}

TEST_CASE(
    "A table or scale file that is not there is missed as a file, wherever a list may stand") {
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"measure", "pitches", "none.csv"},
             {"measure", "frets", "none.csv", "--length", "600mm"},
             {"measure", "frets", "none.toml"},
             {"sheet", "none.csv"},
             {"identify", "none.txt"}}) {
        CAPTURE(words);
        const auto outcome = run_sectio(words);
        CHECK(outcome.exit_code == 3);
        CHECK(outcome.err.find("the file cannot be read (No such file or directory)")
              != std::string::npos);
    }
}
