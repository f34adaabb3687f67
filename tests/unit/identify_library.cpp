// What a library knows of its scales once is what would be found each time.

#include <sectio/identify/identify.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/reading.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <random>

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

TEST_CASE("Of scales of the same pitches a library looks at one, those of few degrees first") {
    const ScaleLibrary& whole = ScaleLibrary::installed();
    const ScaleLibrary part = whole.among({"arab"});
    for (const ScaleLibrary* library : {&whole, &part}) {
        std::vector<std::size_t> numbers, wanted;
        std::size_t degrees = 0;
        for (const std::size_t i : library->different()) {
            const LibraryScale& scale = library->scales()[i];
            CHECK(scale.degrees.size() >= degrees);
            degrees = scale.degrees.size();
            numbers.push_back(scale.pitches);
        }
        for (const LibraryScale& scale : library->scales())
            wanted.push_back(scale.pitches);
        std::sort(numbers.begin(), numbers.end());
        std::sort(wanted.begin(), wanted.end());
        wanted.erase(std::unique(wanted.begin(), wanted.end()), wanted.end());
        CHECK(numbers == wanted);
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
