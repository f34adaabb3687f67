// Which scales account for some measured pitches.
#include <sectio/identify/identify.hpp>
#include <sectio/scale/reading.hpp>

#include <iostream>

int main() {
    const auto pitches =
        sectio::parse_pitches("0c, 204±4c, 386±4c, 498±4c, 702±4c, 884±4c, 1088±4c");
    const auto& library = sectio::ScaleLibrary::installed();
    const auto answer = sectio::identify(sectio::to_melody(pitches), library);
    std::cout << sectio::text(answer.verdict) << '\n';
    for (const auto& candidate : answer.candidates)
        std::cout << candidate.scale->entry.id << ' ' << candidate.probability << '\n';
}
