// Where the notes of a track begin and end.

#include <sectio/measure/note_sieve.hpp>
#include <sectio/measure/note_spans.hpp>

#include <catch2/catch.hpp>

#include <vector>

using namespace sectio::measure;

namespace {

std::vector<NoteSpan> spans_of(const std::vector<TrackFrame>& track) {
    NoteSpans spans(1000);
    std::vector<NoteSpan> found;
    for (const TrackFrame& frame : track)
        if (const auto span = spans.push(frame))
            found.push_back(*span);
    while (const auto span = spans.finish())
        found.push_back(*span);
    return found;
}

/// Six frames of a note, those where it passes into the next one, and three of that, which is
/// louder by more than 5 dB than where they meet.
std::vector<TrackFrame> struck_after(const std::vector<TrackFrame>& meeting, float next_hz) {
    std::vector<TrackFrame> track(6, TrackFrame{200, 1, 0.02F});
    track.insert(track.end(), meeting.begin(), meeting.end());
    track.insert(track.end(), 3, TrackFrame{next_hz, 1, 0.03F});
    return track;
}

} // namespace

TEST_CASE("What has the pitch of a struck note before it has grown belongs to it") {
    const auto spans = spans_of(struck_after({{200, 0.9F, 0.006F}, {224, 0.9F, 0.008F}}, 224.3F));
    REQUIRE(spans.size() == 2);
    CHECK(spans[0].last == 7);
    CHECK(spans[1].first == 7);
    CHECK(spans[1].struck);
    CHECK(spans[1].track.size() == 4);
}

TEST_CASE("What has the pitch of neither note stays where it is") {
    for (const float stray : {310.0F, 212.0F, 0.0F}) {
        CAPTURE(stray);
        const auto spans =
            spans_of(struck_after({{200, 0.9F, 0.006F}, {stray, 0.6F, 0.008F}}, 224));
        REQUIRE(spans.size() == 2);
        CHECK(spans[1].first == 8);
        CHECK(spans[1].struck);
    }
    // Nor does a note that is struck again begin earlier.
    const auto again = spans_of(struck_after({{200, 0.9F, 0.006F}, {200, 0.9F, 0.008F}}, 200));
    REQUIRE(again.size() == 2);
    CHECK(again[1].first == 8);
}

TEST_CASE(
    "A piece of a glide keeps no pitch, a short note does, and what two notes share does not") {
    constexpr double step_s = 0.025;
    CHECK(keeps_pitch({{433, 0.8F, 1}, {440, 1, 1}, {440.3F, 0.9F, 1}, {446, 0.7F, 1}}, step_s));
    CHECK_FALSE(keeps_pitch({{433, 1, 1}, {440, 1, 1}, {447, 1, 1}, {454, 1, 1}}, step_s));
    CHECK_FALSE(keeps_pitch({{88, 0.87F, 1}, {88, 0.87F, 1}, {88, 0.87F, 1}}, step_s));
    CHECK_FALSE(keeps_pitch({{440, 1, 1}}, step_s));
}
