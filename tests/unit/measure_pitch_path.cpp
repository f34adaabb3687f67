// The path through the candidates of frames: what a frame alone decides.

#include <sectio/measure/pitch_path.hpp>

#include <catch2/catch.hpp>

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
    PitchPath path;
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
