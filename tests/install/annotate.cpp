// MusicXML in, the same with each note's deviation out, all in memory.
#include <sectio/score/annotation.hpp>
#include <sectio/score/tuning.hpp>

#include <iostream>
#include <iterator>

int main() {
    const auto rast = sectio::Catalogue::installed().find("rast");
    const auto tuning = sectio::score::tuning_by_scale(*rast->scale(), "D4");
    const std::string score{std::istreambuf_iterator<char>(std::cin), {}};
    std::cout << sectio::score::annotated(score, *tuning);
}
