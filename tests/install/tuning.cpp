// A scale as messages of the MIDI Tuning Standard.
#include <sectio/scale/catalogue.hpp>
#include <sectio/tuning/retuning.hpp>

#include <iostream>

int main() {
    const auto rast = sectio::tuned(sectio::Catalogue::installed().scale("rast"), {.tonic = "D4"});
    std::cout << sectio::tuning::tuning_bytes(rast);
}
