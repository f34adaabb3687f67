#include <sectio/base/shared_library.hpp>
#include <sectio/desk/messages.hpp>
#include <sectio/desk/zip.hpp>

#include <zip.h>

#include <set>

namespace sectio::desk {

namespace {

/// What is called of libzip.
struct Zipper {
    SharedLibrary library{SECTIO_LIBZIP, message::zip_library_missing};
    decltype(&zip_open) open = library["zip_open"];
    decltype(&zip_source_file) source_file = library["zip_source_file"];
    decltype(&zip_file_add) add = library["zip_file_add"];
    decltype(&zip_close) close = library["zip_close"];
};

std::set<std::filesystem::path> files_below(const std::filesystem::path& folder) {
    std::set<std::filesystem::path> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (entry.is_regular_file())
            files.insert(entry.path());
    return files;
}

} // namespace

void zip_folder(const std::filesystem::path& folder, const std::filesystem::path& archive) {
    const Zipper zip;
    int trouble = 0;
    zip_t* out = zip.open(archive.c_str(), ZIP_CREATE | ZIP_EXCL, &trouble);
    const auto failed = [&] { return error(message::zip_not_written, "", {archive.string()}); };
    if (!out)
        throw failed();
    for (const std::filesystem::path& file : files_below(folder)) {
        const std::string name = file.lexically_relative(folder.parent_path()).generic_string();
        if (zip.add(out, name.c_str(), zip.source_file(out, file.c_str(), 0, -1), ZIP_FL_ENC_UTF_8)
            < 0)
            throw failed();
    }
    if (zip.close(out) != 0)
        throw failed();
}

} // namespace sectio::desk
