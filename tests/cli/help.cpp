// What the command says of itself.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"
#include "support/scores.hpp"

#include <catch2/catch.hpp>

#include <regex>

using support::run_sectio;

TEST_CASE("A command that is lacking is asked for by name") {
    const auto none = run_sectio({});
    CHECK(none.exit_code == 2);
    CHECK(none.err.starts_with("sectio: `sectio` needs one of interval, "));
    CHECK(run_sectio({"measure", "tune.wav"}).err
          == "sectio: `sectio measure` needs one of frets, pitches, recording; run `sectio measure "
             "--help`\n");
}

TEST_CASE("An unknown command is told what it is like") {
    const auto outcome = run_sectio({"intervall", "3/2"});
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.out.empty());
    CHECK(outcome.err.find("unknown command: `intervall`; did you mean interval;")
          != std::string::npos);
    CHECK(run_sectio({"ident"}).err.find("did you mean identify") != std::string::npos);
    CHECK(run_sectio({"rast"}).err.find("did you mean sheet rast") != std::string::npos);
    CHECK(run_sectio({"help", "measure", "frets"}).out
          == run_sectio({"measure", "frets", "--help"}).out);
    CHECK(run_sectio({"sheet", "rast", "--output", "x.pdf"}).err.find("did you mean --out;")
          != std::string::npos);
    CHECK(
        run_sectio({"identify", "D4", "E4-29c", "F#4"}).err.find("not expected here: `E4-29c F#4`")
        != std::string::npos);
    CHECK(run_sectio({"colour"}).err.find("did you mean") == std::string::npos);
}

TEST_CASE("help is the same as --help, and each command has its usage, options and an example") {
    const auto whole = run_sectio({"--help"});
    CHECK(whole.exit_code == 0);
    CHECK(run_sectio({"help"}).out == whole.out);
    for (const char* command :
         {"interval", "divisions", "commas", "compare", "sheet", "annotate", "frets", "perform",
          "tuning", "listen", "measure", "samples", "catalogue", "identify"}) {
        CAPTURE(command);
        CHECK(whole.out.find(std::string("\n  ") + command + " ") != std::string::npos);
        const auto help = run_sectio({command, "--help"});
        CHECK(help.exit_code == 0);
        CHECK(help.out.find(std::string("  sectio ") + command) != std::string::npos);
        CHECK(help.out.find("\nOptions\n") != std::string::npos);
        CHECK(help.out.find(std::string("\nExample\n  sectio ") + command) != std::string::npos);
        for (std::size_t at = 0, next; (next = help.out.find('\n', at)) != std::string::npos;
             at = next + 1)
            CHECK(next - at <= 110); // bytes; 96 columns
    }
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"measure", "frets"},
                                               {"measure", "pitches"},
                                               {"measure", "recording"},
                                               {"tuning", "read"}})
        CHECK(run_sectio({words[0], words[1], "--help"})
                  .out.find("\nExample\n  sectio " + words[0] + " " + words[1])
              != std::string::npos);
}

TEST_CASE("Every option of a command stands on its page of the docs or on that of all commands") {
    const auto docs = support::source_dir() / "docs";
    const std::string common = support::read_file(docs / "commands.md") + " --help ";
    const std::regex option("(?:^|[\\s,(])(--[a-z][a-z-]*)");
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"interval"},
                                               {"divisions"},
                                               {"commas"},
                                               {"compare"},
                                               {"sheet"},
                                               {"annotate"},
                                               {"frets"},
                                               {"perform"},
                                               {"tuning"},
                                               {"listen"},
                                               {"samples"},
                                               {"catalogue"},
                                               {"identify"},
                                               {"desk"},
                                               {"measure", "frets"},
                                               {"measure", "pitches"},
                                               {"measure", "recording"}}) {
        auto asked = words;
        asked.push_back("--help");
        const std::string help = run_sectio(asked).out;
        const std::string page =
            support::read_file(docs / "commands" / (words.front() + ".md")) + common;
        int options = 0;
        for (std::sregex_iterator at(help.begin(), help.end(), option), end; at != end; ++at) {
            CAPTURE(words, (*at)[1].str());
            CHECK(std::regex_search(page, std::regex((*at)[1].str() + "(?![a-z-])")));
            ++options;
        }
        CHECK(options > 1);
    }
}

