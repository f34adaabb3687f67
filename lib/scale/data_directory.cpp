#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/data_places.hpp>
#include <sectio/scale/messages.hpp>

#include <dlfcn.h>

#include <cstdlib>
#include <mutex>

namespace sectio {

namespace {

namespace fs = std::filesystem;

/// What set_data_directory() was given.
struct Chosen {
    std::mutex mutex;
    fs::path directory;
};
Chosen& chosen() {
    static Chosen& one = *new Chosen;
    return one;
}

bool holds_catalogue(const fs::path& place) {
    std::error_code failed;
    return fs::is_directory(place / "catalogue", failed);
}

/// share/sectio in the nearest folder above `file` that has it.
std::optional<fs::path> above(const fs::path& file) {
    std::error_code failed;
    for (fs::path folder = fs::canonical(file, failed); folder.has_relative_path();) {
        folder = folder.parent_path();
        if (holds_catalogue(folder / "share" / "sectio"))
            return folder / "share" / "sectio";
    }
    return std::nullopt;
}

/// The shared library, plug-in or program that this very function was linked into.
fs::path own_file() {
    Dl_info found{};
    return dladdr(reinterpret_cast<const void*>(&own_file), &found) != 0 ? found.dli_fname : "";
}

} // namespace

void set_data_directory(const fs::path& directory) {
    if (!holds_catalogue(directory))
        throw error(message::no_data, "", Place{directory.string()});
    const std::lock_guard lock(chosen().mutex);
    chosen().directory = directory;
}

std::optional<fs::path> find_data_directory() {
    {
        const std::lock_guard lock(chosen().mutex);
        if (!chosen().directory.empty())
            return chosen().directory;
    }
    if (const char* given = std::getenv("SECTIO_DATA"))
        return given;
    for (const fs::path& file : {own_file(), fs::path("/proc/self/exe")})
        if (auto place = above(file))
            return place;
    for (const char* place : {SECTIO_INSTALLED_DATA, SECTIO_BUILT_DATA})
        if (holds_catalogue(place))
            return place;
    return std::nullopt;
}

fs::path data_directory() {
    if (auto found = find_data_directory())
        return *found;
    throw error(message::no_data, "", {});
}

std::vector<fs::path> data_places() {
    std::vector<fs::path> places{data_directory()};
    for (const auto& entry : fs::directory_iterator(places.front()))
        if (entry.is_symlink() && entry.exists())
            places.push_back(fs::canonical(entry.path()));
    return places;
}

} // namespace sectio
