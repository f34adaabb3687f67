// The path through the candidates of frames: what a frame alone decides.

#include <sectio/measure/pitch_path.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using namespace sectio::measure;

namespace {

Frame frame(std::initializer_list<PitchCandidate> candidates) {
    Frame frame;
    for (const PitchCandidate& c : candidates)
        frame.candidates[frame.count++] = c;
    frame.level = 0.01F;
    return frame;
}

/// What a path of like frames decides of the first.
float decided(const Frame& frame) {
    PitchPath path(4);
    for (int i = 0; i < 5; ++i)
        path.push(frame);
    return path.finish()->hz;
}

} // namespace

TEST_CASE("Of two pitches as clear the higher one is heard, in whatever order they come") {
    CHECK(decided(frame({{440, 0.95F}, {220, 0.95F}})) == 440);
    CHECK(decided(frame({{220, 0.95F}, {440, 0.95F}})) == 440);
    // An octave is worth 0.015 of clarity, no more.
    CHECK(decided(frame({{220, 0.95F}, {440, 0.94F}})) == 440);
    CHECK(decided(frame({{220, 0.95F}, {440, 0.92F}})) == 220);
}

TEST_CASE("A frame without a clear pitch has none") {
    CHECK(decided(frame({{220, 0.1F}})) == 0);
    CHECK(decided(frame({})) == 0);
}

TEST_CASE("Two short notes a fifth apart are not heard at their common multiple period") {
    const Frame low = frame({{274, 0.99F}, {137, 0.985F}}),
                both = frame({{137, 0.95F}, {274, 0.6F}, {411, 0.6F}}),
                high = frame({{411, 0.99F}, {137, 0.985F}});
    PitchPath path(7);
    for (const Frame& frame :
         {low, low, low, low, low, both, both, both, both, high, high, high, high, high})
        path.push(frame);
    std::vector<float> heard;
    while (const auto decided = path.finish())
        heard.push_back(decided->hz);
    CHECK(std::count(heard.begin(), heard.end(), 274) >= 5);
    CHECK(std::count(heard.begin(), heard.end(), 411) >= 5);
}

TEST_CASE("Notes of a few frames are not heard at the common multiple of all their periods") {
    const Frame low = frame({{482, 0.99F}, {120.5F, 0.985F}}),
                both = frame({{120.5F, 0.95F}, {482, 0.6F}, {602.5F, 0.6F}}),
                high = frame({{602.5F, 0.99F}, {120.5F, 0.985F}});
    std::vector<Frame> frames(5, low);
    for (int i = 0; i < 3; ++i)
        frames.insert(frames.end(), {both, both, high, high, high, both, both, low, low, low});
    PitchPath path(4);
    for (const Frame& frame : frames)
        path.push(frame);
    std::vector<float> heard;
    while (const auto decided = path.finish())
        heard.push_back(decided->hz);
    CHECK(std::count(heard.begin(), heard.end(), 602.5F) >= 9);
    CHECK(std::count(heard.begin(), heard.end(), 482) >= 14);
}
