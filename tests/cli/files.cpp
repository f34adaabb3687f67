// What commands do to the files they are given: no output replaces an input, no two outputs are one
// file, nothing stays behind, and the same request writes the same bytes.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"
#include "support/scores.hpp"
#include "support/tones.hpp"

#include <catch2/catch.hpp>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <map>
#include <thread>

using support::run_sectio;
namespace fs = support::fs;
using Json = nlohmann::json;

namespace {

constexpr const char* scale = "name = 'three'\ndegrees = ['9/8', '5/4', '3/2']\n";

/// Every file below a folder and what it holds.
std::map<std::string, std::string> contents(const fs::path& folder) {
    std::map<std::string, std::string> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file())
            files[entry.path().lexically_relative(folder).string()] =
                support::read_file(entry.path());
    return files;
}

/// A folder with a scale, a table of pitches, a score, a link and a second name for the scale.
class Bench {
  public:
    Bench() {
        support::write_file(folder_ / "s.toml", scale);
        support::write_file(folder_ / "t.toml", scale);
        support::write_file(folder_ / "p.csv", "cents\n0\n204\n386\n702\n");
        support::write_file(folder_ / "q.csv", "cents\n0\n204\n386\n702\n");
        support::write_file(folder_ / "a.musicxml", support::score({support::note("E", 4)}));
        fs::create_symlink("s.toml", folder_ / "link.toml");
        fs::create_hard_link(folder_ / "s.toml", folder_ / "twin.toml");
    }
    support::Outcome run(const std::vector<std::string>& arguments) const {
        return run_sectio(arguments, {.folder = folder_.path()});
    }
    const support::TempDir& folder() const { return folder_; }

  private:
    support::TempDir folder_;
};

std::string tone(double hz) {
    return support::wave_file(support::tone({.hz = hz}), 44100);
}

} // namespace

TEST_CASE("No output is an input, whatever the role of either and however it is spelled") {
    const Bench bench;
    const auto before = contents(bench.folder().path());
    const std::vector<std::vector<std::string>> commands{
        {"identify", "p.csv", "--out", "p.csv"},
        {"compare", "p.csv", "q.csv", "--out", "q.csv"},
        {"compare", "p.csv", "q.csv", "--out", "./p.csv"},
        {"divisions", "--targets", "p.csv", "--out", "p.csv"},
        {"sheet", "rast", "--against", "12,s.toml", "--out", "s.toml"},
        {"sheet", "rast", "t.toml", "--out", "t.toml"},
        {"sheet", "s.toml", "--out", "link.toml"},
        {"sheet", "s.toml", "--out", "twin.toml"},
        {"sheet", "link.toml", "--out", "s.toml"},
        {"frets", "p.csv", "--length", "600mm", "--out", "p.csv"},
        {"annotate", "a.musicxml", "--scale", "p.csv", "--tonic", "D4", "--summary", "p.csv"},
        {"annotate", "a.musicxml", "--scale", "rast", "--tonic", "D4", "--out", "a.musicxml"},
        {"annotate", "a.musicxml", "--remove", "--out", "a.musicxml"},
        {"measure", "pitches", "p.csv", "--out", "p.csv"},
        {"tuning", "p.csv", "--out", "p.csv"},
    };
    for (const auto& command : commands) {
        CAPTURE(command);
        const auto outcome = bench.run(command);
        CHECK(outcome.exit_code == 3);
        CHECK(outcome.err.find("would overwrite an input") != std::string::npos);
        CHECK(contents(bench.folder().path()) == before);
    }
    CHECK(bench.run({"sheet", "s.toml", "--out", "new.toml"}).exit_code == 0);
}

TEST_CASE("Standard input from a file is an input, standard output into one an output") {
    const Bench bench;
    const std::string binary = support::sectio_binary().string();
    const auto shell = [&](const std::string& line) {
        return support::run({"sh", "-c", line}, {.folder = bench.folder().path()});
    };
    CHECK(shell(binary + " identify - --out p.csv < p.csv").exit_code == 3);
    CHECK(
        shell(binary + " perform a.musicxml --scale rast --tonic D4 --out x.mid > x.mid").exit_code
        == 3);
    CHECK(support::read_file(bench.folder() / "p.csv") == "cents\n0\n204\n386\n702\n");
    CHECK(shell(binary + " sheet s.toml --out /dev/null >/dev/null").exit_code == 2); // no ending
    CHECK(shell(binary
                + " annotate a.musicxml --scale rast --tonic D4 --out /dev/null --json "
                  ">/dev/null")
              .exit_code
          == 0);
}

