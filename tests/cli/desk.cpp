// The desk as a command: what it refuses, and that it leaves nothing behind.

#include "support/paths.hpp"
#include "support/process.hpp"
#include "support/refusal.hpp"

#include <catch2/catch.hpp>

TEST_CASE("A desk is refused where its port or a file is none") {
    CHECK(support::refusal({"desk", "--port", "70000"}).find("--port") != std::string::npos);
    CHECK(support::refusal({"desk", "--port", "x"}).find("--port") != std::string::npos);
    CHECK(support::refusal({"desk", "--no-browser", "no-such-file.wav"}, 3)
              .find("no-such-file.wav: the file cannot be read")
          != std::string::npos);
    CHECK(support::refusal({"desk", "--no-browser", "/tmp"}, 3).find("it is no file")
          != std::string::npos);
}

TEST_CASE("The desk says where it is, lays down what it was given and goes without a trace") {
    const support::TempDir folder;
    const std::string script =
        "TMPDIR=" + folder.path().string() + " timeout -s INT 2 '"
        + support::sectio_binary().string() + "' desk --no-browser --port 0 '"
        + (support::data_dir() / "examples" / "goose-walk.musicxml").string() + "'";
    const auto outcome = support::run({"bash", "-c", script});
    CHECK(outcome.err.empty());
    CHECK(outcome.out.find("The desk is open at http://127.0.0.1:") == 0);
    CHECK(std::filesystem::is_empty(folder.path()));
}
