// The picture of a recording: what is written stands where it can be read.

#include "support/tones.hpp"

#include <sectio/measure/picture.hpp>
#include <sectio/print/print.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace sectio;
using Label = page::Drawing::Label;

namespace {

page::Drawing picture() {
    std::vector<std::vector<float>> parts;
    for (const double cents : {0.0, 204.0, 702.0})
        parts.push_back(
            support::tone({.hz = 220 * std::exp2(cents / 1200), .rate = 16000, .noise_db = 50}));
    const auto recording = measure::listen(support::joined(parts), 16000, "three.wav");
    const page::Page page = measure::picture_page(measure::hear({recording}), Pitch::concert_a());
    return std::get<page::Drawing>(page.blocks.front());
}

/// Height of capital letters and digits, as most types have them (common practice, no source).
double digit_mm(const Label& label) {
    return 0.72 * label.points * 25.4 / 72;
}

const Label& label_of(const page::Drawing& drawing, const std::string& text) {
    const auto found = std::find_if(drawing.labels.begin(), drawing.labels.end(),
                                    [&](const Label& l) { return l.text == text; });
    CAPTURE(text);
    REQUIRE(found != drawing.labels.end());
    return *found;
}

} // namespace

TEST_CASE("Seconds are numbered below the time axis, clear of it and of its name") {
    const page::Drawing drawing = picture();
    double axis = 0; // the lowest stroke: the ticks' ends
    for (const auto& stroke : drawing.strokes)
        axis = std::max({axis, stroke.y1, stroke.y2});
    const Label& name = label_of(drawing, "seconds");
    for (const char* text : {"0", "1", "2", "3", "share of the time", "cents"}) {
        const Label& label = label_of(drawing, text);
        CHECK(label.y - digit_mm(label) > axis);
        CHECK(label.y < name.y - digit_mm(name));
    }
    CHECK(name.y < drawing.height);
    CHECK(label_of(drawing, "0").x < label_of(drawing, "1").x);
}

TEST_CASE("What has no pitch, or none that is clear, is not drawn") {
    measure::Recording recording;
    recording.name = "cut.wav";
    recording.track_step_s = 0.01;
    const auto frames = [&](std::size_t count, float hz, float clarity) {
        recording.track.insert(recording.track.end(), count, {hz, clarity, 0.1F});
    };
    frames(100, 220, 0.9F);
    frames(100, 0, 0.9F); // second 1 to 2
    frames(100, 220, 0.9F);
    frames(100, 220, 0.2F); // second 3 to 4
    frames(100, 220, 0.9F);
    frames(100, 2e4F, 0.9F); // second 5 to 6: above the picture
    frames(100, 220, 0.9F);
    recording.seconds = 7;
    measure::RecordedNote note;
    note.end_s = 7;
    note.pitch.hz = 220;
    note.pitch.half_width_cents = 1;
    recording.notes.push_back(note);
    const page::Page page = measure::picture_page(measure::hear({recording}), Pitch::concert_a());
    const auto& drawing = std::get<page::Drawing>(page.blocks.front());
    const double zero = label_of(drawing, "0").x, second = label_of(drawing, "1").x - zero;
    for (int cut = 0; cut < 7; ++cut) {
        const double middle = zero + (cut + 0.5) * second;
        const bool drawn = std::any_of(
            drawing.strokes.begin(), drawing.strokes.end(), [&](const page::Drawing::Stroke& s) {
                return s.width == 0.35 && s.x1 <= middle && middle < s.x2;
            });
        CAPTURE(cut);
        CHECK(drawn == (cut % 2 == 0));
    }
}

TEST_CASE("Pitches are written beside their own lines, the tonic in bold") {
    const page::Drawing drawing = picture();
    for (const char* text : {"A3  0", "B3  204", "E4  702"}) {
        const Label& label = label_of(drawing, text);
        CHECK(label.bold == (std::string_view(text) == "A3  0"));
        const bool on_a_line =
            std::any_of(drawing.strokes.begin(), drawing.strokes.end(), [&](const auto& s) {
                return s.y1 == s.y2 && std::abs(s.y1 - label.y + digit_mm(label) / 2) < 0.3
                       && s.x1 > label.x;
            });
        CHECK(on_a_line);
    }
}

TEST_CASE("Sharps and flats stand in the PNG as signs, not as the box of a sign that is missing") {
    const auto png_of = [](const char* text) {
        page::Drawing drawing;
        drawing.width = 20, drawing.height = 10;
        drawing.labels.push_back({.x = 2, .y = 8, .text = text, .points = 20});
        return page::print_png(drawing);
    };
    // U+F0000 is for private use: no font has it.
    CHECK(png_of("♯") != png_of("\U000F0000"));
    CHECK(png_of("♯") != png_of("♭"));
    CHECK(png_of("♯") != png_of(""));
}
