#include <sectio/measure/exact_figures.hpp>
#include <sectio/measure/picture.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/measure/tonic.hpp>
#include <sectio/page/numbers.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <filesystem>

namespace sectio::measure {

namespace {

using Drawing = page::Drawing;

// Millimetres: the panel of the track, and to its right that of the histogram.
constexpr double width = 172, height = 112, left = 24, right = 130, top = 4, bottom = 102;
constexpr double histogram_left = 134, histogram_right = 170;
constexpr float drawn_clarity = 0.6F;
constexpr double margin_cents = 120, joined_cents = 60, least_label_mm = 2.8;

/// Where time and cents lie on paper.
struct Axes {
    double low, high, seconds;

    double x(double s) const { return left + (right - left) * s / seconds; }
    double y(double cents) const { return bottom - (bottom - top) * (cents - low) / (high - low); }
    bool shows(double cents) const { return cents >= low && cents <= high; }
};

/// 1, 2 or 5 times a power of ten, so that about eight steps fill the axis.
double tick_step(double seconds) {
    const double power = std::pow(10.0, std::floor(std::log10(seconds / 8)));
    for (const double factor : {1.0, 2.0, 5.0})
        if (factor * power * 8 >= seconds)
            return factor * power;
    return 10 * power;
}

void add_frame(Drawing& drawing, const Axes& axes) {
    for (const auto& [a, b] :
         {std::pair{left, right}, std::pair{histogram_left, histogram_right}}) {
        drawing.strokes.push_back({a, bottom, b, bottom});
        drawing.strokes.push_back({a, top, a, bottom});
    }
    const double step = tick_step(axes.seconds);
    for (double s = 0; s <= axes.seconds * 1.0001; s += step) {
        drawing.strokes.push_back({axes.x(s), bottom, axes.x(s), bottom + 1});
        drawing.labels.push_back(
            {axes.x(s), bottom + 4.5, fmt::format("{:g}", s), 8, Drawing::Anchor::middle});
    }
    drawing.labels.push_back({left - 4, bottom + 4.5, "cents", 8, Drawing::Anchor::right});
    drawing.labels.push_back(
        {(left + right) / 2, bottom + 9, "seconds", 8, Drawing::Anchor::middle});
    drawing.labels.push_back({(histogram_left + histogram_right) / 2, bottom + 4.5,
                              "share of the time", 8, Drawing::Anchor::middle});
}

void add_pitches(Drawing& drawing, const Hearing& hearing, const Axes& axes, const Pitch& a4) {
    double last = height + least_label_mm;
    for (const HeardPitch& pitch : hearing.pitches) {
        const double cents = cents_above(pitch.hz, hearing.tonic_hz), y = axes.y(cents);
        if (!axes.shows(cents))
            continue;
        drawing.strokes.push_back({left, y, histogram_right, y, 0.15, 0.6, 0.8});
        if (last - y < least_label_mm)
            continue;
        last = y;
        const auto keyed = nearest_key(pitch_of(pitch.hz), a4);
        drawing.labels.push_back(
            {left - 1, y + 1,
             usual_note(keyed.key).text(true) + "  " + true_minus(fmt::format("{:.0f}", cents)),
             7.5, Drawing::Anchor::right, std::abs(pitch.hz - hearing.tonic_hz) < 1e-9});
    }
}

/// One stroke from frame to frame; of a long recording, a stroke a tenth of a millimetre that spans
/// what lies in it.
void add_track(Drawing& drawing, const Recording& recording, const Axes& axes, double tonic_hz) {
    double last_x = -1, last = 0, low = 0, high = 0;
    for (std::size_t i = 0; i < recording.track.size(); ++i) {
        const TrackFrame& frame = recording.track[i];
        const double x =
            axes.x(recording.track_start_s + static_cast<double>(i) * recording.track_step_s);
        const double cents =
            frame.hz > 0 ? cents_above(static_cast<double>(frame.hz), tonic_hz) : 0;
        if (frame.hz <= 0 || frame.clarity < drawn_clarity || !axes.shows(cents)) {
            last_x = -1;
            continue;
        }
        const bool joined = last_x >= 0 && std::abs(cents - last) < joined_cents;
        low = joined ? std::min(low, cents) : cents, high = joined ? std::max(high, cents) : cents;
        if (!joined) {
            last_x = x, last = cents;
        } else if (x - last_x >= 0.1) {
            drawing.strokes.push_back({last_x, axes.y(last), x, axes.y(cents), 0.35});
            if (high - low > 4)
                drawing.strokes.push_back({x, axes.y(low), x, axes.y(high), 0.25});
            last_x = x, last = cents, low = high = cents;
        }
    }
}

std::vector<SoundedPitch> sounded(const Recording& recording, double tonic_hz, const Axes& axes) {
    std::vector<SoundedPitch> pitches;
    for (const TrackFrame& frame : recording.track) {
        const double cents =
            frame.hz > 0 ? cents_above(static_cast<double>(frame.hz), tonic_hz) : 0;
        if (frame.hz > 0 && frame.clarity >= drawn_clarity && axes.shows(cents))
            pitches.push_back({cents, recording.track_step_s});
    }
    return pitches;
}

void add_histogram(Drawing& drawing, const PitchHistogram& histogram, const Axes& axes) {
    const auto& density = histogram.density();
    if (density.empty())
        return;
    const double most = *std::max_element(density.begin(), density.end());
    const auto x = [&](std::size_t i) {
        return histogram_left + (histogram_right - histogram_left - 2) * density[i] / most;
    };
    constexpr std::size_t step = 2; // cents
    for (std::size_t i = step; i < density.size(); i += step) {
        const double a = histogram.first_cents() + static_cast<double>(i - step), b = a + step;
        if (axes.shows(a) && axes.shows(b))
            drawing.strokes.push_back({x(i - step), axes.y(a), x(i), axes.y(b), 0.3});
    }
}

} // namespace

page::Page picture_page(const Hearing& hearing, const Pitch& a4) {
    check_heard(hearing);
    const Recording& recording = hearing.recordings.front();
    double low = 1e9, high = -1e9;
    for (const RecordedNote& note : recording.notes) {
        const double cents = cents_above(note.pitch.hz, hearing.tonic_hz);
        low = std::min(low, cents), high = std::max(high, cents);
    }
    const Axes axes{low - margin_cents, high + margin_cents, std::max(recording.seconds, 0.1)};
    Drawing drawing{.description =
                        "The pitch over time, lines at the pitches found, and a histogram of "
                        "the time on each pitch",
                    .width = width,
                    .height = height};
    add_frame(drawing, axes);
    add_pitches(drawing, hearing, axes, a4);
    add_track(drawing, recording, axes, hearing.tonic_hz);
    add_histogram(drawing, PitchHistogram(sounded(recording, hearing.tonic_hz, axes), false), axes);
    page::Page page{.title =
                        "Pitch of " + std::filesystem::path(recording.name).filename().string(),
                    .kind = "pitch-track"};
    page.blocks.push_back(std::move(drawing));
    page.blocks.push_back(page::Paragraphs{
        .paragraphs = {{page::Role::remark, fmt::format("Cents from the tonic, {} Hz ({}).",
                                                        pitch_of(hearing.tonic_hz).hertz(2),
                                                        text(hearing.tonic_basis))}}});
    return page;
}

} // namespace sectio::measure
