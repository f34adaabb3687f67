// The partials of a sound, one by one: bells, bars and strings whose partials are known.

#include "support/tones.hpp"

#include <sectio/measure/hearing_page.hpp>
#include <sectio/print/print.hpp>

#include <catch2/catch.hpp>
#include <support/json.hpp>

#include <algorithm>
#include <cmath>

using namespace sectio::measure;

namespace {

constexpr double rate = 22050;

struct Known {
    double ratio, level_db, decay_db_s;
};

/// The partials of a bell, beside its prime: hum, prime, tierce, quint, nominal (A. Lehr, "Partial
/// groups in the bell sound", Journal of the Acoustical Society of America 79, 1986; from memory).
const std::vector<Known> bell{{0.5, -6, 3}, {1, -4, 6}, {1.2, 0, 8}, {1.5, -15, 12}, {2, -2, 15}};
/// Of a bar with free ends (Lord Rayleigh, "The Theory of Sound", 1877, § 170ff.; from memory).
const std::vector<Known> bar{{1, 0, 6}, {2.756, -8, 20}, {5.404, -14, 45}};

std::vector<float> sounding(const std::vector<Known>& partials, double hz, double seconds) {
    std::vector<float> sound(static_cast<std::size_t>(seconds * rate));
    for (std::size_t i = 0; i < sound.size(); ++i)
        for (const Known& p : partials) {
            const double t = static_cast<double>(i) / rate;
            sound[i] += static_cast<float>(0.2 * std::pow(10, (p.level_db - p.decay_db_s * t) / 20)
                                           * std::sin(2 * M_PI * hz * p.ratio * t + p.ratio));
        }
    return sound;
}

Recording heard(const std::vector<float>& sound, bool partials = true) {
    auto noise = support::noise(static_cast<double>(sound.size()) / rate + 0.3, rate);
    for (float& value : noise)
        value *= 1e-4F;
    return listen(support::mixed({support::joined({support::silence(0.3, rate), sound}), noise}),
                  static_cast<int>(rate), "sound", {.find_drone = false, .partials = partials});
}

void check_partials(const std::vector<SoundingPartial>& found, const std::vector<Known>& known,
                    double hz) {
    REQUIRE(found.size() == known.size());
    for (std::size_t i = 0; i < known.size(); ++i) {
        CAPTURE(known[i].ratio);
        CHECK(std::abs(1200 * std::log2(found[i].hz / hz / known[i].ratio)) < 0.02);
        CHECK(found[i].half_width_cents < 0.02);
        CHECK(found[i].level_db
              == Approx(known[i].level_db).margin(1.5)); // 30 ms of attack are left out
        REQUIRE(found[i].decay);
        CHECK(found[i].decay->db_s == Approx(known[i].decay_db_s).margin(0.5));
        CHECK(found[i].decay->half_width < 0.03);
    }
}

nlohmann::json json(const Recording& recording) {
    return support::json_of(print_json(partials_page({recording}, sectio::Pitch::concert_a()), {}));
}

} // namespace

TEST_CASE("Of a bell the partials are listed, and no pitch is claimed") {
    const std::vector<float> sound = sounding(bell, 415.3, 3);
    CHECK_THROWS(heard(sound, false));
    const Recording recording = heard(sound);
    CHECK(recording.notes.empty());
    REQUIRE(recording.unpitched);
    check_partials(recording.unpitched->partials, bell, 415.3);
    const auto page = json(recording);
    CHECK(page["sounds"][0]["hz"].is_null());
    REQUIRE(page["partials"].size() == 5);
    CHECK(page["partials"][2]["number"].is_null());
    CHECK(std::stod(page["partials"][2]["ratio"].get<std::string>())
          == Approx(2.4).margin(1e-5)); // of the lowest
    CHECK(page["remarks"].size() == 1);
}

TEST_CASE("A bar and a string have their partials listed beside their pitch") {
    const Recording struck = heard(sounding(bar, 523.25, 1.5));
    REQUIRE(struck.notes.size() == 1);
    check_partials(struck.notes[0].partials, bar, 523.25);
    CHECK(struck.notes[0].partials[0].number == 1);
    CHECK(struck.notes[0].partials[1].number == 0);
    std::vector<Known> string;
    constexpr double b = 2e-4;
    for (int n = 1; n <= 10; ++n)
        string.push_back({n * std::sqrt((1 + b * n * n) / (1 + b)), -3.0 * (n - 1), 3.0 + n});
    const Recording plucked = heard(sounding(string, 146.83, 2.5));
    REQUIRE(plucked.notes.size() == 1);
    check_partials(plucked.notes[0].partials, string, 146.83);
    for (int n = 1; n <= 10; ++n)
        CHECK(plucked.notes[0].partials[static_cast<std::size_t>(n) - 1].number == n);
    const auto page = json(plucked);
    CHECK(page["sounds"][0]["note"] == "D3");
    CHECK(page["partials"][9]["number"] == 10);
}

TEST_CASE("The partials of a vibrato are the means of their swings") {
    std::vector<float> sound(static_cast<std::size_t>(2 * rate));
    double phase = 0;
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double t = static_cast<double>(i) / rate;
        phase += 2 * M_PI * 330 / rate * std::exp2(20 * std::sin(2 * M_PI * 5.5 * t) / 1200);
        for (int n = 1; n <= 8; ++n)
            sound[i] += static_cast<float>(0.1 / n * std::sin(n * phase));
    }
    const Recording recording = heard(sound);
    REQUIRE(recording.notes.size() == 1);
    const auto& partials = recording.notes[0].partials;
    REQUIRE(partials.size() == 8);
    for (const SoundingPartial& partial : partials) {
        CAPTURE(partial.number, partial.hz);
        const double cents = 1200 * std::log2(partial.hz / 330 / partial.number);
        CHECK(std::abs(cents) < std::max(3.0, partial.half_width_cents));
    }
}

TEST_CASE("What wanders through a semitone and more has no pitch") {
    // Three partials of no common series, as of a gong: their common period is a low, unsteady one.
    const std::vector<Known> gong{{1, -3, 4},    {1.52, 0, 5},   {2.03, -5, 6},
                                  {2.76, -8, 9}, {3.61, -9, 12}, {4.33, -15, 14}};
    const std::vector<float> sound = sounding(gong, 97.3, 4);
    CHECK_THROWS(heard(sound, false));
    const Recording recording = heard(sound);
    REQUIRE(recording.unpitched);
    CHECK(recording.unpitched->partials.size() == gong.size());
}
