#include <support/paths.hpp>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace support {

std::optional<fs::path> shared_dir() {
    const char* set = std::getenv("SECTIO_SHARED");
    const fs::path dir = set != nullptr ? fs::path(set) : source_dir().parent_path() / "shared";
    return fs::is_directory(dir) ? std::optional(dir) : std::nullopt;
}

std::optional<fs::path> corpus_dir(const std::string& name) {
    const auto shared = shared_dir();
    if (!shared || !fs::is_directory(*shared / "corpus" / name))
        return std::nullopt;
    return *shared / "corpus" / name;
}

std::string read_file(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    if (!in)
        throw std::runtime_error("cannot read " + file.string());
    std::ostringstream content;
    content << in.rdbuf();
    return content.str();
}

void write_file(const fs::path& file, const std::string& content) {
    std::ofstream out(file, std::ios::binary);
    out << content;
    if (!out.flush())
        throw std::runtime_error("cannot write " + file.string());
}

TempDir::TempDir() {
    std::string pattern = (fs::temp_directory_path() / "sectio-test-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr)
        throw std::runtime_error("cannot make a temporary folder");
    path_ = pattern;
}

TempDir::~TempDir() {
    std::error_code ignored;
    fs::permissions(path_, fs::perms::owner_all, fs::perm_options::add, ignored);
    fs::remove_all(path_, ignored);
}

} // namespace support
