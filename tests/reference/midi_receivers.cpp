// Which tuning messages general synthesizers honour, and how exactly, and how performances sound on
// them: what docs/commands/tuning.md and perform.md say of FluidSynth 2.3.1 and TiMidity++ 2.14.0,
// measured with Debian's soundfont. Each tuned key is compared with the same key untuned, so that
// the samples' own detuning drops out.

#include <sectio/tuning/perform.hpp>
#include <sectio/tuning/retuning.hpp>
#include <sectio/tuning/tuning_file.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <support/paths.hpp>
#include <support/process.hpp>
#include <support/sound.hpp>

#include <cmath>

using namespace sectio;
using namespace sectio::tuning;

namespace {

const std::string soundfont = "/usr/share/sounds/sf2/TimGM6mb.sf2";
constexpr std::array keys{62, 64, 66, 69}; // D, and E, F sharp and A of the scale below
constexpr midi::Ticks note_ticks = 1152, step_ticks = 1440; // 1.2 of every 1.5 seconds

constexpr int organ = 16, piano = 0;

/// `file` followed by the keys, played on an organ without vibrato, or another program.
midi::File with_notes(midi::File file, int program = organ) {
    midi::Track& track = file.tracks[0];
    track.events.push_back(midi::program(track.end, 0, program));
    midi::Ticks time = track.end + 480;
    for (const int key : keys) {
        track.events.push_back(midi::note_on(time, 0, key, 100));
        track.events.push_back(midi::note_off(time + note_ticks, 0, key));
        time += step_ticks;
    }
    track.end = time;
    return file;
}

/// For TiMidity++, which reads the machine's own configuration first: there another soundfont may
/// stand, so that each program that is played here is named again.
std::string timidity_programs() {
    std::string text = "bank 0\n";
    for (const int program : {piano, organ})
        text += fmt::format("{0} %font \"{1}\" 0 {0}\n", program, soundfont);
    return text;
}

/// Nothing of the machine's or the user's configuration is heard.
support::Sound rendered(const std::string& synthesizer, const midi::File& file) {
    const support::TempDir dir;
    const std::string mid = (dir / "a.mid").string(), wav = (dir / "a.wav").string(),
                      settings = (dir / "settings").string();
    const bool is_fluidsynth = synthesizer == "fluidsynth";
    support::write_file(mid, midi::file_bytes(file));
    support::write_file(settings, is_fluidsynth ? "" : timidity_programs());
    const std::vector<std::string> command =
        is_fluidsynth ? std::vector<std::string>{"fluidsynth", "-ni", "-q", "-f",      settings,
                                                 "-R",         "0",   "-C", "0",       "-r",
                                                 "48000",      "-F",  wav,  soundfont, mid}
                      : std::vector<std::string>{
                          "timidity",      "-c",          settings,      "-Ow1s", "-s", "48000",
                          "--output-mono", "-EFreverb=0", "-EFchorus=0", "-o",    wav,  mid};
    const auto outcome = support::run(command, {.environment = {"HOME=" + dir.path().string()}});
    CAPTURE(outcome.err);
    REQUIRE(outcome.exit_code == 0);
    return support::read_sound(wav);
}

/// Hz of each key, where it is near what `wanted` says of it.
std::vector<double> measured(const std::string& synthesizer, const midi::File& file,
                             const std::vector<double>& wanted) {
    const support::Sound sound = rendered(synthesizer, file);
    const double first = sound.onset(0.01);
    std::vector<double> hz;
    for (std::size_t i = 0; i < keys.size(); ++i)
        hz.push_back(support::measured_hz(sound, first + 1.5 * static_cast<double>(i) + 0.25, 0.8,
                                          wanted[i]));
    return hz;
}

std::vector<double> key_hz() {
    std::vector<double> hz;
    for (const int key : keys)
        hz.push_back(pitch_of_key(key).hertz_estimate());
    return hz;
}

Retuning just(MessageKind kind) {
    const TunedScale scale =
        tuned(parse_degrees("9/8,5/4,4/3,3/2,5/3,15/8", ""), {"D4", std::nullopt});
    TuningMessage model;
    model.kind = kind;
    model.real_time = true;
    return retune(key_table(scale, nearest_keys(scale.scale(), 62)), model);
}

/// How far each key is moved, in cents: wanted by the messages, and heard.
struct Moved {
    std::vector<double> wanted, heard;
    double worst() const {
        double most = 0;
        for (std::size_t i = 0; i < wanted.size(); ++i)
            most = std::max(most, std::abs(heard[i] - wanted[i]));
        return most;
    }
    bool honoured() const { return std::abs(heard[2]) > 5; } // F sharp, by -13.7
};

Moved moved(const std::string& synthesizer, MessageKind kind) {
    const Retuning retuning = just(kind);
    const auto plain = measured(synthesizer, with_notes(tuning_midi_file({}, 0)), key_hz());
    Moved moved;
    for (const int key : keys)
        for (const RetunedKey& retuned : retuning.keys)
            if (retuned.key == key)
                moved.wanted.push_back(1200
                                       * (retuned.written - pitch_of_key(key)).estimate().value);
    std::vector<double> guesses;
    for (std::size_t i = 0; i < keys.size(); ++i)
        guesses.push_back(plain[i] * std::exp2(moved.wanted[i] / 2400)); // half way
    const auto heard =
        measured(synthesizer, with_notes(tuning_midi_file(retuning.messages, 1)), guesses);
    for (std::size_t i = 0; i < keys.size(); ++i)
        moved.heard.push_back(support::cents_between(heard[i], plain[i]));
    return moved;
}

/// How far the keys of a file are off that is performed in the same scale, in cents. In a zone the
/// program goes to the manager alone, from which receivers that know no MPE do not take it, so that
/// there the piano plays with which they begin.
double performed_error(const std::string& synthesizer, const PerformOptions& options) {
    const auto tuning = score::tuning_by_scale(parse_degrees("9/8,5/4,4/3,3/2,5/3,15/8", ""), "D4");
    const midi::File plain_file =
        with_notes(tuning_midi_file({}, 0), options.channels == ChannelUse::zone ? piano : organ);
    const auto plain = measured(synthesizer, plain_file, key_hz());
    const Performed performed =
        perform(performance_of(plain_file, *tuning, Pitch::concert_a()), options);
    // 1/1, 9/8, 5/4 and 3/2 above D, less 0, 2, 4 and 7 keys.
    const std::array<double, keys.size()> wanted{0, 3.9100, -13.6863, 1.9550};
    std::vector<double> guesses;
    for (std::size_t i = 0; i < keys.size(); ++i)
        guesses.push_back(plain[i] * std::exp2(wanted[i] / 2400)); // half way
    const auto heard = measured(synthesizer, performed.file, guesses);
    double most = 0;
    for (std::size_t i = 0; i < keys.size(); ++i)
        most = std::max(most, std::abs(support::cents_between(heard[i], plain[i]) - wanted[i]));
    return most;
}

PerformOptions by_message(MessageKind kind) {
    PerformOptions options;
    options.by = PerformBy::tuning;
    options.message = kind;
    return options;
}

bool absent(const std::string& synthesizer) {
    return !support::has_program(synthesizer) || !support::fs::exists(soundfont);
}

} // namespace

