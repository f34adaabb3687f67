// The command `listen` by its real output: a scale and a score as sound, JSON, refusals.

#include <sectio/tuning/midi_file.hpp>

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>
#include <support/refusal.hpp>
#include <support/sound.hpp>

#include <cmath>

using nlohmann::json;
using support::refusal;
using support::run_sectio;
using support::sectio_json;

namespace {

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

std::string tune() {
    return (support::data_dir() / "examples/goose-walk.musicxml").string();
}

double number(const json& object, const char* key) {
    return std::stod(object.at(key).get<std::string>());
}

} // namespace

TEST_CASE("listen: every note of the file is measured within 0.02 cents") {
    const support::TempDir dir;
    const std::string file = (dir / "rast.wav").string();
    const json answer = sectio_json({"listen", "rast", "--tonic", "D4", "--out", file});
    const support::Sound sound = support::read_sound(file);
    CHECK(sound.peak(0, 1000) <= 0.2501);
    REQUIRE(answer.at("notes").size() == 20); // six of eight lie beside their key
    for (const json& note : answer.at("notes")) {
        CAPTURE(note);
        const double start = std::stod(note.at("start_s").get<std::string>());
        const double hz = std::stod(note.at("hz").get<std::string>());
        const double measured = support::measured_hz(sound, start + 0.1, 1.2, hz * 1.0005);
        CHECK(std::abs(support::cents_between(measured, hz)) < 0.02);
    }
}

TEST_CASE("listen: several drones sound throughout, and are told; a short swell is said") {
    const support::TempDir dir;
    const std::string file = (dir / "a.wav").string();
    const auto answer = sectio_json({"listen", "3/2", "--tonic", "D4", "--drone", "D3,A3",
                                     "--alone", "--swell", "1", "--out", file});
    CHECK(answer.at("drone_hz") == answer.at("drones").at(0).at("hz"));
    CHECK(contains(answer.at("cautions").at(0).get<std::string>(), "grows for 1 second."));
    const support::Sound sound = support::read_sound(file);
    double number = -19;
    REQUIRE(answer.at("drones").size() == 2);
    for (const auto& drone : answer.at("drones")) {
        const double hz = 440 * std::pow(2, number / 12.0); // D3, then A3
        CHECK(std::abs(support::cents_between(std::stod(drone.at("hz").get<std::string>()), hz))
              < 0.001);
        CHECK(std::abs(support::cents_between(support::measured_hz(sound, 0.05, 0.9, hz), hz))
              < 0.5);
        number = -12;
    }
    CHECK(contains(refusal({"listen", "3/2", "--tonic", "D4", "--drone", "D3,H"}), "--drone"));
    // Equal-tempered A3 beats with the third partial of D3, which pulls neither measured pitch
    // away.
    REQUIRE(run_sectio({"listen", "rast", "--tonic", "D4", "--drone", "D3,A3", "--alone", "--swell",
                        "2", "--out", file})
                .exit_code
            == 0);
    const auto measured = sectio_json({"measure", "recording", file}).at("drone");
    REQUIRE(measured.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        const auto figure = [&](const char* key) {
            return std::stod(measured.at(i).at(key).get<std::string>());
        };
        const double hz = 440 * std::pow(2, (i == 0 ? -19 : -12) / 12.0);
        CAPTURE(measured.dump());
        CHECK(std::abs(support::cents_between(figure("hz_exact"), hz))
              <= figure("uncertainty_cents"));
    }
}

TEST_CASE("listen: the drone sounds throughout, the caution is said, other kinds are refused") {
    const support::TempDir dir;
    const std::string file = (dir / "a.wav").string();
    const auto outcome =
        run_sectio({"listen", "3/2", "--tonic", "D4", "--drone", "D3", "--alone", "--out", file});
    REQUIRE(outcome.exit_code == 0);
    CHECK(contains(outcome.out, "Caution"));
    const support::Sound sound = support::read_sound(file);
    const double drone = 440 * std::pow(2, -19 / 12.0);
    CHECK(std::abs(support::cents_between(support::measured_hz(sound, 2.5, 2, drone), drone))
          < 0.05);
    CHECK(contains(refusal({"listen", "3/2", "--out", (dir / "a.mp3").string()}), ".wav"));
    CHECK(contains(refusal({"listen", "3/2", "--tonic", "C-2"}), "--tonic"));
}

