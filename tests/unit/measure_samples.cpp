// Key and fraction of a recorded note. Middle C is key 60 of MIDI, 261.6256 Hz with A4 = 440 Hz;
// the fraction 0x80000000 is half a semitone (Microsoft, "New Multimedia Data Types and Data
// Techniques", 1994).

#include <sectio/measure/samples.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

#include <cmath>

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
    return stored_pitch(sample, SampleSet::tempered, nullptr, Pitch::concert_a());
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
