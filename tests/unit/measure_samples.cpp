// Key and fraction of a recorded note. Middle C is key 60 of MIDI, 261.6256 Hz with A4 = 440 Hz;
// the fraction 0x80000000 is half a semitone (Microsoft, "New Multimedia Data Types and Data
// Techniques", 1994).

#include "support/errors.hpp"
#include "support/paths.hpp"
#include "support/tones.hpp"

#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/samples.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/load.hpp>

#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <tuple>

using namespace sectio;
using namespace sectio::measure;

namespace {

/// A note so many cents from middle C.
Sample sample(double cents, double half_width) {
    Recording recording;
    recording.name = "note.wav";
    RecordedNote note;
    note.end_s = 1;
    note.pitch.hz = 440 * std::exp2((cents - 900) / 1200);
    note.pitch.half_width_cents = half_width;
    recording.notes = {note};
    return sample_of(recording, Pitch::concert_a(), nullptr);
}

SamplerPitch tempered(const Sample& sample) {
    return *stored_pitch(sample, SampleSet::tempered, nullptr, Pitch::concert_a());
}

} // namespace

TEST_CASE("A fraction that rounds to a whole semitone is the next key") {
    struct Case {
        double cents, half_width;
        int key, digits;
        const char* fraction;
    };
    for (const Case& c : {Case{0, 0.001, 60, 2, "0.00"}, Case{40, 0.001, 60, 2, "40.00"},
                          Case{-0.006, 0.001, 59, 2, "99.99"}, Case{-0.004, 0.001, 60, 2, "0.00"},
                          Case{-0.3, 2, 60, 0, "0"}, Case{-0.6, 2, 59, 0, "99"},
                          Case{-0.03, 0.2, 60, 1, "0.0"}, Case{-0.06, 0.2, 59, 1, "99.9"}}) {
        CAPTURE(c.cents, c.half_width);
        const Sample found = sample(c.cents, c.half_width);
        CHECK(found.key == c.key);
        CHECK(found.above_key.cents(c.digits) == c.fraction);
    }
}

TEST_CASE(
    "A chunk stores the pitch itself, and only what is next to nothing below a key as the key") {
    CHECK(tempered(sample(50, 1)) == SamplerPitch{60, 0x80000000});
    CHECK(tempered(sample(-0.006, 1)).key == 59);
    CHECK(tempered(sample(-0.006, 1)).fraction / std::exp2(32) * 100 == Approx(99.994));
    CHECK(tempered(sample(-0.004, 1)) == SamplerPitch{60, 0});
}

TEST_CASE("Of several notes in a file the longest counts, wherever it stands") {
    Recording recording;
    recording.name = "two.wav";
    for (const auto& [begin, end, hz] :
         {std::tuple{0.0, 0.5, 300.0}, {0.5, 3.0, 400.0}, {3.0, 4.0, 500.0}}) {
        RecordedNote note;
        note.start_s = begin, note.end_s = end;
        note.pitch.hz = hz, note.pitch.half_width_cents = 1;
        recording.notes.push_back(note);
    }
    const Sample longest = sample_of(recording, Pitch::concert_a(), nullptr);
    CHECK(longest.pitch.hertz(1) == "400.0");
    CHECK(longest.remarks.size() == 1);
    recording.notes.resize(1);
    CHECK(sample_of(recording, Pitch::concert_a(), nullptr).remarks.empty());
}

