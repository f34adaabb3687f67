// Work in processes of their own, what lies on a page, and when the desk ends.

#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/desk/desk.hpp>
#include <sectio/desk/job.hpp>
#include <sectio/desk/tab.hpp>
#include <sectio/desk/zip.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <support/errors.hpp>
#include <support/paths.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <thread>

using namespace sectio::desk;
using namespace std::chrono_literals;

namespace {

void wait_for(Job& job) {
    for (int i = 0; i < 3000 && !job.ended(); ++i)
        std::this_thread::sleep_for(10ms);
    REQUIRE(job.ended());
}

void wait_for(Tab& tab) {
    for (int i = 0; i < 3000 && tab.working() > 0; ++i)
        std::this_thread::sleep_for(10ms);
    REQUIRE(tab.working() == 0);
}

} // namespace

TEST_CASE("Work says what it says, tells how far it is, and reads its own folder alone") {
    const support::TempDir folder, other;
    support::write_file(folder / "a.txt", "own");
    support::write_file(other / "b.txt", "foreign");
    const std::string foreign = (other / "b.txt").string();
    Job job(folder.path(), [&](const sectio::Progress& progress) {
        progress(0.5);
        fmt::print("{}", sectio::read_whole("a.txt", 10));
        return support::error_of([&] { sectio::read_whole(foreign, 10); }) ? 7 : 8;
    });
    wait_for(job);
    CHECK(job.code() == 7);
    CHECK(job.done() == 0.5);
    CHECK(support::read_file(job.said()) == "own");
    std::filesystem::remove(job.said());
    std::filesystem::remove(job.trouble());
}

TEST_CASE("Work is stopped, and what breaks breaks nothing else") {
    const support::TempDir folder;
    const auto began = std::chrono::steady_clock::now();
    Job endless(folder / ".", [](const sectio::Progress&) {
        std::this_thread::sleep_for(1h);
        return 0;
    });
    CHECK_FALSE(endless.ended());
    endless.stop();
    CHECK(endless.ended());
    CHECK(endless.code() == Job::broken);
    CHECK(std::chrono::steady_clock::now() - began < 10s);
    Job broken(folder / ".", [](const sectio::Progress&) -> int { abort(); });
    wait_for(broken);
    CHECK(broken.code() == Job::broken);
    Job thrown(folder / ".",
               [](const sectio::Progress&) -> int { throw std::runtime_error("no"); });
    wait_for(thrown);
    CHECK(thrown.code() == 3);
    CHECK(support::read_file(thrown.trouble()) == "no\n");
}

TEST_CASE("What is put on a page is recognised, keeps its name and leaves with the page") {
    const support::TempDir folder;
    const auto file = [&](const std::string& content) {
        support::write_file(folder / "incoming", content);
        return folder / "incoming";
    };
    {
        Tab tab(folder / "tab");
        tab.put_file(file("name = \"x\"\ndegrees = [\"9/8\"]\n"), "mine.toml");
        tab.put_file(file("cents\n0\n204\n"), "../mine.toml");
        tab.put_text("440Hz, 470Hz");
        tab.put_file(file("nothing of the kind"), "wrong.toml");
        tab.put_file(file("cents\n0\n204\n"), "rast");
        wait_for(tab);
        std::vector<std::string> names, kinds;
        for (const auto& [number, thing] : tab.things()) {
            names.push_back(thing.file);
            kinds.push_back(thing.kind);
        }
        CHECK(
            names
            == std::vector<std::string>{"mine.toml", "mine-2.toml", "", "wrong.toml", "rast.file"});
        CHECK(kinds[0] == "scale");
        CHECK(kinds[2] == "pitches");
        CHECK(kinds[3].empty());
        CHECK(kinds[4] == "pitches");
        CHECK(tab.bytes() == 29 + 12 + 19 + 12);
        tab.drop(tab.things().begin()->first);
        CHECK(tab.things().size() == 4);
        CHECK(support::name_of(support::error_of([&] { tab.thing(999); })) == "desk_unknown");
        CHECK(support::name_of(support::error_of([&] { tab.keep(999); })) == "desk_unknown");
    }
    CHECK_FALSE(std::filesystem::exists(folder / "tab"));
}

TEST_CASE("Limit: things and answers of one page of the desk") {
    using namespace sectio;
    const support::TempDir folder;
    Tab tab(folder / "tab");
    const auto known = [&](int number) { return !support::error_of([&] { tab.asking(number); }); };
    const int first = tab.put_text("3/2");
    for (std::size_t i = 1; i < limits::desk_answers; ++i)
        tab.put_text("3/2");
    CHECK(known(first));
    tab.put_text("3/2");
    CHECK_FALSE(known(first));
    while (tab.things().size() < limits::desk_things)
        tab.put_text("3/2");
    CHECK(support::name_of(support::error_of([&] { tab.put_text("3/2"); })) == "desk_full");
    CHECK(tab.things().size() == limits::desk_things);
}

TEST_CASE("A folder becomes an archive with all that is below it") {
    const support::TempDir folder;
    std::filesystem::create_directories(folder / "set" / "in");
    support::write_file(folder / "set" / "a.txt", "a");
    support::write_file(folder / "set" / "in" / "b.txt", "b");
    zip_folder(folder / "set", folder / "set.zip");
    const std::string bytes = support::read_file(folder / "set.zip");
    CHECK(bytes.starts_with("PK\x03\x04"));
    CHECK(bytes.find("set/a.txt") != std::string::npos);
    CHECK(bytes.find("set/in/b.txt") != std::string::npos);
    CHECK(
        support::name_of(support::error_of([&] { zip_folder(folder / "set", folder / "set.zip"); }))
        == "zip_not_written");
}

TEST_CASE("The desk ends by itself when nothing was heard for long") {
    CHECK(DeskOptions().idle == std::chrono::minutes(sectio::limits::desk_idle_minutes));
    const auto began = std::chrono::steady_clock::now();
    const pid_t child = fork();
    if (child == 0) {
        DeskOptions options;
        options.port = 0;
        options.idle = 300ms;
        options.run = [](const auto&, const auto&) { return 0; };
        options.opened = [](const std::string&, const std::string&) {};
        keep_desk(options);
        _exit(std::chrono::steady_clock::now() - began < 300ms ? 1 : 0);
    }
    int status = 0;
    waitpid(child, &status, 0);
    CHECK(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(std::chrono::steady_clock::now() - began < 30s);
}
