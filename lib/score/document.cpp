#include <sectio/base/command_files.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/score/document.hpp>
#include <sectio/score/insertion.hpp>
#include <sectio/score/messages.hpp>

#include <sys/stat.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>
#include <memory>

namespace sectio::score {

namespace {

struct Close {
    void operator()(std::FILE* file) const {
        if (file != stdin)
            std::fclose(file);
    }
};

Error too_large(const std::string& path) {
    return error(message::score_too_large, path, {}, limits::score_bytes >> 20);
}

/// The whole file in one block of its own size. Pipes have no size; they are read in steps.
std::string file_bytes(std::FILE* file, const std::string& path) {
    std::string bytes;
    struct stat known;
    if (fstat(fileno(file), &known) == 0 && S_ISREG(known.st_mode) && known.st_size > 0) {
        if (static_cast<std::size_t>(known.st_size) > limits::score_bytes)
            throw too_large(path);
        bytes.reserve(static_cast<std::size_t>(known.st_size) + 1);
    }
    constexpr std::size_t step = std::size_t{1} << 16;
    for (std::size_t got = step; got == step;) {
        const std::size_t old = bytes.size();
        if (old > limits::score_bytes)
            throw too_large(path);
        const std::size_t want = std::max(step, bytes.capacity() - old);
        bytes.resize(old + want);
        got = std::fread(bytes.data() + old, 1, want, file);
        bytes.resize(old + got);
        got = got == want ? step : 0;
    }
    return bytes;
}

std::string file_bytes(const std::string& path) {
    if (path != "-" && !may_read(path))
        throw error(message::file_not_given, path, {});
    if (path == "-")
        check_unread(std::cin, "standard input");
    path == "-" ? reads_standard_input() : reads(path);
    const std::unique_ptr<std::FILE, Close> file(path == "-" ? stdin
                                                             : std::fopen(path.c_str(), "rb"));
    const auto refuse = [&] {
        return error(message::score_unreadable, path, {}, std::strerror(errno));
    };
    if (!file)
        throw refuse();
    std::string bytes = file_bytes(file.get(), path == "-" ? "standard input" : path);
    if (std::ferror(file.get()) != 0)
        throw refuse();
    return bytes;
}

} // namespace

bool is_archive(std::string_view bytes) {
    return bytes.starts_with("PK\x03\x04") || bytes.starts_with("PK\x05\x06");
}

Document document_of(std::string bytes, std::string source) {
    if (bytes.empty())
        throw error(message::score_empty, source, {});
    Document document{source, std::move(bytes), std::nullopt};
    if (is_archive(document.bytes))
        document = unpack(std::move(document.bytes), source);
    auto [clean, count] = without_insertions(std::move(document.bytes), document.source);
    document.bytes = std::move(clean);
    document.earlier_texts = count;
    return document;
}

Document read_document(const std::string& path) {
    return document_of(file_bytes(path), path == "-" ? "standard input" : path);
}

} // namespace sectio::score
