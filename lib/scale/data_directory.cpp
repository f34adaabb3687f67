#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/messages.hpp>

#include <cstdlib>
#include <vector>

namespace sectio {

std::filesystem::path data_directory() {
    namespace fs = std::filesystem;
    std::vector<fs::path> places;
    if (const char* given = std::getenv("SECTIO_DATA"))
        return given;
    std::error_code failed;
    const fs::path program = fs::read_symlink("/proc/self/exe", failed);
    if (!failed)
        places.push_back(program.parent_path() / ".." / "share" / "sectio");
    places.emplace_back(SECTIO_SOURCE_DATA);
    places.emplace_back(SECTIO_INSTALLED_DATA);
    for (const fs::path& place : places)
        if (fs::is_directory(place / "catalogue", failed))
            return place;
    throw error(message::no_data, "", {});
}

} // namespace sectio
