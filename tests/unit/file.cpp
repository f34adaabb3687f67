// Files are written whole or not at all, whatever stops the writing.

#include <sectio/base/command_files.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>

#include <support/errors.hpp>
#include <support/paths.hpp>
#include <sys/resource.h>
#include <sys/stat.h>

#include <csignal>
#include <sstream>

using namespace sectio;
using support::error_of;
using support::name_of;

namespace {

/// Files of this process can be no longer than so many bytes for as long as the object lives, as
/// on a disk that is full.
class FullDisk {
  public:
    explicit FullDisk(rlim_t bytes) : handler_(std::signal(SIGXFSZ, SIG_IGN)) {
        getrlimit(RLIMIT_FSIZE, &before_);
        const rlimit limit{bytes, before_.rlim_max};
        setrlimit(RLIMIT_FSIZE, &limit);
    }
    ~FullDisk() {
        setrlimit(RLIMIT_FSIZE, &before_);
        std::signal(SIGXFSZ, handler_);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;

  private:
    rlimit before_{};
    void (*handler_)(int);
};

std::size_t files_in(const support::TempDir& dir) {
    return static_cast<std::size_t>(std::distance(support::fs::directory_iterator(dir.path()), {}));
}

} // namespace

TEST_CASE("A full disk leaves the old file as it was and nothing beside it") {
    const support::TempDir dir;
    const auto file = dir / "old.txt";
    support::write_file(file, "old");
    const std::string bytes(70000, 'x'); // part of it finds room
    {
        const FullDisk full(4096);
        CHECK(name_of(error_of([&] { write_whole(file, bytes); })) == "cannot_write");
        CHECK(name_of(error_of([&] { write_whole(dir / "new.txt", bytes); })) == "cannot_write");
        write_whole(dir / "small.txt", std::string(4096, 'y'));
    }
    CHECK(support::read_file(file) == "old");
    CHECK(files_in(dir) == 2);
    write_whole(file, bytes);
    CHECK(support::read_file(file) == bytes);
}

TEST_CASE("A device that takes nothing is told") {
    const std::string bytes(100, 'x');
    CHECK(name_of(error_of([&] { write_whole("/dev/full", bytes); })) == "cannot_write");
    CHECK(name_of(error_of([] { write_whole("/dev/null", std::string(1 << 20, 'x')); }))
          == "no error");
}

TEST_CASE("Pieces arrive in their order, and a producer that fails leaves nothing") {
    const support::TempDir dir;
    std::string all;
    write_whole(dir / "pieces", [&](const Sink& sink) {
        for (int i = 0; i < 3000; ++i) {
            const std::string piece(static_cast<std::size_t>(i % 400), static_cast<char>(i));
            all += piece;
            sink(piece);
        }
    });
    CHECK(support::read_file(dir / "pieces") == all);
    CHECK_THROWS_AS(write_whole(dir / "half",
                                [](const Sink& sink) {
                                    sink(std::string(1 << 20, 'x'));
                                    throw std::runtime_error("stopped");
                                }),
                    std::runtime_error);
    CHECK(files_in(dir) == 1);
}

TEST_CASE("A replaced file keeps its permissions, a new one gets the usual ones") {
    const support::TempDir dir;
    const auto rights = [&](const char* name) {
        struct stat found {};
        REQUIRE(stat((dir / name).c_str(), &found) == 0);
        return found.st_mode & 07777;
    };
    const mode_t mask = umask(027);
    write_whole(dir / "new", "x");
    umask(mask);
    CHECK(rights("new") == 0640);
    chmod((dir / "new").c_str(), 0604);
    write_whole(dir / "new", "y");
    CHECK(rights("new") == 0604);
}

TEST_CASE("A link stays a link, also one that leads to no file yet, and a ring of links is told") {
    const support::TempDir dir;
    support::fs::create_directory(dir / "far");
    support::fs::create_symlink("far/target", dir / "link");
    support::fs::create_symlink(dir / "link", dir / "second");
    write_whole(dir / "second", "x");
    CHECK(support::fs::is_symlink(dir / "second"));
    CHECK(support::fs::is_symlink(dir / "link"));
    CHECK_FALSE(support::fs::is_symlink(dir / "far/target"));
    CHECK(support::read_file(dir / "far/target") == "x");
    support::fs::create_symlink("b", dir / "a");
    support::fs::create_symlink("a", dir / "b");
    CHECK(name_of(error_of([&] { write_whole(dir / "a", "x"); })) == "cannot_write");
}

TEST_CASE("While a command's files are known no output is an input, under any of its names") {
    const support::TempDir dir;
    support::write_file(dir / "input", "x");
    support::fs::create_symlink("input", dir / "link");
    support::fs::create_hard_link(dir / "input", dir / "twin");
    const auto refusal_of = [](auto act) { return name_of(error_of(act)); };
    {
        const CommandFiles files;
        read_whole(dir / "input", 9);
        for (const char* name : {"input", "link", "twin"})
            CHECK(refusal_of([&] { write_whole(dir / name, "y"); }) == "output_is_input");
        CHECK(refusal_of([&] { will_write(dir / "link"); }) == "output_is_input");
        write_whole(dir / "other", "y");
        CHECK(refusal_of([&] { read_whole(dir / "other", 9); }) == "output_is_input");
    }
    {
        const CommandFiles files; // whichever is said first
        will_write(dir / "twin");
        CHECK(refusal_of([&] { read_whole(dir / "link", 9); }) == "output_is_input");
        const CommandFiles inner; // of a command that another one runs
        CHECK(refusal_of([&] { read_whole(dir / "link", 9); }) == "no error");
    }
    CHECK(support::read_file(dir / "input") == "x");
    write_whole(dir / "input", "y"); // outside a command a program may do as it likes
    CHECK(support::read_file(dir / "input") == "y");
}

TEST_CASE("While a command's files are known no two outputs are one file") {
    const support::TempDir dir;
    support::fs::create_directory(dir / "sub");
    support::fs::create_symlink("new", dir / "way");
    const auto refusal_of = [](auto act) { return name_of(error_of(act)); };
    const CommandFiles files;
    will_write(dir / "new");
    for (const auto& name : {dir / "new", dir / "sub/../new", dir / "way"})
        CHECK(refusal_of([&] { will_write(name); }) == "outputs_are_one");
    write_whole(dir / "new", "x"); // which was announced
    CHECK(refusal_of([&] { write_whole(dir / "new", "y"); }) == "outputs_are_one");
    CHECK(refusal_of([&] { write_whole(dir / "way", "y"); }) == "outputs_are_one");
    will_write(dir / "later/a");
    CHECK(refusal_of([&] { will_write(dir / "later/./a"); }) == "outputs_are_one");
    for (int i = 0; i < 2; ++i)
        write_whole("/dev/null", "x");
    CHECK(support::read_file(dir / "new") == "x");
}

TEST_CASE("A file at its limit is read, one byte more is refused") {
    const support::TempDir dir;
    const std::string bytes(100000, 'x'); // more than a block
    support::write_file(dir / "file", bytes);
    CHECK(read_whole(dir / "file", bytes.size()) == bytes);
    CHECK(name_of(error_of([&] { read_whole(dir / "file", bytes.size() - 1); }))
          == "file_too_large");
    CHECK(name_of(error_of([&] { read_whole(dir / "none", 9); })) == "cannot_read");
    CHECK(name_of(error_of([&] { read_whole(dir.path(), 9); })) == "cannot_read");
    std::istringstream whole(bytes), longer(bytes);
    CHECK(read_whole(whole, "standard input", bytes.size()) == bytes);
    CHECK(name_of(error_of([&] { read_whole(longer, "standard input", bytes.size() - 1); }))
          == "file_too_large");
}

TEST_CASE("A place that is taken meanwhile is told, and nothing is left beside it") {
    const support::TempDir dir;
    const auto take_place = [&](const Sink& sink) {
        support::fs::create_directory(dir / "new");
        sink("x");
    };
    CHECK(name_of(error_of([&] { write_whole(dir / "new", take_place); })) == "cannot_write");
    CHECK(support::fs::is_directory(dir / "new"));
    CHECK(files_in(dir) == 1);
}
