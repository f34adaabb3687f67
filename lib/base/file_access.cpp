#include <sectio/base/file_access.hpp>

#include <algorithm>
#include <optional>
#include <string_view>

namespace sectio {

namespace {

namespace fs = std::filesystem;

/// The folders that were handed over; nothing where all may be read.
std::optional<std::vector<fs::path>>& allowed_folders() {
    static std::optional<std::vector<fs::path>> folders;
    return folders;
}

} // namespace

bool lies_in(const fs::path& file, const fs::path& folder) {
    return std::mismatch(folder.begin(), folder.end(), file.begin(), file.end()).first
           == folder.end();
}

void read_only_within(const std::vector<fs::path>& folders) {
    std::vector<fs::path> allowed;
    allowed.reserve(folders.size());
    for (const fs::path& folder : folders)
        allowed.push_back(fs::canonical(folder));
    allowed_folders() = std::move(allowed);
}

bool may_read(const fs::path& file) {
    if (!allowed_folders())
        return true;
    std::error_code failed;
    const fs::path followed = fs::weakly_canonical(fs::absolute(file), failed);
    return !failed
           && std::any_of(allowed_folders()->begin(), allowed_folders()->end(),
                          [&](const fs::path& folder) { return lies_in(followed, folder); });
}

bool is_file(const fs::path& name) {
    std::error_code ignored;
    return fs::is_regular_file(name, ignored) && may_read(name);
}

bool names_a_file(const std::string& text) {
    constexpr std::string_view endings[]{".toml", ".csv", ".tsv", ".json", ".txt"};
    return is_file(text)
           || std::any_of(std::begin(endings), std::end(endings),
                          [&](std::string_view ending) { return text.ends_with(ending); });
}

} // namespace sectio
