// The frequencies of a scale of the catalogue on D4.
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <iostream>

int main() {
    const auto rast = sectio::tuned(sectio::Catalogue::installed().scale("rast"), {.tonic = "D4"});
    for (const auto& degree : rast.degrees())
        std::cout << degree.note.text() << ' ' << degree.pitch.hertz() << '\n';
}
