// Melodies of Turkish makam music, note by note in commas as they are written (the column commaAE
// of the data set's note tables). The makam is what the file's name says. Nothing in the model was
// fitted to these pieces; docs/identification.md tells what is known of its figures.

#include "support/paths.hpp"

#include <sectio/identify/identify.hpp>
#include <sectio/scale/reading.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <sstream>

using namespace sectio;

namespace {

std::vector<std::string> cells(const std::string& line) {
    std::vector<std::string> row;
    std::istringstream input(line);
    for (std::string cell; std::getline(input, cell, '\t');)
        row.push_back(cell);
    return row;
}

/// "huseyni--sarki--…" is a piece in Hüseynî; the catalogue's id differs for one of them.
std::string label_of(const std::filesystem::path& file) {
    const std::string name = file.filename().string();
    const std::string label = name.substr(0, name.find("--"));
    return label == "nihavent" ? "nihavend" : label;
}

/// The collection's table under our own headings: the written comma, and the duration as a
/// fraction; grace notes have none.
std::string in_our_columns(const std::filesystem::path& file) {
    std::ifstream input(file);
    std::string line, text = "written_commas\tduration\tindex\n";
    std::getline(input, line);
    std::vector<std::string> header = cells(line);
    const auto column = [&](const std::string& name) {
        return static_cast<std::size_t>(std::find(header.begin(), header.end(), name)
                                        - header.begin());
    };
    const std::size_t commas = column("commaAE"), num = column("num"), den = column("den");
    for (std::size_t index = 0; std::getline(input, line); ++index) {
        const auto row = cells(line);
        const bool grace = row.at(den) == "0";
        text += row.at(commas) + "\t" + (grace ? "0" : row.at(num) + "/" + row.at(den)) + "\t"
                + std::to_string(index) + "\n";
    }
    return text;
}

std::size_t rank_of(const std::string& id, const Identification& answer) {
    const auto at = std::find_if(answer.candidates.begin(), answer.candidates.end(),
                                 [&](const Candidate& c) { return c.scale->entry.id == id; });
    return static_cast<std::size_t>(at - answer.candidates.begin()) + 1;
}

} // namespace

TEST_CASE("Makam pieces are named by theory alone") {
    const auto folder = support::corpus_dir("symbtr");
    if (!folder)
        SECTIO_SKIP("the corpus symbtr is not here");
    std::size_t pieces = 0, first = 0, among_three = 0;
    for (const auto& item : std::filesystem::directory_iterator(*folder)) {
        if (item.path().extension() != ".tsv")
            continue;
        const Melody melody = read_table(in_our_columns(item.path()), item.path().string());
        const Identification answer = identify(melody, ScaleLibrary::installed());
        const std::string label = label_of(item.path());
        const std::size_t rank = rank_of(label, answer);
        std::cout << label << ": place " << rank << ", first "
                  << answer.candidates.front().scale->entry.id << " "
                  << answer.candidates.front().probability << "\n";
        ++pieces;
        first += rank == 1 ? 1 : 0;
        among_three += rank <= 3 ? 1 : 0;
    }
    std::cout << first << " first, " << among_three << " among three, of " << pieces << "\n";
    REQUIRE(pieces > 0);
    CHECK(10 * first >= 9 * pieces); // nine in ten, the aim that published trained models reach
    CHECK(among_three >= first);
}