TEST_CASE("No two outputs are one file") {
    const Bench bench;
    const auto before = contents(bench.folder().path());
    support::write_file(bench.folder() / "c.wav", tone(262));
    fs::create_symlink("yet.svg", bench.folder() / "way.svg");
    for (const auto& [out, picture] :
         {std::pair{"s.svg", "s.svg"}, {"s.svg", "./s.svg"}, {"yet.svg", "way.svg"}}) {
        CAPTURE(out, picture);
        const auto outcome =
            bench.run({"measure", "recording", "c.wav", "--out", out, "--picture", picture});
        CHECK(outcome.exit_code == 3);
        CHECK(outcome.err.find("two outputs would go into this file") != std::string::npos);
    }
    CHECK(bench
              .run({"annotate", "a.musicxml", "--scale", "rast", "--out", "o.xml", "--summary",
                    "sub/../o.xml"})
              .exit_code
          == 2); // no kind of a summary
    fs::remove(bench.folder() / "c.wav");
    fs::remove(bench.folder() / "way.svg");
    CHECK(contents(bench.folder().path()) == before);
}

TEST_CASE("A set of sheets gives each a name of its own and replaces no input") {
    const support::TempDir folder;
    for (const char* sub : {"a", "b", "c"})
        fs::create_directory(folder / sub);
    const std::vector<std::string> files{"a/x.toml", "b/x.toml", "c/x-2.toml"};
    for (std::size_t i = 0; i < files.size(); ++i)
        support::write_file(folder / files[i],
                            "name = 'number " + std::to_string(i) + "'\ndegrees = ['3/2']\n");
    std::vector<std::string> command{"sheet", "--all"};
    command.insert(command.end(), files.begin(), files.end());
    command.insert(command.end(), {"--as", "txt", "--json", "--out", "set"});
    const auto outcome = run_sectio(command, {.folder = folder.path()});
    REQUIRE(outcome.exit_code == 0);
    const Json sheets = Json::parse(outcome.out)["sheets"];
    REQUIRE(sheets.size() == 3);
    for (const Json& sheet : sheets)
        CHECK(support::read_file(folder / "set" / sheet["file"].get<std::string>())
                  .find(sheet["name"].get<std::string>())
              != std::string::npos);

    support::write_file(folder / "in.csv", "cents\n0\n204\n386\n");
    support::write_file(folder / "other.csv", "cents\n0\n204\n386\n");
    const auto inside =
        run_sectio({"sheet", "--all", "in.csv", "rast", "--as", "csv", "--out", "."},
                   {.folder = folder.path()});
    CHECK(inside.exit_code == 3);
    CHECK(support::read_file(folder / "in.csv") == "cents\n0\n204\n386\n");
    CHECK(fs::exists(folder / "rast.csv"));
}

TEST_CASE("Copies of samples replace no sample, heard or silent, linked or named like the table") {
    const support::TempDir folder;
    for (const char* sub : {"x", "y", "q"})
        fs::create_directory(folder / sub);
    const std::string silent = support::wave_file(support::silence(1, 44100), 44100);
    support::write_file(folder / "x/n.wav", tone(262));
    support::write_file(folder / "y/n.wav", silent);
    support::write_file(folder / "x/a.wav", tone(330));
    support::write_file(folder / "samples.csv", tone(294));
    fs::create_symlink("../x/a.wav", folder / "q/a.wav");
    const auto before = contents(folder.path());
    for (const std::vector<std::string>& command : std::vector<std::vector<std::string>>{
             {"samples", "x/n.wav", "y/n.wav", "--out", "y"},
             {"samples", "x/a.wav", "--out", "q"},
             {"samples", "x/a.wav", "--out", "x"},
             {"samples", "samples.csv", "x/a.wav", "--out", "new"}}) {
        CAPTURE(command);
        CHECK(run_sectio(command, {.folder = folder.path()}).exit_code == 3);
        CHECK(contents(folder.path()) == before);
    }
}

