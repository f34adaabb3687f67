// make_manual DOCS CATALOGUE FOLDER: the manual pages and the completion of the shells, made from
// the commands themselves, their pages in DOCS and the ids of the CATALOGUE.

#include "../arguments.hpp"
#include "../run.hpp"
#include "completion.hpp"
#include "man_page.hpp"

#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue.hpp>

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

namespace {

namespace fs = std::filesystem;
using namespace sectio::manual;

constexpr std::size_t most_document_bytes = 1 << 20;

void write_pages(const Command& all, const fs::path& docs, const fs::path& folder) {
    const std::string common = sectio::read_whole(docs / "commands.md", most_document_bytes);
    sectio::write_whole(folder / "sectio.1", man_page(all, common, ""));
    for (const Command& command : all.commands) {
        const std::string name = command.joined("-");
        const fs::path document = docs / "commands" / (name + ".md");
        sectio::write_whole(
            folder / ("sectio-" + name + ".1"),
            man_page(command, sectio::read_whole(document, most_document_bytes), common));
    }
}

/// Of what a scale may be named by.
std::vector<std::string> ids_of(const sectio::Catalogue& catalogue) {
    std::vector<std::string> ids;
    for (const sectio::Entry& entry : catalogue.all())
        if (entry.scale())
            ids.push_back(entry.id);
    return ids;
}

void write_all(const fs::path& docs, const fs::path& catalogue, const fs::path& folder) {
    CLI::App app(sectio::cli::purpose, "sectio");
    sectio::cli::Command commands(app);
    sectio::cli::add_commands(commands);
    const Command all = outline_of(app);
    const auto ids = ids_of(sectio::Catalogue(catalogue));
    fs::create_directories(folder);
    write_pages(all, docs, folder);
    sectio::write_whole(folder / "sectio.bash", bash_completion(all, ids));
    sectio::write_whole(folder / "_sectio", zsh_completion(all, ids));
    sectio::write_whole(folder / "sectio.fish", fish_completion(all, ids));
}

} // namespace

int main(int argc, char** argv) {
    if (argc != 4) {
        fmt::print(stderr, "usage: make_manual DOCS CATALOGUE FOLDER\n");
        return 2;
    }
    try {
        write_all(argv[1], argv[2], argv[3]);
    } catch (const std::exception& e) {
        fmt::print(stderr, "make_manual: {}\n", e.what());
        return 3;
    }
    return 0;
}
