// Which scales account for some measured pitches.
#include <sectio/identify/identify.hpp>
#include <sectio/scale/pitch_list.hpp>

#include <iostream>

int main() {
    const std::vector<double> cents{0, 204, 386, 498, 702, 884, 1088};
    const auto answer = sectio::identify(sectio::to_melody(sectio::pitches_of_cents(cents, 4)));
    std::cout << sectio::text(answer.verdict) << '\n';
    for (const auto& candidate : answer.candidates)
        std::cout << candidate.scale->entry.id << ' ' << candidate.probability << '\n';
}
