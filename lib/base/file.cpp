#include <sectio/base/argument.hpp>
#include <sectio/base/command_files.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/temporary_file.hpp>

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>
#include <memory>

namespace sectio {

namespace {

Error system_error(Message id, const std::filesystem::path& file) {
    return error(id, "", Place{file.string()}, std::strerror(errno));
}

} // namespace

void make_folder(const std::filesystem::path& folder) {
    if (is_standard_output(folder))
        throw error(message::standard_output_no_folder, "", Place{folder.string()});
    std::error_code failed;
    std::filesystem::create_directories(folder, failed);
    if (failed || !std::filesystem::is_directory(folder, failed))
        throw error(message::cannot_write, "", Place{folder.string()},
                    failed ? failed.message() : std::strerror(ENOTDIR));
}

std::string_view without_byte_order_mark(std::string_view text) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    if (text.starts_with(mark))
        text.remove_prefix(mark.size());
    return text;
}

std::string read_whole(const std::filesystem::path& file, std::size_t most_bytes) {
    if (!may_read(file))
        throw error(message::file_not_given, "", Place{file.string()});
    reads(file);
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

void write_stream(std::FILE* out, const std::filesystem::path& file,
                  const std::function<void(const Sink&)>& produce) {
    produce([&](std::string_view bytes) {
        if (std::fwrite(bytes.data(), 1, bytes.size(), out) != bytes.size())
            throw system_error(message::cannot_write, file);
    });
    if (std::fflush(out) != 0)
        throw system_error(message::cannot_write, file);
}

/// Devices such as /dev/stdout cannot be replaced; they are written to as they are.
void write_device(const std::filesystem::path& file,
                  const std::function<void(const Sink&)>& produce) {
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> out(std::fopen(file.c_str(), "wb"),
                                                              std::fclose);
    if (!out)
        throw system_error(message::cannot_write, file);
    write_stream(out.get(), file, produce);
}

} // namespace

void check_unread(const std::istream& input, const std::string& name) {
    if (input.eof())
        throw error(message::standard_input_again, "", Place{name});
}

std::string read_whole(std::istream& input, const std::string& name, std::size_t most_bytes) {
    check_unread(input, name);
    if (&input == &std::cin)
        reads_standard_input();
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

void write_whole(const std::filesystem::path& file,
                 const std::function<void(const Sink&)>& produce) {
    check_function(produce, "what makes the bytes of a file");
    if (is_standard_output(file))
        return write_stream(stdout, "standard output", produce);
    begins_to_write(file);
    std::error_code ignored;
    if (std::filesystem::exists(file, ignored) && !std::filesystem::is_regular_file(file, ignored))
        return write_device(file, produce);
    TemporaryFile temporary(followed(file));
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
    has_written(file);
}

void write_whole(const std::filesystem::path& file, std::string_view bytes) {
    write_whole(file, [&](const Sink& sink) { sink(bytes); });
}

} // namespace sectio
