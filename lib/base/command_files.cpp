#include <sectio/base/command_files.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/messages.hpp>

#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <utility>
#include <vector>

namespace sectio {

namespace {

using Node = std::pair<dev_t, ino_t>;

Node node_of(const struct stat& found) {
    return {found.st_dev, found.st_ino};
}

/// What a file is known by: itself where it exists, and its place where it is or will be, which is
/// a name in a folder, or a whole path as long as there is no folder.
struct Identity {
    std::optional<Node> file, folder;
    std::string name;

    bool is(const Identity& other) const {
        return (file && file == other.file)
               || (!name.empty() && folder == other.folder && name == other.name);
    }
};

/// Nothing for a device, a pipe or a folder.
std::optional<Identity> identity_of(const std::filesystem::path& path) {
    const std::filesystem::path target = followed(path);
    const std::filesystem::path parent = target.parent_path();
    struct stat found {};
    Identity identity{{}, {}, target.filename().string()};
    if (stat(target.c_str(), &found) == 0) {
        if (!S_ISREG(found.st_mode))
            return std::nullopt;
        identity.file = node_of(found);
    }
    if (stat(parent.empty() ? "." : parent.c_str(), &found) == 0)
        identity.folder = node_of(found);
    else
        identity.name = std::filesystem::weakly_canonical(target).string();
    return identity;
}

std::optional<Identity> identity_of(int descriptor) {
    struct stat found {};
    if (fstat(descriptor, &found) != 0 || !S_ISREG(found.st_mode))
        return std::nullopt;
    return Identity{node_of(found), {}, ""};
}

/// Files that are told apart as Identity::is() does.
class Identities {
  public:
    void add(const Identity& identity) {
        if (identity.file)
            files_.insert(*identity.file);
        if (!identity.name.empty())
            places_.emplace(identity.folder, identity.name);
    }
    bool hold(const Identity& identity) const {
        return (identity.file && files_.contains(*identity.file))
               || (!identity.name.empty() && places_.contains({identity.folder, identity.name}));
    }

  private:
    std::set<Node> files_;
    std::set<std::pair<std::optional<Node>, std::string>> places_;
};

struct Output {
    Identity identity;
    std::string name;
    bool begun = false;
};

} // namespace

struct CommandFiles::Known {
    std::mutex telling;
    Identities inputs;
    std::vector<Output> outputs;
    bool standard_output_taken = false;

    Output* find(const Identity& identity) {
        const auto found = std::find_if(outputs.begin(), outputs.end(), [&](const Output& output) {
            return output.identity.is(identity);
        });
        return found == outputs.end() ? nullptr : &*found;
    }

    /// @throws Error output_is_input, outputs_are_one
    void add_output(const Identity& identity, const std::string& name, bool begun) {
        const std::lock_guard lock(telling);
        if (inputs.hold(identity))
            throw error(message::output_is_input, "", {name});
        Output* const output = find(identity);
        if (output && (output->begun || !begun))
            throw error(message::outputs_are_one, "", {name});
        if (output)
            output->begun = true;
        else
            outputs.push_back({identity, name, begun});
    }

    /// @throws Error output_is_input
    void add_input(const Identity& identity) {
        const std::lock_guard lock(telling);
        if (const Output* const output = find(identity))
            throw error(message::output_is_input, "", {output->name});
        inputs.add(identity);
    }
};

namespace {

std::unique_ptr<CommandFiles::Known>& current() {
    static std::unique_ptr<CommandFiles::Known> known;
    return known;
}

} // namespace

CommandFiles::CommandFiles() : outer_(std::exchange(current(), std::make_unique<Known>())) {
    const std::pair<int, const char*> streams[]{{STDOUT_FILENO, "standard output"},
                                                {STDERR_FILENO, "standard error"}};
    for (const auto& [descriptor, name] : streams)
        if (const auto identity = identity_of(descriptor))
            current()->outputs.push_back({*identity, name, true});
}

CommandFiles::~CommandFiles() {
    current() = std::move(outer_);
}

void will_write(const std::filesystem::path& file) {
    if (!current() || file.empty())
        return;
    if (is_standard_output(file)) {
        if (std::exchange(current()->standard_output_taken, true))
            throw error(message::outputs_are_one, "", {"standard output"});
        return;
    }
    if (const auto identity = identity_of(file))
        current()->add_output(*identity, file.string(), false);
}

bool is_standard_output(const std::filesystem::path& file) {
    return file.stem() == "-" && !file.has_parent_path();
}

bool standard_output_is_taken() {
    return current() && current()->standard_output_taken;
}

void begins_to_write(const std::filesystem::path& file) {
    if (!current())
        return;
    if (const auto identity = identity_of(file))
        current()->add_output(*identity, file.string(), true);
}

void has_written(const std::filesystem::path& file) {
    if (!current())
        return;
    const auto identity = identity_of(file); // another file now, in the place of the old one
    if (!identity)
        return;
    const std::lock_guard lock(current()->telling);
    if (Output* const output = current()->find(*identity))
        output->identity = *identity;
}

void reads(const std::filesystem::path& file) {
    if (!current())
        return;
    if (const auto identity = identity_of(file))
        current()->add_input(*identity);
}

void reads_standard_input() {
    if (!current())
        return;
    if (const auto identity = identity_of(STDIN_FILENO))
        current()->add_input(*identity);
}

std::filesystem::path followed(std::filesystem::path name) {
    constexpr int most_links = 40; // as the Linux kernel has it
    std::error_code failed;
    for (int i = 0; i < most_links && std::filesystem::is_symlink(name, failed); ++i) {
        const auto target = std::filesystem::read_symlink(name, failed);
        name = target.is_absolute() ? target : name.parent_path() / target;
    }
    if (std::filesystem::is_symlink(name, failed))
        throw error(message::cannot_write, "", Place{name.string()}, std::strerror(ELOOP));
    return name;
}

} // namespace sectio
