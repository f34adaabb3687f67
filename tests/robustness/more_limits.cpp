// Further limits at their bound and one beyond, of rooms that work long or draw much.

#include <sectio/base/limits.hpp>
#include <sectio/comma/tempered_out.hpp>
#include <sectio/division/targets.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sound/listening.hpp>

#include <support/at_limits.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>
#include <support/tones.hpp>

#include <cstring>
#include <filesystem>

using namespace sectio;
using support::equal;
using support::said;

namespace {

/// Marks of the first line of the ruler of a sheet beside `division`.
long ruler_marks(std::int64_t division) {
    ComparisonOptions options;
    options.divisions = {EqualDivision(division)};
    SheetOptions pages;
    pages.pages = {"ruler"};
    for (const page::Block& block : sheet_page(compare(equal(3), options), pages).blocks)
        if (const auto* ruler = std::get_if<page::Ruler>(&block))
            return ruler->lines.at(0).count;
    return -1;
}

/// A WAVE file of one channel that says it holds so many frames, and is as long; its samples are a
/// hole in the file system.
void write_long_wave(const std::filesystem::path& file, int rate, std::uint32_t frames) {
    std::string head = support::wave_file(std::vector<float>(1), rate, 1);
    const std::size_t data = head.find("data");
    const auto put = [&](std::size_t at, std::size_t number) {
        const auto size = static_cast<std::uint32_t>(number);
        std::memcpy(&head[at], &size, sizeof size);
    };
    const std::size_t sample = head.size() - data - 8;
    put(data + 4, frames * sample);
    put(4, data + frames * sample);
    support::write_file(file, head);
    std::filesystem::resize_file(file, data + 8 + frames * sample);
}

} // namespace

TEST_CASE("Limit: the largest division whose map of primes is made") {
    const auto map = [](std::int64_t steps) {
        return said([&] { small_val(EqualDivision(steps)); });
    };
    CHECK(map(limits::division_steps) == "no error");
    CHECK(map(limits::division_steps + 1) == "division_out_of_range");
}

TEST_CASE("Limit: targets of which sums are looked for") {
    const auto sums = [](std::size_t count) {
        Targets targets;
        for (std::size_t i = 1; i <= count; ++i)
            targets.intervals.push_back(Interval::from_cents(Rational(static_cast<long>(i))));
        return target_sums(targets, Interval::octave()).size();
    };
    CHECK(sums(limits::consistency_targets) > 0);
    CHECK(sums(limits::consistency_targets + 1) == 0);
}

TEST_CASE("Limit: places of frets that are planned") {
    const auto planned = [](std::int64_t periods) {
        return said([&] {
            FretRequest request;
            request.length = parse_length("620mm");
            request.up_to = Integer(periods) * Interval::octave();
            fret_sheet(equal(static_cast<std::int64_t>(limits::planned_stops) / 5), request);
        });
    };
    CHECK(planned(5) == "no error");
    CHECK(planned(6) == "too_many_frets");
}

TEST_CASE("Limit: seconds of a scale that sounds") {
    const TunedScale scale = tuned(equal(1), {"C4", std::nullopt});
    const auto sounding = [&](double seconds) {
        sound::ListeningOptions options;
        options.neighbours = false;
        options.note_seconds = seconds;
        return sound::listen_to(scale, options);
    };
    const double beside = sounding(1).seconds, each = sounding(2).seconds - beside;
    const double most = (limits::sound_seconds - beside) / each + 1;
    CHECK(sounding(most - 0.001).seconds > limits::sound_seconds - 1);
    CHECK(said([&] { sounding(most + 0.001); }) == "listening_too_long");
}

TEST_CASE("Limit: marks on a line of a ruler") {
    CHECK(ruler_marks(limits::ruler_marks) == limits::ruler_marks);
    CHECK(ruler_marks(limits::ruler_marks + 1) == 0);
}

TEST_CASE("Limit: hours of a recording are known before it is read") {
    const support::TempDir folder;
    const int rate = limits::least_sound_rate;
    const auto hours = static_cast<std::uint32_t>(limits::sound_hours * 3600 * rate);
    const auto recording = [&](std::uint32_t frames) {
        write_long_wave(folder / "a.wav", rate, frames);
        return said([&] { measure::SoundFile(folder / "a.wav"); });
    };
    CHECK(recording(hours) == "no error");
    CHECK(recording(hours + static_cast<std::uint32_t>(rate)) == "sound_too_long");
}
