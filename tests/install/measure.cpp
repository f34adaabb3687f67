// The pitch of a buffer of samples: here a sawtooth of 220.5 Hz.
#include <sectio/measure/recording.hpp>

#include <cmath>
#include <iostream>

int main() {
    constexpr int rate = 44'100;
    std::vector<float> samples(2 * rate);
    for (std::size_t i = 0; i < samples.size(); ++i)
        samples[i] = static_cast<float>(std::remainder(220.5 * static_cast<double>(i) / rate, 1));
    for (const auto& note : sectio::measure::listen(samples, rate, "buffer").notes)
        std::cout << note.pitch.hz << " Hz ± " << note.pitch.half_width_cents << " cents\n";
}
