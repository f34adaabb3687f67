// MusicXML in, the same with each note's deviation out, all in memory.
#include <sectio/score/annotation.hpp>

#include <iostream>
#include <iterator>

int main() {
    const auto rast = sectio::tuned(sectio::Catalogue::installed().scale("rast"), {.tonic = "D4"});
    const std::string score{std::istreambuf_iterator<char>(std::cin), {}};
    std::cout << sectio::score::annotated(score, rast);
}
