// Histogram, tonic, pitch tracks, and pitches put together.

#include "support/errors.hpp"

#include <sectio/measure/heard_pitches.hpp>
#include <sectio/measure/pitch_track.hpp>
#include <sectio/measure/tonic.hpp>

#include <catch2/catch.hpp>

#include <cmath>

using namespace sectio::measure;

namespace {

RecordedNote note(double start_s, double cents, double half_width = 1) {
    RecordedNote result;
    result.start_s = start_s;
    result.end_s = start_s + 0.5;
    result.pitch.hz = 220 * std::exp2(cents / 1200);
    result.pitch.half_width_cents = half_width;
    return result;
}

Recording melody(const std::vector<double>& cents) {
    Recording recording;
    recording.name = "melody.wav";
    for (std::size_t i = 0; i < cents.size(); ++i)
        recording.notes.push_back(note(0.5 * static_cast<double>(i), cents[i]));
    return recording;
}

std::string trouble(const std::string& table) {
    return support::name_of(support::error_of([&] { read_pitch_track(table, "t.csv", 0.01); }));
}

} // namespace

TEST_CASE("Peaks of the histogram lie where the notes do, octaves folded or not") {
    const std::vector<SoundedPitch> sounded = {{6000, 1}, {6003, 1}, {6204, 3}, {7404, 1}};
    const auto peaks = PitchHistogram(sounded, false).peaks();
    REQUIRE(peaks.size() == 3);
    CHECK(peaks[0].cents == Approx(6001.5).margin(0.1));
    CHECK(peaks[1].seconds == 3);
    const auto folded = PitchHistogram(sounded, true).peaks();
    REQUIRE(folded.size() == 2);
    CHECK(folded[1].cents == Approx(204).margin(0.1));
    CHECK(folded[1].seconds == 4);
    CHECK(PitchHistogram({}, true).peaks().empty());
}

TEST_CASE("A melody's tonic is where it comes to rest") {
    const Hearing hearing =
        hear({melody({702, 498, 386, 204, 0, 204, 386, 498, 386, 204, 386, 204, 0})});
    CHECK(hearing.tonic_basis == TonicBasis::melody);
    CHECK(hearing.tonic_hz == Approx(220));
    REQUIRE(hearing.pitches.size() == 5);
    CHECK(hear({melody({0, 204, 386, 498})}).tonic_basis == TonicBasis::scale_start);
    CHECK(hear({melody({498, 386, 204, 0})}).tonic_hz == Approx(220));
    CHECK(hear({melody({498, 386, 204, 0})}, 300).tonic_hz == 300);
}

TEST_CASE("Several notes of one pitch make one, no surer than they agree") {
    Recording recording = melody({0, 700, 0.4, 700, 0});
    for (RecordedNote& n : recording.notes)
        n.pitch.half_width_cents = 0.5;
    const Hearing agree = hear({recording});
    REQUIRE(agree.pitches.size() == 2);
    CHECK(agree.pitches[1].half_width_cents == Approx(0.5 / std::sqrt(2)).margin(1e-3));
    recording.notes[1].pitch.hz *= std::exp2(2.0 / 1200);
    CHECK(hear({recording}).pitches[1].half_width_cents > 10);
}

TEST_CASE("Degrees 2 or 3 cents apart are two where the notes are known so well") {
    const auto degrees = [](const std::vector<double>& cents, double half_width) {
        Recording recording = melody(cents);
        for (RecordedNote& n : recording.notes)
            n.pitch.half_width_cents = half_width;
        return hear({recording}).pitches.size();
    };
    for (const double apart : {2.0, 2.5, 3.0, 5.0, 12.0, 21.5, 30.0}) {
        CAPTURE(apart);
        CHECK(degrees({0, apart}, 0.01) == 2);
        CHECK(degrees({0, 204, 386, 386 + apart, 498, 702}, 0.01) == 6);
        CHECK(degrees({0, apart}, apart) == 1); // they may be one
    }
    // Up and down, with two pairs of degrees a comma apart: hills of two degrees tell no scatter.
    CHECK(degrees({0, 182, 204, 386, 407.5, 498, 498, 407.5, 386, 204, 182, 0}, 0.01) == 6);
    // A string that is plucked five times, and degrees that three hills show to scatter so far.
    CHECK(degrees({0, 0.9, 0.3, -0.6, 0.5}, 0.01) == 1);
    CHECK(degrees({0, 204, 386, 388.5, 206.5, 2.5}, 0.01) == 3);
    // Where three hills show that they scatter less, a cent is told apart.
    CHECK(degrees({0, 204, 386, 387, 498, 498.1, 204.1, 0.1}, 0.01) == 5);
}

