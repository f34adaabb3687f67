// What a library knows of its scales once is what would be found each time.

#include <sectio/identify/identify.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/reading.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

using namespace sectio;

namespace {

const std::vector<LibraryScale>& all_scales() {
    return ScaleLibrary::installed().scales();
}

const Scale& exact(const LibraryScale& scale) {
    return *scale.entry.scale();
}

} // namespace

TEST_CASE("Scales have the same number where they have exactly the same pitches") {
    std::size_t same = 0;
    for (const LibraryScale& a : all_scales())
        for (const LibraryScale& b : all_scales()) {
            if (a.degrees.size() != b.degrees.size() || a.degrees.size() > 12)
                continue;
            CAPTURE(a.entry.id, b.entry.id);
            const bool equal = same_pitches(exact(a), 0, exact(b));
            CHECK((a.pitches == b.pitches) == equal);
            same += equal ? 1 : 0;
        }
    CHECK(same > all_scales().size()); // some others than the scales themselves
}

TEST_CASE("After how many degrees a scale begins anew is what its intervals say") {
    for (const LibraryScale& scale : all_scales()) {
        if (scale.degrees.size() > 60)
            continue;
        CAPTURE(scale.entry.id);
        std::size_t by = 1;
        while (by < scale.degrees.size() && !same_pitches(exact(scale), by, exact(scale)))
            ++by;
        CHECK(scale.repeats_after == by);
    }
}

TEST_CASE("The degree nearest to a height is no farther than any other") {
    std::mt19937 random(1);
    std::uniform_real_distribution<double> heights(-5000, 5000);
    for (const LibraryScale& scale : all_scales())
        for (int i = 0; i < 50; ++i) {
            const double cents = i == 0 ? 0 : i == 1 ? scale.period : heights(random);
            CAPTURE(scale.entry.id, cents);
            double least = 1e9;
            for (const double degree : scale.degrees)
                least = std::min(least, scale.period > 0
                                            ? std::abs(std::remainder(cents - degree, scale.period))
                                            : std::abs(cents - degree));
            CHECK(std::abs(scale.nearest(cents).above) == Approx(least).margin(1e-9));
        }
}

TEST_CASE("A degree that is held while the height moves is the one that a search finds") {
    std::mt19937 random(2);
    for (const LibraryScale& scale : all_scales()) {
        LibraryScale::Held held;
        double cents = -2000;
        for (int i = 0; i < 500; ++i) {
            cents += std::uniform_real_distribution<double>(-5, 18)(random);
            if (i % 10 == 0)
                cents = scale.degrees[static_cast<std::size_t>(i) % scale.degrees.size()];
            CAPTURE(scale.entry.id, cents);
            const double above = scale.above(cents, held);
            const LibraryScale::Nearest near = scale.nearest(cents);
            if (above != near.above || held.degree != near.degree)
                FAIL_CHECK(above << " of degree " << held.degree);
        }
    }
}

TEST_CASE("Scales have the same cycle where one is a rotation of the other") {
    std::size_t rotations = 0;
    for (const LibraryScale& a : all_scales())
        for (const LibraryScale& b : all_scales()) {
            if (a.degrees.size() != b.degrees.size() || a.degrees.size() > 12)
                continue;
            CAPTURE(a.entry.id, b.entry.id);
            std::size_t by = 0;
            while (by < a.degrees.size() && !same_pitches(exact(a), by, exact(b)))
                ++by;
            CHECK((a.cycle == b.cycle) == (by < a.degrees.size()));
            if (a.cycle == b.cycle)
                CHECK((a.turned + by) % a.repeats_after == b.turned);
            rotations += a.cycle == b.cycle && a.turned != b.turned ? 1 : 0;
        }
    CHECK(rotations > 100);
}

TEST_CASE("A library lays one of all rotations on a set, those of few degrees first") {
    const ScaleLibrary& whole = ScaleLibrary::installed();
    const ScaleLibrary part = whole.among({"arab"});
    for (const ScaleLibrary* library : {&whole, &part}) {
        std::size_t degrees = 0, scales = 0;
        std::set<std::size_t> cycles;
        for (const auto& rotations : library->different()) {
            const LibraryScale& laid = library->scales()[rotations.front().scale];
            CHECK(laid.degrees.size() >= degrees);
            degrees = laid.degrees.size();
            CHECK(cycles.insert(laid.cycle).second);
            scales += rotations.size();
            for (const auto& [scale, by] : rotations)
                CHECK((degrees > 60
                       || same_pitches(exact(laid), by, exact(library->scales()[scale]))));
        }
        CHECK(scales == library->scales().size());
    }
}

TEST_CASE("What is said of one scale is the evidence added up over all its places") {
    constexpr double spread = 5, stray = 0.05, step = 0.25;
    const std::vector<double> pitches{3, 201, 396, 509, 698, 903, 1102};
    std::string text;
    for (const double cents : pitches)
        text += fmt::format("{}{}c", text.empty() ? "" : ", ", cents - pitches[0]);
    IdentifyOptions options;
    options.tonic.kind = KnownTonic::Kind::free;
    options.spread = spread;
    for (const char* id : {"equal-12", "pythagorean-12", "whole-tone", "major"}) {
        CAPTURE(id);
        const ScaleLibrary library({*Catalogue::installed().find(id)});
        const LibraryScale& scale = library.scales()[0];
        const auto count = static_cast<double>(scale.degrees.size());
        double evidence = 0;
        for (double shift = 0; shift < 1200; shift += step) {
            double likelihood = step / 1200;
            std::set<std::size_t> used;
            for (const double pitch : pitches) {
                const auto near = scale.nearest(pitch - shift);
                const double core = (1 - stray) * 1200 / count / spread / std::sqrt(2 * M_PI)
                                    * std::exp(-near.above * near.above / (2 * spread * spread));
                likelihood *= core + stray;
                if (core > stray)
                    used.insert(near.degree);
            }
            for (std::size_t i = 0; i < scale.degrees.size(); ++i) // drawn once each, or missed
                likelihood *= i < used.size() ? count / (count - static_cast<double>(i)) : 0.5;
            evidence += likelihood;
        }
        const double none = 7.0 / 6; // the odds
        CHECK(identify(to_melody(parse_pitches(text)), library, options).none_probability
              == Approx(none / (none + evidence)).epsilon(0.02));
    }
}

TEST_CASE("Names alone are those of the whole answer") {
    for (const char* pitches : {"203c, 386c, 498c, 702c, 906c, 1088c", "9/8, 5/4, 4/3, 3/2, 5/3",
                                "190c, 290c, 505c, 700c, 880c, 1001c", "37c, 411c, 730c"}) {
        CAPTURE(pitches);
        const Melody melody = to_melody(parse_pitches(pitches));
        IdentifyOptions options;
        const Identification whole = identify(melody, ScaleLibrary::installed(), options);
        options.names_alone = true;
        const Identification names = identify(melody, ScaleLibrary::installed(), options);
        CHECK(names.verdict == whole.verdict);
        CHECK(names.none_probability == whole.none_probability);
        REQUIRE(names.candidates.size() == whole.candidates.size());
        for (std::size_t i = 0; i < names.candidates.size(); ++i) {
            CHECK(names.candidates[i].scale == whole.candidates[i].scale);
            CHECK(names.candidates[i].probability == whole.candidates[i].probability);
            CHECK(names.candidates[i].start_degree == whole.candidates[i].start_degree);
            CHECK(names.candidates[i].namesakes == whole.candidates[i].namesakes);
        }
    }
}
