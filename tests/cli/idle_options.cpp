// Options that have nothing to do beside the others, or nothing behind them, are refused.

#include <catch2/catch.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <filesystem>

using support::run_sectio;

namespace {

using Words = std::vector<std::string>;

std::string example(const char* file) {
    return (support::data_dir() / "examples" / file).string();
}

} // namespace

TEST_CASE("idle options: one that would do nothing is refused and named") {
    const std::string walk = example("goose-walk.musicxml"),
                      zither = example("sundhall-zither-instrument.toml");
    const support::TempDir folder;
    for (const auto& [words, option, value] :
         {std::tuple<Words, std::string, std::string>{{"interval", "3/2"}, "--measure", "3/1"},
          {{"sheet", "rast"}, "--as", "svg"},
          {{"frets", "rast", "--length", "600mm"}, "--string", "melody"},
          {{"frets", "rast", "--length", "600mm"}, "--perpendicular", "3"},
          {{"measure", "frets", "57mm", "--length", "612mm"}, "--string", "melody"},
          {{"annotate", walk, "--remove", "--out", "a.musicxml"}, "--summary", "s.csv"},
          {{"annotate", walk, "--remove", "--out", "a.musicxml"}, "--scale", "rast"},
          {{"listen", "rast", "--out", "a.wav"}, "--rest", "12"},
          {{"listen", "rast", "--out", "a.wav"}, "--signs", "turkish"},
          {{"perform", walk, "--scale", "rast", "--out", "a.mid"}, "--message", "octave-1"},
          {{"tuning", "rast"}, "--bank", "1"},
          {{"tuning", "rast"}, "--channels", "2"},
          {{"tuning", "rast", "--message", "note-change"}, "--name", "x"},
          {{"tuning", "12", "--message", "octave-1", "--keys", "12"}, "--program", "1"},
          {{"tuning", "rast", "--mapping", "1,2"}, "--keys", "12"}}) {
        CAPTURE(words, option);
        Words with = words;
        with.insert(with.end(), {option, value});
        const auto refused = run_sectio(with, {.folder = folder.path()});
        CHECK(refused.exit_code == 2);
        CHECK_THAT(refused.err, Catch::StartsWith("sectio: " + option + ": does nothing "));
        CHECK(std::filesystem::is_empty(folder.path()));
    }
    CHECK(run_sectio({"tuning", "rast", "--channels", "2", "--out", "a.mid"},
                     {.folder = folder.path()})
              .exit_code
          == 0);
    CHECK(run_sectio({"frets", "rast", "--instrument", zither, "--string", "low drone"}).exit_code
          == 0);
}

TEST_CASE("Nothing between the commas of a list is refused at its place, blanks count nowhere") {
    const support::TempDir folder;
    support::write_file(folder / "a.wav", "");
    for (const auto& [words, option, item] :
         {std::tuple<Words, std::string, std::string>{
              {"frets", "rast", "--length", "600mm"}, "--strings", "D4"},
          {{"listen", "rast", "--out", "a.wav"}, "--drone", "D3"},
          {{"sheet", "rast"}, "--against", "53"},
          {{"compare", "rast"}, "--against", "zarlino"},
          {{"interval", "3/2"}, "--against", "53"},
          {{"sheet", "rast"}, "--pages", "table"},
          {{"samples", "a.wav"}, "--set", "natural"},
          {{"tuning", "rast", "--out", "a.mid"}, "--channels", "2"}}) {
        const auto said = [&, words = words, option = option](const std::string& list) {
            Words with = words;
            with.insert(with.end(), {option, list});
            return run_sectio(with, {.folder = folder.path()}).err;
        };
        CAPTURE(words, option);
        CHECK_THAT(said(item + ","), Catch::StartsWith("sectio: " + option + ":"
                                                       + std::to_string(item.size() + 2) + ":"));
        CHECK_THAT(said("," + item), Catch::StartsWith("sectio: " + option + ":1:"));
        CHECK(said(" " + item + " , " + item) == said(item + "," + item));
    }
    CHECK(run_sectio({"tuning", "rast", "--out", "b.mid", "--channels", "1,17"},
                     {.folder = folder.path()})
              .exit_code
          == 2);
}

TEST_CASE("idle options: one with an empty value is refused") {
    for (const Words& words : {Words{"sheet", "rast", "--out", ""},
                               {"frets", "rast", "--length", "600mm", "--instrument", ""},
                               {"frets", "rast", "--length", "600mm", "--strings", ""},
                               {"listen", "rast", "--drone", ""},
                               {"identify", "rast", "--among", ""}}) {
        CAPTURE(words);
        const auto refused = run_sectio(words);
        CHECK(refused.exit_code == 2);
        CHECK_THAT(refused.err, Catch::Contains("its value is empty"));
    }
    const auto missing = run_sectio({"frets", "rast", "--length", "600mm", "--strings", "D4,,A3"});
    CHECK(missing.exit_code == 2);
    CHECK_THAT(missing.err, Catch::StartsWith("sectio: --strings:4: a pitch is expected here"));
}