TEST_CASE("FluidSynth takes note changes and offsets, floored to whole cents; no dumps") {
    if (absent("fluidsynth"))
        SECTIO_SKIP("fluidsynth or its soundfont is not installed");
    using enum MessageKind;
    for (const MessageKind kind : {note_change, note_change_in_bank, octave_1, octave_2}) {
        CAPTURE(row_of(kind).name);
        const Moved answer = moved("fluidsynth", kind);
        CAPTURE(answer.wanted, answer.heard);
        CHECK(answer.worst() < 1.05);
    }
    for (const MessageKind kind : {bulk_dump, octave_dump_2}) {
        CAPTURE(row_of(kind).name);
        CHECK_FALSE(moved("fluidsynth", kind).honoured());
    }
}

TEST_CASE("TiMidity++ takes the bulk dump and note changes, finer than a fifth of a cent") {
    if (absent("timidity"))
        SECTIO_SKIP("timidity or its soundfont is not installed");
    using enum MessageKind;
    for (const MessageKind kind : {bulk_dump, note_change}) {
        CAPTURE(row_of(kind).name);
        const Moved answer = moved("timidity", kind);
        CAPTURE(answer.wanted, answer.heard);
        CHECK(answer.worst() < 0.2);
    }
    for (const MessageKind kind : {octave_1, octave_2, note_change_in_bank}) {
        CAPTURE(row_of(kind).name);
        CHECK_FALSE(moved("timidity", kind).honoured());
    }
}

TEST_CASE("FluidSynth plays performances, in whole cents as it does everything") {
    if (absent("fluidsynth"))
        SECTIO_SKIP("fluidsynth or its soundfont is not installed");
    using enum MessageKind;
    CHECK(performed_error("fluidsynth", {}) < 1.05);
    CHECK(performed_error("fluidsynth", {ChannelUse::zone, {}}) < 1.05);
    for (const MessageKind kind : {note_change, octave_1, octave_2}) {
        CAPTURE(row_of(kind).name);
        CHECK(performed_error("fluidsynth", by_message(kind)) < 1.05);
    }
}

TEST_CASE("TiMidity++ plays performances: bends and tuning messages within a fifth of a cent") {
    if (absent("timidity"))
        SECTIO_SKIP("timidity or its soundfont is not installed");
    using enum MessageKind;
    CHECK(performed_error("timidity", {}) < 0.2);
    CHECK(performed_error("timidity", {ChannelUse::zone, {}}) < 0.2);
    for (const MessageKind kind : {note_change, bulk_dump}) {
        CAPTURE(row_of(kind).name);
        CHECK(performed_error("timidity", by_message(kind)) < 0.2);
    }
}
