// Input that asks for much: refused or answered within little memory, and within seconds.

#include <sectio/base/limits.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <filesystem>

namespace limits = sectio::limits;

namespace {

/// The built command with at most so much memory, for a minute at most.
support::Outcome bounded(std::vector<std::string> arguments, int megabytes = 400,
                         const support::RunOptions& options = {}) {
    const std::string script =
        fmt::format("ulimit -v {}; exec timeout 60 \"$0\" \"$@\"", megabytes * 1024);
    arguments.insert(arguments.begin(), {"bash", "-c", script, support::sectio_binary().string()});
    return support::run(arguments, options);
}

/// A scale of so many degrees, no two steps of which are alike.
std::string uneven(std::size_t degrees, std::size_t seed) {
    std::string text = fmt::format("name = \"{} uneven\"\ndegrees = [", degrees);
    for (std::size_t i = 1; i < degrees; ++i)
        text += fmt::format("\"{}.{:03}c\", ", i * 1199 / degrees, (i * i * seed) % 500);
    return text + "]\n";
}

} // namespace

TEST_CASE("bounds: pitches many octaves apart are refused before anything is made for each cent") {
    support::RunOptions melody;
    melody.input = "onset,cents\n0,0\n1,200\n2,1200120000\n3,0\n";
    const auto refused = bounded({"identify", "-"}, 400, melody);
    CHECK(refused.exit_code == 2);
    CHECK(refused.err.find(fmt::format("more than {} octaves", limits::identified_octaves))
          != std::string::npos);
    melody.input = "onset,cents\n0,0\n1,200\n2,76800\n3,0\n"; // 64 octaves
    CHECK(bounded({"identify", "-"}, 400, melody).exit_code == 0);
}

TEST_CASE("bounds: a string of kilometres has no template") {
    const auto refused = bounded({"frets", "rast", "--length", "62000m"});
    CHECK(refused.exit_code == 2);
    CHECK(refused.err.find(fmt::format("more than {} m", limits::string_metres))
          != std::string::npos);
    CHECK(
        bounded({"frets", "rast", "--length", fmt::format("{}m", limits::string_metres)}).exit_code
        == 0);
}

TEST_CASE("bounds: scales of hundreds of degrees are compared at once") {
    const support::TempDir folder;
    support::write_file(folder / "a.toml", uneven(400, 7));
    support::write_file(folder / "b.toml", uneven(400, 11));
    const auto compared =
        bounded({"compare", (folder / "a.toml").string(), (folder / "b.toml").string(), "--json"});
    REQUIRE(compared.exit_code == 0);
    CHECK(support::json_of(compared.out).at("pairs").size() == 2);
}

TEST_CASE("bounds: an interval matrix has a largest size") {
    const support::TempDir folder;
    support::write_file(folder / "a.toml", uneven(limits::matrix_degrees + 1, 7));
    const auto refused = bounded({"sheet", (folder / "a.toml").string(), "--pages", "matrix"});
    CHECK(refused.exit_code == 2);
    CHECK(refused.err.find(fmt::format("more than {} degrees", limits::matrix_degrees))
          != std::string::npos);
}

TEST_CASE("bounds: a score that is too large is refused unread") {
    const support::TempDir folder;
    const auto file = folder / "large.musicxml";
    support::write_file(file, "<?xml version=\"1.0\"?>");
    std::filesystem::resize_file(file, limits::score_bytes + 1); // sparse
    for (const auto& [command, out] :
         {std::pair{"annotate", "out.musicxml"}, std::pair{"perform", "out.mid"}}) {
        const auto refused =
            bounded({command, file.string(), "--scale", "rast", "--out", (folder / out).string()});
        CHECK(refused.exit_code == 2);
        CHECK((refused.err.find(fmt::format("more than {} bytes", limits::score_bytes))
                   != std::string::npos
               || refused.err.find(fmt::format("more than {} MiB", limits::score_bytes >> 20))
                      != std::string::npos));
    }
}

TEST_CASE("bounds: nothing that comes from outside commands the terminal") {
    const support::TempDir folder;
    const std::string escape = "\x1b[31m\x9b\u202E";
    support::write_file(folder / "key.toml",
                        "name = \"a\"\n\"\\u001b[2J\" = 1\ndegrees = [\"3/2\"]");
    support::write_file(folder / "bad.toml", "name = \"\x1b[2J\"\ndegrees = [\"3/2\"]");
    support::write_file(folder / "strings.toml",
                        "name = \"z\"\nstrings = [{ name = \"\\u001b[2J\", length = \"1 m\" }]\n"
                        "frets = [\"1 cm\"]\n");
    const std::vector<std::vector<std::string>> requests{
        {escape},
        {"interval", "3/2", "--" + escape},
        {"interval", "3/2", "--digits", escape},
        {"catalogue", "--kind", escape},
        {"divisions", "--sort", escape},
        {"commas", "--show", escape},
        {"sheet", escape + ".toml"},
        {"interval", escape},
        {"sheet", (folder / "key.toml").string()},
        {"sheet", (folder / "bad.toml").string()},
        {"frets", (folder / "strings.toml").string(), "--string", "x"},
        {"measure", "recording", (folder / escape).string()}};
    for (const auto& request : requests) {
        const auto outcome = support::run_sectio(request);
        CAPTURE(outcome.err);
        CHECK(outcome.exit_code >= 2);
        for (const char* raw : {"\x1b", "\x9b", "\u202E"})
            CHECK(outcome.err.find(raw) == std::string::npos);
    }
}

TEST_CASE("bounds: what is no number lies within no range") {
    const support::TempDir folder;
    support::write_file(folder / "hz.csv", "440\n440\n");
    for (const char* text : {"nan", "-NaN", "NAN(1)"}) {
        CAPTURE(text);
        for (const char* option : {"--seconds", "--swell"})
            CHECK(bounded({"listen", "3/2", option, text, "--out", (folder / "a.wav").string()})
                      .exit_code
                  == 2);
        CHECK(bounded({"measure", "recording", (folder / "hz.csv").string(), "--step", text})
                  .exit_code
              == 2);
    }
    CHECK_FALSE(std::filesystem::exists(folder / "a.wav"));
}

TEST_CASE("bounds: so many drones sound together and no more") {
    const support::TempDir folder;
    const auto listen = [&](std::size_t count) {
        std::string drones = "D3";
        for (std::size_t i = 1; i < count; ++i)
            drones += ",D3";
        return bounded({"listen", "3/2", "--tonic", "D4", "--seconds", "0.2", "--alone", "--drone",
                        drones, "--out", (folder / "a.wav").string()});
    };
    CHECK(listen(limits::drones).exit_code == 0);
    const auto refused = listen(limits::drones + 1);
    CHECK(refused.exit_code == 2);
    CHECK(refused.err.find("more than 32 drones") != std::string::npos);
}
