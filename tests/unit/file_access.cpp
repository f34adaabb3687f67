// A process that has bounded itself reads nothing outside its folders, by no way.

#include <sectio/base/file.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/data_places.hpp>
#include <sectio/score/document.hpp>
#include <sectio/source/source.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include <functional>
#include <vector>

using namespace sectio;

namespace {

/// What `act` says in a process of its own, which is bounded for good.
bool holds_when_bounded(const std::filesystem::path& folder, const std::function<bool()>& act) {
    const pid_t child = fork();
    if (child == 0) {
        std::vector<std::filesystem::path> open_to_it = data_places();
        open_to_it.push_back(folder);
        read_only_within(open_to_it);
        _exit(act() ? 0 : 1);
    }
    int status = 0;
    waitpid(child, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

bool refused(const std::function<void()>& act) {
    return support::name_of(support::error_of(act)) == "file_not_given";
}

} // namespace

TEST_CASE("Files outside the folders are refused by every reader") {
    const support::TempDir own, other;
    support::write_file(own / "in.toml", "name = \"x\"\ndegrees = [\"9/8\"]\n");
    support::write_file(other / "out.toml", "name = \"x\"\ndegrees = [\"9/8\"]\n");
    std::filesystem::create_symlink(other / "out.toml", own / "link.toml");
    const std::string in = (own / "in.toml").string(), out = (other / "out.toml").string();
    CHECK(is_file(in));
    CHECK(is_file(out));
    CHECK(holds_when_bounded(own.path(),
                             [&] { return is_file(in) && !read_whole(in, 100).empty(); }));
    for (const std::string& name :
         {out, (own / "link.toml").string(),
          (own.path() / ".." / other.path().filename() / "out.toml").string(),
          std::string("/etc/passwd"), own.path().string() + "-not/x"})
        CHECK(holds_when_bounded(own.path(), [&] {
            return !is_file(name) && refused([&] { read_whole(name, 1000); })
                   && refused([&] { score::read_document(name); })
                   && refused([&] { measure::SoundFile sound(name); })
                   && support::error_of([&] { source::open(name); });
        }));
    CHECK(holds_when_bounded(own.path(), [] {
        return !read_whole(data_directory() / "sources.toml", 1 << 20).empty();
    }));
}