TEST_CASE("listen: a score sounds in the scale, every note within 0.02 cents") {
    const support::TempDir dir;
    const std::string file = (dir / "tune.wav").string();
    const json answer =
        sectio_json({"listen", tune(), "--system", "quarter-comma-meantone", "--out", file});
    CHECK(answer.at("count") == 24);
    CHECK(answer.at("left_out").empty());
    CHECK(answer.at("unmatched").empty());
    const json& notes = answer.at("notes");
    REQUIRE(notes.size() == 24);
    // D, E, F♯ from a C4 9 keys below 440 Hz: two, four and six fifths of 5^(1/4).
    for (const auto& [place, cents] : {std::pair{0U, 193.157}, {1U, 386.314}, {2U, 579.471}})
        CHECK(number(notes.at(place), "hz")
              == Approx(440 * std::exp2(-9 / 12.0 + cents / 1200)).margin(0.001));
    const support::Sound sound = support::read_sound(file);
    CHECK(static_cast<double>(sound.samples.size()) == 48'000 * number(answer, "seconds"));
    CHECK(sound.peak(0, 1000) <= 0.25);
    for (const json& note : notes) {
        CAPTURE(note);
        const double hz = number(note, "hz");
        const double measured = support::measured_hz(sound, number(note, "start_s") + 0.02,
                                                     number(note, "seconds") - 0.08, hz * 1.0005);
        CHECK(std::abs(support::cents_between(measured, hz)) < 0.02);
    }
}

TEST_CASE("listen: a MIDI file is taken too, from standard input, over a drone") {
    const support::TempDir dir;
    const std::string midi = (dir / "a.mid").string(), wave = (dir / "a.wav").string();
    using namespace sectio;
    std::vector<midi::Event> events{midi::note_on(0, 0, 67, 90), midi::note_on(0, 9, 40, 90),
                                    midi::pitch_bend(480, 0, 0), midi::note_off(4800, 0, 67),
                                    midi::note_off(4800, 9, 40)};
    support::write_file(midi, midi::file_bytes({0, {480, 0}, {{events, 4800}}, {}}));
    const auto outcome =
        run_sectio({"listen", "-", "--system", "53", "--drone", "C3", "--json", "--out", wave},
                   {support::read_file(midi)});
    REQUIRE(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    CHECK(answer.at("count") == 1);
    CHECK(answer.at("left_out").at("percussion") == 1);
    CHECK(answer.at("drone_hz") == "130.81278");
    const double hz = 440 * std::exp2(-9 / 12.0 + 31 / 53.0), drone = 440 * std::exp2(-21 / 12.0);
    const support::Sound sound = support::read_sound(wave);
    const auto off = [&](double start, double wanted) {
        return std::abs(
            support::cents_between(support::measured_hz(sound, start, 1, wanted), wanted));
    };
    CHECK(off(1, hz * std::exp2(-2 / 12.0)) < 0.05); // bent down by two semitones at 0.5 s
    CHECK(off(2.5, drone) < 0.05);
}

TEST_CASE("listen: of a score that cannot be heard the reason is said and nothing is written") {
    const support::TempDir dir;
    const std::string out = (dir / "a.wav").string(), cut = (dir / "cut.musicxml").string();
    const std::string whole = support::read_file(tune());
    support::write_file(cut, whole.substr(0, whole.size() / 2));
    CHECK(contains(refusal({"listen", cut, "--system", "19", "--out", out}), "cut.musicxml"));
    support::write_file(dir / "cut.mid", std::string("MThd\0\0\0\6\0\0\0\1\1", 13));
    CHECK(contains(refusal({"listen", (dir / "cut.mid").string(), "--system", "19", "--out", out}),
                   "cut.mid"));
    refusal({"listen", (dir / "absent.mid").string(), "--system", "19", "--out", out}, 3);
    CHECK(contains(refusal({"listen", tune(), "--out", out}), "--system ID"));
    CHECK(contains(refusal({"listen", tune(), "--system", "19", "--alone"}), "--alone"));
    CHECK(contains(refusal({"listen", tune(), "--system", "19", "--seconds", "2"}), "--seconds"));
    CHECK(contains(refusal({"listen", tune(), "--system", "19", "--drone", "C-2"}), "16"));
    CHECK(contains(refusal({"listen", tune(), "--system", "19", "--out", (dir / "a.mp3").string()}),
                   ".wav"));
    CHECK_FALSE(support::fs::exists(out));
    const std::string same = (dir / "same.wav").string();
    support::write_file(same, whole);
    CHECK(contains(refusal({"listen", same, "--system", "19", "--out", same}, 3), "same.wav"));
    CHECK(support::read_file(same) == whole);
}

TEST_CASE("listen: tempo and transposition move every note exactly, and refuse what is neither") {
    const json plain = sectio_json({"listen", tune(), "--system", "19"}),
               half = sectio_json({"listen", tune(), "--system", "19", "--tempo", "50%", "--drone",
                                   "D3", "--transpose", "-9/8"}),
               slow = sectio_json({"listen", tune(), "--system", "19", "--tempo", "60"});
    REQUIRE(plain.at("notes").size() == half.at("notes").size());
    const json &before = plain.at("notes").back(), &after = half.at("notes").back();
    CHECK(number(after, "start_s") == Approx(2 * number(before, "start_s")).margin(0.002));
    CHECK(number(after, "hz") == Approx(number(before, "hz") * 8 / 9).margin(0.001));
    // The drone moves with the music: D3, 19 keys below 440 Hz, a whole tone of 9/8 lower.
    CHECK(number(half, "drone_hz") == Approx(440 * std::exp2(-19 / 12.0) * 8 / 9).margin(0.001));
    const json &first = slow.at("notes").at(0), &second = slow.at("notes").at(1);
    CHECK(number(second, "start_s") - number(first, "start_s") == 1); // quarter notes
    const json scale = sectio_json({"listen", "9/8", "--tonic", "D4", "--transpose", "4/3"});
    CHECK(number(scale.at("notes").at(0), "hz")
          == Approx(440 * std::exp2(-7 / 12.0) * 4 / 3).margin(0.001));
    CHECK(scale.at("notes").at(0).at("note") == "G4");
    for (const char* tempo : {"fast", "0", "60bpm", "%", "1%", "5000%"})
        CHECK(contains(refusal({"listen", tune(), "--system", "19", "--tempo", tempo}), "75%"));
    CHECK(contains(refusal({"listen", "9/8", "--tempo", "60"}), "--seconds"));
    CHECK(contains(refusal({"listen", "9/8", "--transpose", "2"}), "--transpose"));
}
