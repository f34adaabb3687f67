// The pitch of a stiff string from its partials: the model, its errors, and what lies off it.

#include <sectio/measure/statistics.hpp>
#include <sectio/measure/string_model.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using namespace sectio::measure;

namespace {

constexpr double variance_cents2 = 0.25;

double cents(double hz, double of_hz) {
    return 1200 * std::log2(hz / of_hz);
}

PartialFrequency moved(PartialFrequency partial, double by_cents) {
    partial.hz *= std::exp2(by_cents / 1200);
    return partial;
}

/// Partials of a string of 220 Hz by Fletcher's formula, each known to half a cent.
std::vector<PartialFrequency> partials_of_string(int count, double inharmonicity) {
    std::vector<PartialFrequency> partials;
    for (int n = 1; n <= count; ++n) {
        const double hz = 220 * n * std::sqrt(1 + inharmonicity * n * n);
        partials.push_back({n, hz, variance_cents2 * std::pow(hz * std::log(2) / 1200, 2), 1});
    }
    return partials;
}

} // namespace

TEST_CASE("A stiff string's first partial and inharmonicity are found from exact partials") {
    const double b = GENERATE(0.0, 1e-5, 3e-4, 2e-3);
    const StringFit fit = fit_string(partials_of_string(12, b));
    CHECK(fit.inharmonicity == Approx(b).margin(2e-6).epsilon(0.01));
    CHECK(std::abs(cents(fit.first_partial_hz, 220 * std::sqrt(1 + b))) < 0.05);
    CHECK(fit.scatter_cents == 0);
    CHECK(fit.freedom == 0);
    CHECK(fit.used == 12);
}

TEST_CASE("The first partial's variance is what the partials' own errors make of it") {
    const int count = GENERATE(3, 6, 20);
    const auto partials = partials_of_string(count, 2e-4);
    const StringFit fit = fit_string(partials);
    double first = 0, inharmonicity = 0;
    for (std::size_t i = 0; i < partials.size(); ++i) {
        auto others = partials;
        others[i] = moved(others[i], 0.01);
        const StringFit by = fit_string(others);
        first += std::pow(cents(by.first_partial_hz, fit.first_partial_hz) / 0.01, 2);
        inharmonicity += std::pow((by.inharmonicity - fit.inharmonicity) / 0.01, 2);
    }
    CHECK(fit.variance_cents2 == Approx(first * variance_cents2).epsilon(0.02));
    CHECK(fit.inharmonicity_deviation
          == Approx(std::sqrt(inharmonicity * variance_cents2)).epsilon(0.02));
}

TEST_CASE("Partials that lie off the model add the scatter that accounts for them") {
    // At right angles to both unknowns (1 and n²), so that neither the pitch nor B can take them.
    const double off[] = {3, -4.8, 1.8, -2.2, 4, -1.8};
    auto partials = partials_of_string(6, 0);
    double sum2 = 0;
    for (std::size_t i = 0; i < partials.size(); ++i) {
        partials[i] = moved(partials[i], off[i]);
        sum2 += off[i] * off[i];
    }
    const StringFit fit = fit_string(partials);
    // Paule and Mandel: Σ d²/(v + s²) = 6 - 2.
    CHECK(fit.scatter_cents == Approx(std::sqrt(sum2 / 4 - variance_cents2)).epsilon(1e-4));
    CHECK(fit.freedom == 4);
    CHECK(fit.used == 6);
    CHECK(std::abs(cents(fit.first_partial_hz, 220)) < 0.01);
    const StringFit still = fit_string(partials_of_string(6, 0));
    const double by_scatter = still.variance_cents2 * (sum2 / 4) / variance_cents2;
    CHECK(fit.variance_cents2 > 0.95 * by_scatter);
    CHECK(fit.variance_cents2 < 2 * by_scatter); // what leaving each out says may be more
}

TEST_CASE("A strong partial that lies aside draws the pitch no further than is stated") {
    const double off[] = {1.5, 0.3, -0.5, 0.3, 0.2, -0.5, 0.5, -0.3, 0.4, -0.4, 0.3, -0.2};
    auto partials = partials_of_string(12, 0);
    for (std::size_t i = 0; i < partials.size(); ++i) {
        partials[i] = moved(partials[i], off[i]);
        partials[i].variance_hz2 /= 100;
        partials[i].power = i == 0 ? 1 : 0.01;
    }
    const StringFit fit = fit_string(partials);
    const double drawn = cents(fit.first_partial_hz, 220);
    CHECK(fit.used == 12);
    CHECK(drawn > 0.7);
    CHECK(student_95(fit.freedom) * std::sqrt(fit.variance_cents2) > drawn);
}

TEST_CASE("Scatter within what chance allows adds nothing") {
    auto partials = partials_of_string(6, 0);
    const double off[] = {3, -4.8, 1.8, -2.2, 4, -1.8}; // χ² is 237.4 k², of four degrees 9.49
    const double k = GENERATE(0.15, 0.199, 0.201, 0.25);
    for (std::size_t i = 0; i < partials.size(); ++i)
        partials[i] = moved(partials[i], k * off[i]);
    CHECK((fit_string(partials).scatter_cents > 0) == (k > 0.2));
}

TEST_CASE("A weak partial's scatter counts less than a strong one's") {
    auto partials = partials_of_string(6, 0);
    const double off[] = {0, 0, 9, -9, 9, -9};
    for (std::size_t i = 0; i < partials.size(); ++i) {
        partials[i] = moved(partials[i], off[i]);
        partials[i].power = off[i] == 0 ? 1 : 1e-4;
    }
    CHECK(std::abs(cents(fit_string(partials).first_partial_hz, 220)) < 1.5);
    for (auto& p : partials)
        p.power = 1;
    CHECK(std::abs(cents(fit_string(partials).first_partial_hz, 220)) > 1.5);
}

TEST_CASE("A partial of another sound is left out, alone") {
    const std::size_t stray = GENERATE(0u, 3u, 7u);
    auto partials = partials_of_string(8, 1e-4);
    partials[stray] = moved(partials[stray], 40);
    const StringFit fit = fit_string(partials);
    CHECK(fit.used == 7);
    CHECK(fit.scatter_cents == 0);
    CHECK(std::abs(cents(fit.first_partial_hz, 220 * std::sqrt(1 + 1e-4))) < 0.1);
}

TEST_CASE("Of four partials none is left out, and one is taken as it is") {
    auto four = partials_of_string(4, 0);
    four[3] = moved(four[3], 40);
    CHECK(fit_string(four).used == 4);
    const StringFit one = fit_string(partials_of_string(1, 0));
    CHECK(one.used == 1);
    CHECK(one.first_partial_hz == Approx(220));
    CHECK(one.freedom == 0);
    CHECK(fit_string({}).used == 0);
}

TEST_CASE("Student's t and chi-squared are the tables' figures") {
    // Tables of any handbook of statistics, e.g. NIST/SEMATECH e-Handbook, 1.3.6.7.2 and 1.3.6.7.4.
    CHECK(student_95(1) == Approx(12.706).epsilon(1e-4));
    CHECK(student_95(4) == Approx(2.776).epsilon(1e-3));
    CHECK(student_95(30) == Approx(2.042).epsilon(1e-3));
    CHECK(student_95(0) == Approx(1.96).epsilon(1e-3));
    CHECK(chance_chi2(1) == Approx(3.841).epsilon(1e-3));
    CHECK(chance_chi2(4) == Approx(9.488).epsilon(1e-3));
}
