// Which peaks are the partials of one string, and how stiff it is.

#include <sectio/measure/partials.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace sectio::measure;

namespace {

/// The set found among the partials of 110 Hz with inharmonicity `b`, where the spectrum is so
/// coarse that a partial is taken wherever it is nearest.
PartialSet found(double b, int partials = 5) {
    std::vector<Peak> peaks;
    for (int n = 1; n <= partials; ++n)
        peaks.push_back({110 * n * std::sqrt(1 + b * n * n), 1.0 / n, 40});
    NoteSpectra spectra;
    spectra.rate = 48000, spectra.window = 480, spectra.band_hz = 5000;
    return best_partials(peaks, spectra, 110);
}

struct Sine {
    double hz, db;
};

/// The set found in these sines, with noise 60 dB below the strongest.
PartialSet found_in(const std::vector<Sine>& sines, double about_hz) {
    constexpr double rate = 22050;
    std::mt19937_64 random(3);
    std::normal_distribution<double> normal;
    std::vector<float> sound(22050);
    for (std::size_t i = 0; i < sound.size(); ++i) {
        double value = 1e-3 * normal(random);
        for (const Sine& sine : sines)
            value += std::pow(10, sine.db / 20)
                     * std::sin(2 * M_PI * sine.hz * static_cast<double>(i) / rate + sine.hz);
        sound[i] = static_cast<float>(value);
    }
    SpectrumMaker maker;
    const NoteSpectra spectra = maker.spectra(sound, rate, 8000, about_hz);
    return best_partials(peaks_of(spectra), spectra, about_hz);
}

} // namespace

TEST_CASE("A weak fundamental in its place is the note's, one that is off rings on") {
    // An oboe's lowest partials, as far as their levels go; the rest lies 16 dB below.
    const auto set = [](double off_cents, double db) {
        const double odd = 500 * std::exp2(off_cents / 1200);
        return found_in({{odd, db - 17},
                         {1000, 0},
                         {3 * odd, db - 22},
                         {2000, -23},
                         {5 * odd, db - 27},
                         {3000, -25}},
                        1000);
    };
    CHECK(set(0, 0).fundamental_hz == Approx(500).epsilon(1e-3));
    CHECK(set(0.05, 0).fundamental_hz == Approx(500).epsilon(1e-3));
    CHECK(set(4, 0).fundamental_hz == Approx(1000).epsilon(1e-3));
    CHECK(set(4, 4).fundamental_hz == Approx(1000).epsilon(1e-3));
    CHECK(set(-4, 10).fundamental_hz == Approx(500).epsilon(1e-2)); // nearly as loud
    CHECK(set(0, -6).fundamental_hz == Approx(1000).epsilon(1e-3));
}

TEST_CASE("A string that rings a fifth below makes no note of a common fundamental") {
    const PartialSet set = found_in({{196, -11},
                                     {294, 0},
                                     {392, -14},
                                     {588, -2},
                                     {784, -18},
                                     {882, -3},
                                     {1176, -6},
                                     {1470, -10}},
                                    98);
    CHECK(set.fundamental_hz == Approx(294).epsilon(1e-3));
}

TEST_CASE("Inharmonicity is found up to a fiftieth, from four partials on") {
    for (const double b : {0.0, 0.001, 0.01, 0.0199}) {
        CAPTURE(b);
        const PartialSet set = found(b);
        CHECK(set.partials.size() == 5);
        CHECK(set.holes == 0);
        CHECK(set.inharmonicity == Approx(b).margin(1e-9));
        CHECK(set.fundamental_hz == Approx(110));
    }
    CHECK(found(0.0201).inharmonicity == 0); // no string is so stiff
    CHECK(found(0.01, 3).inharmonicity == 0);
    CHECK(found(0.01, 4).inharmonicity == Approx(0.01));
}
