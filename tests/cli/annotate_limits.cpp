// Scores that ask for much: refused by a stated limit, or done within little time and memory.

#include <catch2/catch.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>
#include <support/scores.hpp>

using support::run;

namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool memory_is_ours = false; // the sanitizer takes address space by terabytes
#else
constexpr bool memory_is_ours = true;
#endif

/// The command with at most so many seconds of the processor and MiB of address space.
support::Outcome bounded(const std::vector<std::string>& arguments, int seconds, int mebibytes) {
    std::string line = "ulimit -t " + std::to_string(seconds);
    if (memory_is_ours)
        line += " -v " + std::to_string(mebibytes * 1024);
    std::vector<std::string> command{"sh", "-c", line + "; exec \"$0\" \"$@\"",
                                     support::sectio_binary().string()};
    command.insert(command.end(), arguments.begin(), arguments.end());
    return run(command);
}

std::string written(const support::TempDir& dir, const std::string& music) {
    const auto file = dir / "tune.musicxml";
    support::write_file(file, support::score({music}));
    return file.string();
}

/// So many notes, all altered differently, each in a voice of its own.
std::string varied(int count) {
    std::string music = support::attributes();
    for (int i = 0; i < count; ++i) {
        const std::string digits = std::to_string(1'000'000 + i * 15).substr(1);
        music += support::note("F", 4, "0." + digits, "<voice>" + std::to_string(i) + "</voice>");
    }
    return music;
}

} // namespace

TEST_CASE(
    "annotate: an alteration or a transposition beyond the limits is refused with its place") {
    const support::TempDir dir;
    const auto refused = [&](const std::string& music, const std::string& element) {
        const auto outcome = bounded({"annotate", written(dir, music), "--system", "12"}, 5, 400);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.err.find("the element " + element) != std::string::npos);
        CHECK(outcome.err.find("tune.musicxml:") != std::string::npos);
    };
    const auto transposed = [](const std::string& inside) {
        return support::attributes("<transpose>" + inside + "</transpose>") + support::note("F", 4);
    };
    refused(support::note("F", 4, "999999999"), "alter");
    refused(support::note("F", 4, "-53.5"), "alter");
    refused(transposed("<chromatic>999999999</chromatic>"), "chromatic");
    refused(transposed("<diatonic>141</diatonic><chromatic>2</chromatic>"), "diatonic");
    refused(transposed("<chromatic>0</chromatic><octave-change>21</octave-change>"),
            "octave-change");
    refused(support::attributes("<key><key-step>B</key-step><key-alter>54</key-alter></key>")
                + support::note("B", 4),
            "key-alter");
}

TEST_CASE("annotate: an alteration at the limit is taken") {
    const support::TempDir dir;
    const auto outcome =
        bounded({"annotate", written(dir, support::note("F", 4, "53")), "--system", "12"}, 5, 400);
    CHECK(outcome.exit_code == 0);
}

TEST_CASE("annotate: the time grows with the number of different notes, not with its square") {
    const support::TempDir dir;
    const std::string score = written(dir, varied(30'000));
    CHECK(bounded({"annotate", score, "--system", "53"}, 20, 1000).exit_code == 0);
    CHECK(bounded({"annotate", score, "--scale", "9/8,5/4,4/3,3/2"}, 20, 1000).exit_code == 0);
}

TEST_CASE("annotate: the time does not grow with degrees times pitches") {
    const support::TempDir dir;
    std::string degrees;
    for (int i = 1; i < 10'000; ++i)
        degrees += (i == 1 ? "" : ",") + std::to_string(10'000 + i) + "/10000";
    const std::string score = written(dir, varied(10'000));
    CHECK(bounded({"annotate", score, "--scale", degrees}, 20, 1000).exit_code == 0);
}
