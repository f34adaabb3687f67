// The pitch of a buffer of samples: here a string of 220.5 Hz with four partials.
#include <sectio/measure/recording.hpp>

#include <cmath>
#include <iostream>
#include <numbers>

int main() {
    constexpr int rate = 44'100;
    std::vector<float> samples(2 * rate);
    for (std::size_t i = 0; i < samples.size(); ++i)
        for (const double partial : {1, 2, 3, 4})
            samples[i] += static_cast<float>(
                0.2 / partial
                * std::sin(2 * std::numbers::pi * partial * 220.5 * static_cast<double>(i) / rate));
    for (const auto& note : sectio::measure::listen(samples, rate, "buffer").notes)
        std::cout << note.pitch.hz << " Hz ± " << note.pitch.half_width_cents << " cents\n";
}
