// make_index FOLDER FILE: the index of the catalogue's TOML, which the build puts beside the
// program so that commands start at once.

#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue_index.hpp>

#include <fmt/format.h>

#include <cstdio>

int main(int argc, char** argv) {
    if (argc != 3) {
        fmt::print(stderr, "usage: make_index FOLDER FILE\n");
        return 2;
    }
    try {
        sectio::write_whole(argv[2], sectio::make_index(sectio::catalogue_files(argv[1]), argv[1]));
    } catch (const std::exception& e) {
        fmt::print(stderr, "make_index: {}\n", e.what());
        return 3;
    }
    return 0;
}
