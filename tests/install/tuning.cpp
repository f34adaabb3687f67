// A scale as messages of the MIDI Tuning Standard.
#include <sectio/scale/catalogue.hpp>
#include <sectio/tuning/retuning.hpp>

#include <iostream>

int main() {
    const auto rast = sectio::Catalogue::installed().find("rast");
    std::cout << sectio::tuning::tuning_bytes(sectio::tuned(*rast->scale(), {.tonic = "D4"}));
}
