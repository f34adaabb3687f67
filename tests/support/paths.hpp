#pragma once
/// @file
/// Where tests find the tree, the built program and the shared corpus.

#include <filesystem>
#include <iostream>
#include <optional>
#include <string>

namespace support {

namespace fs = std::filesystem;

inline fs::path source_dir() {
    return SECTIO_SOURCE_DIR;
}
inline fs::path data_dir() {
    return SECTIO_DATA_DIR;
}
inline fs::path build_dir() {
    return SECTIO_BUILD_DIR;
}
/// The built command.
inline fs::path sectio_binary() {
    return SECTIO_BINARY;
}

/// The folder of large inputs that stay outside the project: $SECTIO_SHARED, else `shared` beside
/// the checkout, else nothing.
std::optional<fs::path> shared_dir();
/// `corpus/NAME` of it, where it exists.
std::optional<fs::path> corpus_dir(const std::string& name);

/// The whole file; the test fails where it cannot be read.
std::string read_file(const fs::path& file);
void write_file(const fs::path& file, const std::string& content);

/// A folder that is removed with its content when the object goes.
class TempDir {
  public:
    TempDir();
    ~TempDir();
    TempDir(const TempDir&) = delete;
    TempDir& operator=(const TempDir&) = delete;
    const fs::path& path() const { return path_; }
    fs::path operator/(const fs::path& name) const { return path_ / name; }

  private:
    fs::path path_;
};

} // namespace support

/// Ends the test case as skipped: `SECTIO_SKIP("gp is not installed")`. ctest counts it apart.
#define SECTIO_SKIP(reason)                                                                        \
    do {                                                                                           \
        std::cout << "SKIPPED: " << (reason) << std::endl;                                         \
        return;                                                                                    \
    } while (false)
