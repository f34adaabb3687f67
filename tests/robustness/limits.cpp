// Each limit at its bound and one beyond: what lies on it is taken, what lies beyond is refused
// with the message that names it.

#include <sectio/base/length.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/comma/tempered_out.hpp>
#include <sectio/division/targets.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/instrument/instrument.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/difference.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/score/score.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/tuning/midi_file.hpp>

#include <support/at_limits.hpp>
#include <support/errors.hpp>
#include <support/intervals.hpp>
#include <support/paths.hpp>
#include <support/scores.hpp>
#include <support/tones.hpp>

#include <filesystem>

using namespace sectio;
using support::equal;
using support::said;

namespace {

std::string repeated(const std::string& piece, std::size_t times) {
    std::string text;
    for (std::size_t i = 0; i < times; ++i)
        text += piece;
    return text;
}

std::string score_refusal(const std::string& inside) {
    return said([&] {
        score::read_score(
            score::document_of(support::score({support::attributes() + inside}), "t"));
    });
}

} // namespace

TEST_CASE("Limit: parentheses and lengths") {
    const auto nested = [](int depth) {
        const auto count = static_cast<std::size_t>(depth);
        return said(
            [&] { support::interval(std::string(count, '(') + "3/2" + std::string(count, ')')); });
    };
    CHECK(nested(limits::expression_nesting) == "no error");
    CHECK(nested(limits::expression_nesting + 1) == "nested_too_deep");
    const auto length = [](std::size_t characters) {
        return said([&] { parse_length(std::string(characters - 2, '1') + "mm"); });
    };
    CHECK(length(limits::length_characters) == "no error");
    CHECK(length(limits::length_characters + 1) == "length_too_long");
}

TEST_CASE("Limit: a pitch lies within so many octaves of 1 Hz") {
    const auto pitch = [](const Interval& above) {
        return said([&] { Pitch::from_hertz(1) + above; });
    };
    const Interval most = Integer(limits::pitch_octaves) * Interval::octave();
    CHECK(pitch(most) == "no error");
    CHECK(pitch(most + Interval::from_ratio(81, 80)) == "pitch_out_of_range");
    CHECK(pitch(-most - Interval::from_ratio(81, 80)) == "pitch_out_of_range");
}

TEST_CASE("Limit: bytes of a scale file, strings of an instrument") {
    const auto scale = [](std::size_t bytes) {
        const std::string text = "name = \"a\"\ndegrees = [\"3/2\"]\n#";
        return said(
            [&] { read_scale_file(text + std::string(bytes - text.size(), ' '), "t.toml"); });
    };
    CHECK(scale(limits::scale_file_bytes) == "no error");
    CHECK(scale(limits::scale_file_bytes + 1) == "file_too_large");
    const auto instrument = [](std::size_t strings) {
        return said([&] {
            read_instrument_file("name = \"a\"\nstrings = ["
                                     + repeated("{ length = \"1 m\" },", strings) + "]\n",
                                 "t.toml");
        });
    };
    CHECK(instrument(limits::instrument_strings) == "no error");
    CHECK(instrument(limits::instrument_strings + 1) == "too_many_strings");
}

TEST_CASE("Limit: divisions beside one scale, pairs of degrees, a matrix") {
    const auto beside = [](std::size_t divisions) {
        return said([&] {
            ComparisonOptions options;
            options.divisions.assign(divisions, EqualDivision(12));
            compare(equal(3), options);
        });
    };
    CHECK(beside(limits::compared_divisions) == "no error");
    CHECK(beside(limits::compared_divisions + 1) == "too_many_divisions");
    const auto many = static_cast<std::int64_t>(limits::compared_pairs / limits::scale_degrees);
    const Scale most = equal(limits::scale_degrees);
    CHECK(said([&] { best_difference(equal(many + 1), most); }) == "too_many_pairs");
    CHECK(best_difference(equal(many / 10), equal(many / 10)));
    const auto matrix = [](std::size_t degrees) {
        return said([&] {
            SheetOptions options;
            options.pages = {"matrix"};
            sheet_page(compare(equal(static_cast<std::int64_t>(degrees))), options);
        });
    };
    CHECK(matrix(limits::matrix_degrees + 1) == "matrix_too_large");
}