TEST_CASE("One file that cannot be measured keeps no other from its copy, and the end tells") {
    const support::TempDir folder;
    fs::create_directory(folder / "in");
    support::write_file(folder / "in/a.wav", tone(262));
    support::write_file(folder / "in/b.wav", "RIFF no sound at all");
    support::write_file(folder / "in/c.WAV", tone(294));
    support::write_file(folder / "in/readme.txt", "not a sound");
    const auto outcome = run_sectio({"samples", "in", "missing.wav", "--json", "--out", "out"},
                                    {.folder = folder.path()});
    CHECK(outcome.exit_code == 3);
    const Json answer = Json::parse(outcome.out);
    CHECK(answer["samples"].size() == 2);
    CHECK(answer["refused"].size() == 2);
    for (const char* file : {"out/a.wav", "out/c.WAV", "out/samples.csv"})
        CHECK(fs::exists(folder / file));
    CHECK_FALSE(fs::exists(folder / "out/b.wav"));
    const auto told = support::lines_of(outcome.err);
    REQUIRE(told.size() == 2);
    CHECK(Json::parse(told[0])["error"]["where"]["source"] == "in/b.wav");
    CHECK(Json::parse(told[1])["error"]["where"]["source"] == "missing.wav");
    const auto none = run_sectio({"samples", "in/b.wav", "missing.wav", "--out", "none"},
                                 {.folder = folder.path()});
    CHECK(none.exit_code == 3);
    CHECK_FALSE(fs::exists(folder / "none"));
    fs::create_directory(folder / "empty");
    CHECK(run_sectio({"samples", "empty"}, {.folder = folder.path()}).exit_code == 2);
    const auto piped = run_sectio({"samples", "-", "-"}, {.folder = folder.path()});
    CHECK(piped.exit_code == 2);
    CHECK(piped.err.find("standard input is none") != std::string::npos);
}

TEST_CASE("What is no score keeps its texts, and a measurement that fails leaves no picture") {
    const support::TempDir folder;
    support::write_file(folder / "plain.musicxml", "dear reader");
    support::write_file(folder / "broken.musicxml", "<score-partwise><part>");
    support::write_file(folder / "page.musicxml", "<html><body/></html>");
    support::write_file(folder / "silent.wav",
                        support::wave_file(support::silence(1, 44100), 44100));
    support::write_file(folder / "one.wav", tone(262));
    const std::size_t count = contents(folder.path()).size();
    for (const char* file : {"plain.musicxml", "broken.musicxml", "page.musicxml"})
        CHECK(run_sectio({"annotate", file, "--remove", "--out", "x.musicxml"},
                         {.folder = folder.path()})
                  .exit_code
              == 2);
    CHECK(run_sectio({"measure", "recording", "silent.wav", "--picture", "p.svg"},
                     {.folder = folder.path()})
              .exit_code
          == 2);
    CHECK(run_sectio({"measure", "recording", "one.wav", "--picture", "p.svg", "--out", "one.toml"},
                     {.folder = folder.path()})
              .exit_code
          == 2); // one pitch is no scale
    CHECK(contents(folder.path()).size() == count);
}

TEST_CASE("A scale file of one pitch, which nobody could read, is not written") {
    const support::TempDir folder;
    // One note change: key 62 sounds as itself (MIDI Tuning Standard, sub-id 02).
    support::write_file(folder / "k.syx",
                        std::string("\xf0\x7f\x7f\x08\x02\x00\x01\x3e\x3e\x00\x00\xf7", 12));
    CHECK(run_sectio({"tuning", "read", "k.syx"}, {.folder = folder.path()}).exit_code == 0);
    CHECK(run_sectio({"tuning", "read", "k.syx", "--out", "k.toml"}, {.folder = folder.path()})
              .exit_code
          == 2);
    CHECK_FALSE(fs::exists(folder / "k.toml"));
}