TEST_CASE("With --json an error is one line of JSON with what, where and what to write instead") {
    const auto outcome = run_sectio({"sheet", "9/8,5/", "--json"});
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.out.empty());
    const auto error = support::json_of(outcome.err)["error"];
    CHECK(error["exit_code"] == 2);
    CHECK(error["id"] == "expected_denominator");
    CHECK(error["piece"] == "5/");
    CHECK(error["where"]["source"] == "SCALE");
    CHECK(error["where"]["column"] == 7);
    CHECK(error["cure"] == "write a ratio such as 3/2");
    for (const std::vector<std::string>& words :
         std::vector<std::vector<std::string>>{{"sheet", "rast", "--jsn", "--json"},
                                               {"sheeet", "--json"},
                                               {"sheet", "none.toml", "--json"},
                                               {"measure", "recording", "\xff.wav", "--json"}}) {
        CAPTURE(words);
        const auto refused = run_sectio(words);
        CHECK(support::json_of(refused.err)["error"]["exit_code"] == refused.exit_code);
        CHECK(support::lines_of(refused.err).size() == 1);
    }
}

TEST_CASE("What makes a file and has none to write it into says so") {
    for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
             {"listen", "rast"}, {"perform", "-", "--scale", "rast", "--tonic", "D4"}}) {
        CAPTURE(words);
        const auto outcome = run_sectio(words, {.input = support::score({support::note("E", 4)})});
        CHECK(outcome.exit_code == 0);
        CHECK(outcome.err.find("was not written; --out FILE writes it") != std::string::npos);
    }
}

TEST_CASE("A mistyped option is told what it is like, and which help says more") {
    const auto err = [](const std::vector<std::string>& words) {
        const auto outcome = run_sectio(words);
        CHECK(outcome.exit_code == 2);
        return outcome.err;
    };
    CHECK(err({"sheet", "rast", "--tonc", "D4"})
          == "sectio: unknown option: `--tonc`; did you mean --tonic; run `sectio sheet --help`\n");
    CHECK(err({"measure", "frets", "57mm", "--lenght=600mm"})
          == "sectio: unknown option: `--lenght`; did you mean --length; run `sectio measure frets "
             "--help`\n");
    CHECK(err({"sheet", "rast", "--colour", "red"})
          == "sectio: unknown option: `--colour`; run `sectio sheet --help`\n");
}

TEST_CASE("Values that an option cannot have are refused in plain words") {
    const auto says = [](const std::vector<std::string>& words, const std::string& what) {
        const auto outcome = run_sectio(words);
        CAPTURE(words, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.err.starts_with("sectio: " + what + "; run `sectio " + words[0]));
    };
    says({"sheet", "rast", "--out"}, "--out: its value is missing");
    says({"sheet", "rast", "--tonic", "D4", "--tonic", "E4"},
         "--tonic: it is given more than once");
    says({"sheet", "rast", "--large=no"}, "--large: it takes no value");
    says({"perform", "a.mid", "--by", "ear"}, "--by: `ear` is none of bend, tuning");
    says({"listen", "rast", "--seconds", "nan"}, "--seconds: `nan` is no number from 0.2 to 30");
    says({"identify", "rast", "--show", "1.5"}, "--show: `1.5` is no number from 1 to 10000");
    std::vector<std::string> many(42, "rast");
    many[0] = "compare";
    says(many, "SCALE: at most 40 are taken, and there are 41");
}

TEST_CASE("Help lists the values of choices, and is as wide as the terminal") {
    const std::string help = run_sectio({"annotate", "--help"}).out;
    for (const char* choice : {"--as words|lyric", "--placement above|below",
                               "--reading auto|alter|sign", "--signature written|practised"})
        CHECK(help.find(choice) != std::string::npos);
    CHECK(run_sectio({"divisions", "--help"}).out.find("--sort number|max|rms|relative")
          != std::string::npos);
    if (!support::has_program("script"))
        SECTIO_SKIP("script is not installed");
    const std::string line = "stty cols 80; " + support::sectio_binary().string() + " sheet --help";
    const std::string shown =
        support::run({"script", "-qec", line, "/dev/null"}, {.input = ""}).out;
    CHECK(shown.find("--against") != std::string::npos);
    for (const std::string& row : support::lines_of(shown))
        CHECK(row.size() <= 81 + 8); // bytes, with those of a few wide letters and a return
}