TEST_CASE("Limit: octaves that an identified set spans, metres of a string") {
    const auto set = [](const Interval& span) {
        return said([&] {
            Melody melody;
            for (const Interval& at : {Interval(), Interval::from_ratio(3, 2), span})
                melody.notes.push_back({.interval = at, .uncertainty = {}});
            identify(melody, ScaleLibrary::installed());
        });
    };
    const Interval most = Integer(limits::identified_octaves) * Interval::octave();
    CHECK(set(most) == "no error");
    CHECK(set(most + Interval::from_ratio(81, 80)) == "pitches_too_far");
    const auto string = [](const Rational& millimetres) {
        return said([&] {
            FretRequest request;
            request.length = Length::millimetres(millimetres);
            fret_sheet(equal(12), request);
        });
    };
    CHECK(string(1000 * limits::string_metres) == "no error");
    CHECK(string(1000 * limits::string_metres + 1) == "string_too_long");
}

TEST_CASE("Limit: elements, octaves and alterations of a score") {
    // score-partwise, part and measure stand around.
    const auto nested = [](std::size_t depth) {
        return score_refusal(repeated("<a>", depth - 3) + repeated("</a>", depth - 3));
    };
    CHECK(nested(limits::xml_nesting) == "no error");
    CHECK(nested(limits::xml_nesting + 1) == "xml_too_deep");
    const auto octave = [](int n) { return score_refusal(support::note("D", n)); };
    CHECK(octave(limits::score_octaves) == "no error");
    CHECK(octave(limits::score_octaves + 1) != "no error");
    const auto alter = [](int n) {
        return score_refusal(support::note("D", 4, std::to_string(n)));
    };
    CHECK(alter(limits::score_alteration) == "no error");
    CHECK(alter(limits::score_alteration + 1) != "no error");
}

TEST_CASE("Limit: frames a second, channels of a recording") {
    const support::TempDir folder;
    const auto recording = [&](int rate, int channels) {
        support::write_file(folder / "a.wav",
                            support::wave_file(std::vector<float>(512, 0.1F), rate, channels));
        return said([&] { measure::SoundFile(folder / "a.wav"); });
    };
    CHECK(recording(limits::least_sound_rate, 1) == "no error");
    CHECK(recording(limits::least_sound_rate - 1, 1) == "sound_rate");
    CHECK(recording(limits::sound_rate, 1) == "no error");
    CHECK(recording(limits::sound_rate + 1, 1) == "sound_rate");
    CHECK(recording(44100, limits::sound_channels) == "no error");
}

TEST_CASE("Limit: bytes of a MIDI file are known before it is read") {
    const support::TempDir folder;
    const auto file = folder / "a.mid";
    support::write_file(file, "MThd");
    std::filesystem::resize_file(file, limits::midi_file_bytes + 1);
    CHECK(said([&] { midi::read_file(file); }) == "file_too_large");
    std::filesystem::resize_file(file, limits::midi_file_bytes);
    CHECK(said([&] { midi::read_file(file); }) != "file_too_large");
}

TEST_CASE("Limit: digits on a printed page") {
    page::Page page;
    page.blocks = {
        page::Facts{"", "", {{"Size", page::cents(Interval::from_ratio(3, 2)), "size"}}}};
    const auto printed = [&](int digits) {
        return said([&] {
            page::PrintOptions options;
            options.digits = digits;
            page::print_svg(page, options);
        });
    };
    CHECK(printed(limits::printed_digits) == "no error");
    CHECK(printed(limits::printed_digits + 1) == "too_fine_for_paper");
}