TEST_CASE("The same sheets are the same files, on any number of processors and on another day") {
    const support::TempDir folder;
    const std::vector<std::string> scales{"rast", "hicaz", "segah", "zarlino", "pythagorean-12"};
    const support::RunOptions here{.folder = folder.path(),
                                   .environment = {"SOURCE_DATE_EPOCH=86400"}};
    for (const std::string kind : {"svg", "html", "pdf"}) {
        CAPTURE(kind);
        std::map<std::string, std::string> alone;
        for (const std::string& scale : scales) {
            REQUIRE(run_sectio({"sheet", scale, "--out", "one." + kind}, here).exit_code == 0);
            alone[scale + "." + kind] = support::read_file(folder / ("one." + kind));
        }
        // As many threads as there are processors to run on, one where taskset leaves one.
        for (const bool one : {false, true, false, true}) {
            std::vector<std::string> words{
                support::sectio_binary().string(), "sheet", "--all", "--as", kind, "--out", "set"};
            words.insert(words.begin() + 3, scales.begin(), scales.end());
            if (one)
                words.insert(words.begin(), {"taskset", "--cpu-list", "0"});
            REQUIRE(support::run(words, here).exit_code == 0);
            auto set = contents(folder / "set");
            CHECK(set.erase("index.html") == 1);
            CHECK((set == alone));
            fs::remove_all(folder / "set");
        }
    }
    REQUIRE(run_sectio({"sheet", "rast", "--out", "a.pdf"},
                       {.folder = folder.path(), .environment = {"SOURCE_DATE_EPOCH=86400"}})
                .exit_code
            == 0);
    const auto info = support::run({"pdfinfo", "-isodates", folder / "a.pdf"});
    if (info.exit_code != 0)
        SECTIO_SKIP("poppler-utils is not installed");
    CHECK(info.out.find("CreationDate:    1970-01-02") != std::string::npos);
}

namespace {

/// How a command ends that gets `signal` once it has begun to write into `folder`.
int end_by(int signal, const std::vector<std::string>& arguments, const fs::path& folder,
           std::size_t files_before) {
    std::vector<std::string> words{support::sectio_binary().string()};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<char*> argv;
    for (std::string& word : words)
        argv.push_back(word.data());
    argv.push_back(nullptr);
    const pid_t child = fork();
    if (child == 0) {
        if (chdir(folder.c_str()) != 0 || freopen("/dev/null", "w", stdout) == nullptr)
            _exit(126);
        execv(argv.front(), argv.data());
        _exit(127);
    }
    using namespace std::chrono_literals;
    int status = 0;
    while (contents(folder).size() == files_before && waitpid(child, &status, WNOHANG) == 0)
        std::this_thread::sleep_for(1ms);
    kill(child, signal);
    waitpid(child, &status, 0);
    return WIFSIGNALED(status) ? WTERMSIG(status) : 0;
}

} // namespace

TEST_CASE("A signal ends a command by that signal, and nothing half written stays") {
    const support::TempDir folder;
    std::string notes;
    for (int i = 0; i < 3000; ++i)
        notes += support::note("E", 4);
    support::write_file(folder / "long.musicxml", support::score({notes}));
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        CAPTURE(signal);
        CHECK(end_by(
                  signal,
                  {"listen", "long.musicxml", "--scale", "rast", "--tonic", "D4", "--out", "x.wav"},
                  folder.path(), 1)
              == signal);
        CHECK(contents(folder.path()).size() == 1);
    }
}

TEST_CASE(
    "Who may not write a file does not replace it, nor where the folder takes no other file") {
    if (!support::has_program("setpriv") || geteuid() != 0)
        SECTIO_SKIP("setpriv is not installed, or the user is not root");
    const support::TempDir folder;
    fs::permissions(folder.path(), fs::perms::all);
    support::write_file(folder / "kept.csv", "old");
    fs::create_directory(folder / "closed");
    support::write_file(folder / "closed/open.csv", "old");
    fs::permissions(folder / "closed/open.csv", fs::perms::all);
    const auto as_nobody = [&](const char* out) {
        return support::run({"setpriv", "--reuid=65534", "--regid=65534", "--clear-groups",
                             support::sectio_binary().string(), "sheet", "rast", "--out", out},
                            {.folder = folder.path()});
    };
    if (as_nobody("free.csv").exit_code != 0)
        SECTIO_SKIP("another user cannot run the command here");
    const auto kept = as_nobody("kept.csv");
    CHECK(kept.exit_code == 3);
    CHECK(kept.err.find("kept.csv: the file cannot be written (Permission denied)")
          != std::string::npos);
    const auto closed = as_nobody("closed/open.csv");
    CHECK(closed.exit_code == 3);
    CHECK(closed.err.find("its folder takes no new file") != std::string::npos);
    CHECK(support::read_file(folder / "kept.csv") == "old");
    CHECK(support::read_file(folder / "closed/open.csv") == "old");
}

