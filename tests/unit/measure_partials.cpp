// Which peaks are the partials of one string, and how stiff it is.

#include <sectio/measure/partials.hpp>

#include <catch2/catch.hpp>

#include <cmath>

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

} // namespace

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