TEST_CASE("Notes of different doubt are weighted, and their scatter is added to it") {
    // DerSimonian and Laird, "Meta-analysis in clinical trials", Controlled Clinical Trials 7
    // (1986): Q, the variance between and the mean, computed beside with Python.
    const auto notes = [](double second, double third) {
        Recording recording = melody({0, second, third});
        const double half_widths[] = {1, 2, 4};
        for (std::size_t i = 0; i < 3; ++i)
            recording.notes[i].pitch.half_width_cents = half_widths[i];
        return hear({recording}, 110).pitches;
    };
    const auto far = notes(10, 4);
    REQUIRE(far.size() == 1);
    CHECK(far[0].hz == Approx(220 * std::exp2(4.651725822 / 1200)).epsilon(1e-9));
    CHECK(far[0].spread_cents == Approx(5.033256220).epsilon(1e-6));
    CHECK(far[0].half_width_cents == Approx(15.94301431).epsilon(1e-5));
    CHECK(far[0].seconds == Approx(1.5));
    const auto near = notes(0.5, 0.3); // Q = 0.2 of two degrees of freedom: chance
    REQUIRE(near.size() == 1);
    CHECK(near[0].hz == Approx(220 * std::exp2(0.109523810 / 1200)).epsilon(1e-9));
    CHECK(near[0].half_width_cents == Approx(0.872871561).epsilon(1e-6));
}

TEST_CASE("Pitch tracks are read with times or without") {
    const PitchTrack timed =
        read_pitch_track("time,hz\n0.00,220\n0.02,221\n0.04,0\n0.10,222\n", "t.csv", 0.01);
    CHECK(timed.step_s == Approx(0.02));
    CHECK(timed.hz == std::vector<float>{220, 221, 0, 0, 0, 222});
    const PitchTrack bare = read_pitch_track("220\n0\n221\n", "t.txt", 0.02);
    CHECK(bare.hz == std::vector<float>{220, 0, 221});
    CHECK(bare.step_s == 0.02);
    CHECK(trouble("0,220\n0.01,high\n") == "track_value");
    CHECK(trouble("0,220\n0.01,0.9\n") == "track_value");
    CHECK(trouble("0,220\n0.01,20001\n") == "track_value");
    CHECK(trouble("0,220\n,221\n") == "track_value");
    CHECK(trouble("0,220\n0.02,220\n0.01,220\n") == "track_order");
    CHECK(trouble("0,220\n0.01,-3\n") == "track_value");
    CHECK(trouble("0,0\n0.01,0\n") == "track_empty");
    CHECK(trouble("") == "track_empty");
    CHECK(trouble("0,220\n1e-9,220\n1e9,220\n") == "sound_too_long");
}

TEST_CASE("A pitch track's commas are decimal signs where something else separates") {
    const std::vector<float> hz = {220.5F, 0, 221};
    for (const char* table :
         {"0,00;220,5\n0,01;0;0,9\n0,02;221\n", "t\tf\n0,00\t220,5\n0,01\t0\n0,02\t221\t\n",
          "# by hand\ntime f0\n 0.00  220.5 \r\n0.01 0\r\n\n0.02 221\r\n",
          "\xEF\xBB\xBF"
          "0.00,220.5\n0.01, 0\n0.02,221,"}) {
        CAPTURE(table);
        const PitchTrack track = read_pitch_track(table, "t.csv", 1);
        CHECK(track.hz == hz);
        CHECK(track.step_s == Approx(0.01));
    }
    // Blanks would have to separate what commas separate too.
    CHECK(trouble("0,00 220,5\n0,01 221\n") == "track_value");
}