TEST_CASE("An output named - writes the same bytes to standard output, and the report to standard "
          "error") {
    const Bench bench;
    for (const auto& [words, ending] :
         {std::pair{std::vector<std::string>{"sheet", "s.toml"}, ".pdf"},
          {{"sheet", "s.toml"}, ".toml"},
          {{"sheet", "s.toml"}, ".musicxml"},
          {{"tuning", "s.toml"}, ".syx"},
          {{"frets", "s.toml", "--length", "600mm"}, ".csv"},
          {{"annotate", "a.musicxml", "--scale", "s.toml"}, ""},
          {{"listen", "s.toml", "--seconds", "0.2"}, ""}}) {
        CAPTURE(words, ending);
        auto piped = words, filed = words;
        piped.insert(piped.end(), {"--out", std::string("-") + ending});
        const std::string file = words[0] + (*ending ? ending : words[0] == "listen" ? ".wav" : "");
        filed.insert(filed.end(), {"--out", file});
        const auto to_output = bench.run(piped), to_file = bench.run(filed);
        REQUIRE(to_output.exit_code == 0);
        CHECK(to_output.out == support::read_file(bench.folder() / file));
        CHECK(to_output.err == to_file.out);
    }
    CHECK_FALSE(fs::exists(bench.folder() / "-"));
}

TEST_CASE(
    "An output named - is refused where no kind is said, beside --json, twice, and for a folder") {
    const Bench bench;
    const auto told = [&](const std::vector<std::string>& words) {
        const auto outcome = bench.run(words);
        CHECK(outcome.exit_code != 0);
        CHECK(outcome.out.empty());
        return outcome.err;
    };
    using Catch::Contains;
    CHECK_THAT(told({"sheet", "s.toml", "--out", "-"}), Contains("-.pdf"));
    CHECK_THAT(told({"sheet", "s.toml", "--out", "-.pdf", "--json"}), Contains("--json"));
    CHECK_THAT(told({"sheet", "--all", "s.toml", "--out", "-"}), Contains("folder"));
    CHECK_THAT(
        told({"annotate", "a.musicxml", "--scale", "s.toml", "--out", "-", "--summary", "-.csv"}),
        Contains("standard output"));
    CHECK_THAT(told({"annotate", "a.musicxml", "--scale", "s.toml", "--out", "b.musicxml",
                     "--summary", "-.csv", "--json"}),
               Contains("standard output"));
    CHECK_THAT(told({"measure", "recording", "a.wav", "--picture", "-.svg", "--json"}),
               Contains("standard output"));
    if (support::has_program("script")) {
        const auto seen = support::run(
            {"script", "-qec",
             support::sectio_binary().string() + " listen 3/2 --out -; echo code $?", "/dev/null"});
        CHECK_THAT(seen.out, Contains("> FILE") && Contains("code 2"));
    }
}

TEST_CASE("Standard input that cannot be read is told, by each command that takes a scale") {
    for (const char* command : {"sheet -", "identify -", "tuning read -", "measure recording -"}) {
        const auto told =
            support::run({"bash", "-c", "exec \"$0\" " + std::string(command) + " < /",
                          support::sectio_binary().string()});
        CAPTURE(command, told.err);
        CHECK(told.exit_code == 3);
        CHECK_THAT(told.err, Catch::Contains("Is a directory"));
    }
}

TEST_CASE("A recording or a table of times on standard input is measured as the file is") {
    const Bench bench;
    for (const auto& [name, bytes] :
         {std::pair<std::string, std::string>{"t.wav", tone(441)},
          {"t.csv", "time,frequency\n0,441\n0.01,441\n0.02,441\n0.3,441\n"}}) {
        CAPTURE(name);
        support::write_file(bench.folder() / name, bytes);
        const auto of_file = run_sectio({"measure", "recording", name, "--json"},
                                        {.folder = bench.folder().path()}),
                   of_input = run_sectio({"measure", "recording", "-", "--json"}, {bytes});
        REQUIRE(of_input.exit_code == of_file.exit_code);
        if (of_file.exit_code == 0)
            CHECK(Json::parse(of_input.out).at("pitches")
                  == Json::parse(of_file.out).at("pitches"));
    }
    const auto scale_heard = bench.run({"listen", "s.toml", "--alone", "--out", "-"});
    const auto named = run_sectio({"identify", "-", "--json"}, {scale_heard.out});
    CHECK(named.exit_code == 0);
    CHECK(Json::parse(named.out).contains("candidates"));
}
