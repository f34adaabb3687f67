#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/base/messages.hpp>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>
#include <memory>
#include <random>
#include <utility>

namespace sectio {

namespace {

Error system_error(Message id, const std::filesystem::path& file) {
    return error(id, "", Place{file.string()}, std::strerror(errno));
}

/// The file that `name` stands for once every symbolic link is followed, also one to a file that is
/// yet to be written.
std::filesystem::path followed(std::filesystem::path name) {
    constexpr int most_links = 40; // as the Linux kernel has it
    std::error_code failed;
    for (int i = 0; i < most_links && std::filesystem::is_symlink(name, failed); ++i) {
        const auto target = std::filesystem::read_symlink(name, failed);
        name = target.is_absolute() ? target : name.parent_path() / target;
    }
    if (std::filesystem::is_symlink(name, failed)) {
        errno = ELOOP;
        throw system_error(message::cannot_write, name);
    }
    return name;
}

/// A new file beside `target`, with the rights that any new file gets, and its name.
int create_beside(const std::filesystem::path& target, std::string& name) {
    std::random_device random;
    int descriptor = -1;
    do {
        name = target.string() + fmt::format(".{:08x}", random());
        descriptor = open(name.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    } while (descriptor < 0 && errno == EEXIST);
    return descriptor;
}

/// A temporary file that is removed unless it was renamed into place.
class Temporary {
  public:
    explicit Temporary(std::filesystem::path target) : target_(std::move(target)) {
        descriptor_ = create_beside(target_, name_);
        if (descriptor_ < 0) {
            name_.clear();
            throw system_error(message::cannot_write, target_);
        }
    }
    Temporary(const Temporary&) = delete;
    Temporary& operator=(const Temporary&) = delete;
    ~Temporary() {
        if (descriptor_ >= 0)
            close(descriptor_);
        if (!name_.empty())
            unlink(name_.c_str());
    }

    bool write(std::string_view bytes) {
        while (!bytes.empty()) {
            const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
            if (written < 0 && errno == EINTR)
                continue;
            if (written < 0)
                return false;
            bytes.remove_prefix(static_cast<std::size_t>(written));
        }
        return true;
    }

    /// Puts the file, once it is on the disk, in the place of its target, whose rights it takes.
    bool put_in_place() {
        struct stat old;
        const bool keeps_rights =
            stat(target_.c_str(), &old) != 0 || fchmod(descriptor_, old.st_mode & 07777) == 0;
        if (!keeps_rights || fsync(descriptor_) != 0 || close(std::exchange(descriptor_, -1)) != 0
            || std::rename(name_.c_str(), target_.c_str()) != 0)
            return false;
        name_.clear();
        return true;
    }

  private:
    std::filesystem::path target_;
    std::string name_;
    int descriptor_ = -1;
};

} // namespace

std::string_view without_byte_order_mark(std::string_view text) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    if (text.starts_with(mark))
        text.remove_prefix(mark.size());
    return text;
}

std::string read_whole(const std::filesystem::path& file, std::size_t most_bytes) {
    if (!may_read(file))
        throw error(message::file_not_given, "", Place{file.string()});
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> in(std::fopen(file.c_str(), "rb"),
                                                             std::fclose);
    if (!in)
        throw system_error(message::cannot_read, file);
    std::string bytes;
    struct stat known;
    if (fstat(fileno(in.get()), &known) == 0 && S_ISREG(known.st_mode) && known.st_size > 0) {
        if (static_cast<std::size_t>(known.st_size) > most_bytes)
            throw error(message::file_too_large, "", Place{file.string()}, most_bytes);
        bytes.reserve(static_cast<std::size_t>(known.st_size));
    }
    char block[1 << 16];
    while (const std::size_t count = std::fread(block, 1, sizeof block, in.get())) {
        bytes.append(block, count);
        if (bytes.size() > most_bytes)
            throw error(message::file_too_large, "", Place{file.string()}, most_bytes);
    }
    if (std::ferror(in.get()))
        throw system_error(message::cannot_read, file);
    return bytes;
}

namespace {

/// Devices such as /dev/stdout cannot be replaced; they are written to as they are.
void write_device(const std::filesystem::path& file,
                  const std::function<void(const Sink&)>& produce) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> out(std::fopen(file.c_str(), "wb"),
                                                              std::fclose);
    if (!out)
        throw system_error(message::cannot_write, file);
    produce([&](std::string_view bytes) {
        if (std::fwrite(bytes.data(), 1, bytes.size(), out.get()) != bytes.size())
            throw system_error(message::cannot_write, file);
    });
    if (std::fflush(out.get()) != 0)
        throw system_error(message::cannot_write, file);
}

} // namespace

std::string read_whole(std::istream& input, const std::string& name, std::size_t most_bytes) {
    std::string text;
    char block[1 << 14];
    while (text.size() <= most_bytes && (input.read(block, sizeof block) || input.gcount() > 0))
        text.append(block, static_cast<std::size_t>(input.gcount()));
    if (text.size() > most_bytes)
        throw error(message::file_too_large, "", Place{name}, most_bytes);
    if (&input == &std::cin && std::ferror(stdin)) // a directory, say; the stream does not tell
        throw system_error(message::cannot_read, name);
    return text;
}

void write_whole(const std::filesystem::path& file, const std::function<void(const Sink&)>& produce,
                 const std::filesystem::path& input) {
    std::error_code ignored;
    if (!input.empty() && std::filesystem::equivalent(file, input, ignored))
        throw error(message::output_is_input, "", Place{file.string()});
    if (std::filesystem::exists(file, ignored) && !std::filesystem::is_regular_file(file, ignored))
        return write_device(file, produce);
    Temporary temporary(followed(file));
    std::string waiting; // small pieces go to the disk together
    const auto flush = [&] {
        if (!temporary.write(waiting))
            throw system_error(message::cannot_write, file);
        waiting.clear();
    };
    constexpr std::size_t block = 1 << 18;
    produce([&](std::string_view bytes) {
        waiting += bytes;
        if (waiting.size() >= block)
            flush();
    });
    flush();
    if (!temporary.put_in_place())
        throw system_error(message::cannot_write, file);
}

void write_whole(const std::filesystem::path& file, std::string_view bytes,
                 const std::filesystem::path& input) {
    write_whole(
        file, [&](const Sink& sink) { sink(bytes); }, input);
}

} // namespace sectio