TEST_CASE("Samples are copied under their names, and two of one name are refused") {
    const support::TempDir folder;
    std::filesystem::create_directories(folder / "a");
    std::filesystem::create_directories(folder / "b");
    std::vector<Sample> samples{sample(0, 1), sample(0, 1)};
    for (std::size_t i = 0; i < samples.size(); ++i) {
        samples[i].file = (folder / (i == 0 ? "a" : "b") / "note.wav").string();
        support::write_file(samples[i].file, support::wave_file(support::tone({.hz = 262}), 44100));
    }
    const auto copied = [&] {
        return support::name_of(support::error_of([&] {
            write_samples(samples, SampleSet::tempered, nullptr, Pitch::concert_a(),
                          folder / "out");
        }));
    };
    CHECK(copied() == "samples_same_name");
    CHECK_FALSE(std::filesystem::exists(folder / "out" / "note.wav"));
    std::filesystem::rename(samples[1].file, folder / "b" / "other.wav");
    samples[1].file = (folder / "b" / "other.wav").string();
    CHECK(copied() == "no error");
    CHECK(std::filesystem::exists(folder / "out" / "note.wav"));
    CHECK(std::filesystem::exists(folder / "out" / "other.wav"));
    // One whose place is taken does not keep the other from its own.
    std::filesystem::create_directories(folder / "taken" / "note.wav" / "more");
    const auto refused =
        write_samples(samples, SampleSet::tempered, nullptr, Pitch::concert_a(), folder / "taken");
    REQUIRE(refused.size() == 1);
    CHECK(refused[0].file == samples[0].file);
    CHECK(refused[0].error.code() == ErrorCode::unwritable);
    CHECK(std::filesystem::exists(folder / "taken" / "other.wav"));
}

TEST_CASE("What lies outside a scale that does not repeat has no degree and is left out") {
    Scale scale = parse_degrees("9/8, 5/4, 3/2", "test");
    const auto degree_of = [&](double cents) {
        Recording recording;
        recording.name = "note.wav";
        RecordedNote note;
        note.end_s = 1;
        note.pitch.hz = 440 * std::exp2((cents - 900) / 1200);
        note.pitch.half_width_cents = 1;
        recording.notes = {note};
        const TunedScale on_c = tuned(scale, {"C4", std::nullopt});
        const Sample sample = sample_of(recording, Pitch::concert_a(), &on_c);
        const bool stored =
            stored_pitch(sample, SampleSet::scale, &on_c, Pitch::concert_a()).has_value();
        CHECK(stored == sample.degree.has_value());
        CHECK(sample.remarks.size() == (stored ? 0 : 1));
        CHECK(stored_pitch(sample, SampleSet::tempered, &on_c, Pitch::concert_a()));
        return sample.degree.has_value();
    };
    CHECK(degree_of(-1032)); // an octave lower
    scale.period.reset();
    CHECK_FALSE(degree_of(-1032));
    CHECK_FALSE(degree_of(-50.1));
    CHECK(degree_of(-49.9));
    CHECK(degree_of(600)); // between degrees it is brought to one of them
    CHECK(degree_of(701.955 + 49.9));
    CHECK_FALSE(degree_of(701.955 + 50.1));
}

TEST_CASE("A sample of a scale sounds its degree on the key that it is to be laid on") {
    const TunedScale on_c = tuned(parse_degrees("2/1", "octaves"), {"C4", std::nullopt});
    const Pitch a4 = Pitch::concert_a();
    for (const auto& [cents, chunk] : {std::pair{-30.0, 60U}, {0.0, 60U}, {30.0, 59U}}) {
        Recording recording;
        recording.name = "note.wav";
        RecordedNote note;
        note.end_s = 1;
        note.pitch.hz = 440 * std::exp2((-cents - 900) / 1200);
        note.pitch.half_width_cents = 1;
        recording.notes = {note};
        const Sample sample = sample_of(recording, a4, &on_c);
        const SamplerPitch stored = *stored_pitch(sample, SampleSet::scale, &on_c, a4);
        CHECK(stored.key == chunk);
        CHECK(sounding_key(sample, on_c) == 60);
        // A sampler plays the key laid on so far above the stored pitch.
        const double raised = (60.0 - stored.key) * 100 - stored.fraction / std::exp2(32) * 100;
        CHECK(raised == Approx(cents).margin(1e-6));
        const std::string csv =
            page::print_csv(samples_page({sample}, {}, {SampleSet::scale}, &on_c, a4));
        CHECK(csv.find("scale_lay_on\r\n") != std::string::npos);
        CHECK(csv.ends_with(",60\r\n"));
    }
}
