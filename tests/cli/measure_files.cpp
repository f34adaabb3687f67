// One sound in many kinds of file, and a sound of many minutes.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"
#include "support/tones.hpp"

#include <catch2/catch.hpp>
#include <sndfile.h>
#include <sys/resource.h>

#include <cmath>

using nlohmann::json;
using support::run_sectio;

namespace {

constexpr int rate = 22050;

/// Writes `sound` so many times behind itself, by libsndfile and not by Sectio.
void write_sound(const std::filesystem::path& file, int format, const std::vector<float>& sound,
                 int times = 1) {
    SF_INFO info{};
    info.samplerate = rate;
    info.channels = 1;
    info.format = format;
    SNDFILE* out = sf_open(file.c_str(), SFM_WRITE, &info);
    REQUIRE(out != nullptr);
    for (int i = 0; i < times; ++i)
        REQUIRE(sf_writef_float(out, sound.data(), static_cast<sf_count_t>(sound.size()))
                == static_cast<sf_count_t>(sound.size()));
    sf_close(out);
}

/// A slow scale, its samples rounded to 16 bits, so that every lossless kind holds them exactly.
std::vector<float> slow_scale() {
    std::vector<std::vector<float>> parts;
    for (const double cents : {0.0, 182.0, 386.0, 498.0})
        parts.push_back(support::tone({.hz = 196 * std::exp2(cents / 1200),
                                       .inharmonicity = 1e-4,
                                       .rate = rate,
                                       .noise_db = 40}));
    std::vector<float> sound = support::joined(parts);
    for (float& sample : sound)
        sample = std::round(sample * 32768.0F) / 32768.0F;
    return sound;
}

json measured(const std::filesystem::path& file) {
    const auto outcome = run_sectio({"measure", "recording", file.string(), "--json"});
    INFO(outcome.err);
    REQUIRE(outcome.exit_code == 0);
    json answer = support::json_of(outcome.out);
    for (json& note : answer["notes"])
        note.erase("file");
    return answer;
}

double number(const json& text) {
    return std::stod(text.get<std::string>());
}

/// The most memory that a program run by this test has held, in bytes.
long peak_memory() {
    rusage usage{};
    getrusage(RUSAGE_CHILDREN, &usage);
    return usage.ru_maxrss * 1024;
}

} // namespace

TEST_CASE("One sound has the same pitches in every kind of file") {
    const support::TempDir folder;
    const std::vector<float> sound = slow_scale();
    write_sound(folder / "16.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, sound);
    const json first = measured(folder / "16.wav");
    REQUIRE(first["notes"].size() == 4);
    REQUIRE(first["pitches"].size() == 4);
    for (const auto& [name, format] : {std::pair{"24.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_24},
                                       {"32.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_32},
                                       {"float.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT},
                                       {"double.wav", SF_FORMAT_WAV | SF_FORMAT_DOUBLE},
                                       {"extended.wav", SF_FORMAT_WAVEX | SF_FORMAT_PCM_16},
                                       {"rf64.wav", SF_FORMAT_RF64 | SF_FORMAT_PCM_16},
                                       {"16.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_16},
                                       {"24.flac", SF_FORMAT_FLAC | SF_FORMAT_PCM_24},
                                       {"16.aiff", SF_FORMAT_AIFF | SF_FORMAT_PCM_16},
                                       {"float.aiff", SF_FORMAT_AIFF | SF_FORMAT_FLOAT}}) {
        CAPTURE(name);
        write_sound(folder / name, format, sound);
        const json other = measured(folder / name);
        CHECK(other["notes"] == first["notes"]);
        CHECK(other["pitches"] == first["pitches"]);
        CHECK(other["remarks"] == first["remarks"]);
    }
}

TEST_CASE("A lossy file has the same pitches within what is stated") {
    const support::TempDir folder;
    const std::vector<float> sound = slow_scale();
    write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, sound);
    write_sound(folder / "a.ogg", SF_FORMAT_OGG | SF_FORMAT_VORBIS, sound);
    const json exact = measured(folder / "a.wav"), lossy = measured(folder / "a.ogg");
    REQUIRE(lossy["pitches"].size() == exact["pitches"].size());
    for (std::size_t i = 0; i < exact["pitches"].size(); ++i) {
        const json &a = exact["pitches"][i], &b = lossy["pitches"][i];
        const double apart = 1200 * std::log2(number(a["hz_exact"]) / number(b["hz_exact"]));
        CHECK(std::abs(apart)
              < number(a["uncertainty_cents_exact"]) + number(b["uncertainty_cents_exact"]) + 0.01);
    }
}

TEST_CASE("A long recording takes hardly more memory than a short one") {
    const support::TempDir folder;
    // Ten seconds, of which the last is silence.
    const std::vector<float> piece =
        support::joined({support::tone({.hz = 220, .seconds = 9, .rate = rate, .plucked = false}),
                         support::silence(1, rate)});
    const auto peak_of = [&](const char* name, int times) {
        write_sound(folder / name, SF_FORMAT_WAV | SF_FORMAT_PCM_16, piece, times);
        const json answer = measured(folder / name);
        CHECK(answer["notes"].size() == static_cast<std::size_t>(times));
        return peak_memory();
    };
    const long brief = peak_of("minute.wav", 6), lengthy = peak_of("quarter.wav", 90);
    // Ninety times ten seconds as single-precision samples would be 79 million bytes.
    CHECK(lengthy - brief < 12'000'000);
}

TEST_CASE("What measure cannot measure by is refused before anything is written or printed") {
    const support::TempDir folder;
    using Words = std::vector<std::string>;
    const auto refuses = [&](Words words, const std::string& where) {
        words.insert(words.end(), {"--out", (folder / "keep.csv").string()});
        support::write_file(folder / "keep.csv", "precious");
        const auto outcome = run_sectio(words);
        CAPTURE(words, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.starts_with("sectio: " + where));
        CHECK(support::read_file(folder / "keep.csv") == "precious");
    };
    refuses({"measure", "pitches", "D4", "E4", "--period", "1/2"}, "--period:1: a period must be");
    refuses({"measure", "frets", "10mm", "--length", "612mm", "--period", "1/1"},
            "--period:1: a period must be");
    refuses({"measure", "frets", "10mm", "--length", "612mm", "--uncertainty=-1mm"},
            "--uncertainty:1: the half width of a length must be above zero: `-1mm`");
    refuses({"measure", "frets", "10mm", "--length=-5mm"},
            "--length:1: this length must be above 0: `-5mm`");
    refuses({"measure", "pitches", "D4", "D4+9c", "--apart=-5c"}, "--apart:1: a tolerance is not");
    support::write_file(folder / "nut.csv", "nut_mm\n57.4\n112\n");
    refuses({"measure", "frets", (folder / "nut.csv").string(), "--length", "612mm", "--between"},
            "--between: by its heading");
}
