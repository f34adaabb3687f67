// sectio measure recording and sectio samples, as a user runs them.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"
#include "support/tones.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <iostream>

using nlohmann::json;
using support::Outcome;
using support::run_sectio;
using support::Tone;

namespace {

std::string sound(double hz, double seconds = 0.7, int rate = 22050) {
    return support::wave_file(
        support::tone(
            {.hz = hz, .seconds = seconds, .rate = static_cast<double>(rate), .noise_db = 50}),
        rate);
}

Outcome in(const support::TempDir& folder, std::vector<std::string> arguments) {
    return run_sectio(arguments, {.folder = folder.path()});
}

json json_of(const Outcome& outcome) {
    INFO(outcome.err);
    REQUIRE(outcome.exit_code == 0);
    return support::json_of(outcome.out);
}

double number(const json& text) {
    return std::stod(text.get<std::string>());
}

void write_scale(const support::TempDir& folder) {
    std::vector<std::vector<float>> parts;
    for (double cents : {0, 204, 386, 498, 702})
        parts.push_back(
            support::tone({.hz = 220 * std::exp2(cents / 1200), .rate = 22050, .noise_db = 50}));
    support::write_file(folder / "scale.wav", support::wave_file(support::joined(parts), 22050));
}

} // namespace

TEST_CASE("measure recording lists a scale's pitches and writes it down") {
    const support::TempDir folder;
    write_scale(folder);
    const json answer = json_of(in(folder, {"measure", "recording", "scale.wav", "--json"}));
    REQUIRE(answer["pitches"].size() == 5);
    const json& third = answer["pitches"][2];
    CHECK(number(third["cents"]) == Approx(386).margin(0.2));
    CHECK(third["note"] == "C#4");
    CHECK(number(third["deviation_cents"]) == Approx(-14).margin(0.2));
    CHECK(number(third["uncertainty_cents"]) < 0.2);
    CHECK(answer["tonic"]["note"] == "A3");
    CHECK(answer["notes"].size() == 5);
    CHECK(in(folder, {"measure", "recording", "scale.wav", "--out", "scale.toml"}).exit_code == 0);
    const json sheet = json_of(in(folder, {"sheet", "scale.toml", "--json"}));
    CHECK(number(sheet["degrees"][2]["cents"]) == Approx(386).margin(0.2));
    CHECK(in(folder, {"measure", "recording", "scale.wav", "--out", "notes.csv"}).exit_code == 0);
    CHECK(in(folder, {"identify", "notes.csv"}).exit_code == 0);
}

TEST_CASE("measure recording draws its picture in every format") {
    const support::TempDir folder;
    write_scale(folder);
    for (const auto& [name, magic] :
         {std::pair{"p.pdf", "%PDF"}, {"p.svg", "<?xml"}, {"p.png", "\x89PNG"}}) {
        const Outcome outcome =
            in(folder, {"measure", "recording", "scale.wav", "--picture", name});
        INFO(outcome.err);
        CHECK(outcome.exit_code == 0);
        CHECK(support::read_file(folder / name).starts_with(magic));
    }
    CHECK(in(folder, {"measure", "recording", "scale.wav", "--picture", "p.gif"}).exit_code == 2);
}

TEST_CASE("measure recording says what is wrong with a file") {
    const support::TempDir folder;
    const auto refusal = [&](const std::string& name, const std::string& bytes) {
        support::write_file(folder / name, bytes);
        return in(folder, {"measure", "recording", name});
    };
    const auto check = [](const Outcome& outcome, int code, const std::string& words) {
        INFO(outcome.err);
        CHECK(outcome.exit_code == code);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find(words) != std::string::npos);
    };
    check(in(folder, {"measure", "recording", "none.wav"}), 3, "none.wav: the file cannot be read");
    check(refusal("text.wav", "this is no sound"), 2, "no sound file");
    check(refusal("empty.wav", ""), 2, "the file holds no sound at all");
    check(refusal("head.wav", sound(220).substr(0, 44)), 2, "no sound");
    std::string lying = sound(220);
    lying.replace(24, 4, std::string("\x02\0\0\0", 4));
    check(refusal("rate.wav", lying), 2, "2 frames a second");
    check(refusal("silent.wav", support::wave_file(support::silence(1, 22050), 22050)), 2,
          "silent");
    check(refusal("noise.wav", support::wave_file(support::noise(1, 22050), 22050)), 2,
          "steady pitch");
}

TEST_CASE("A file cut short is measured, and said to be cut short") {
    const support::TempDir folder;
    const std::string whole = sound(220, 2);
    support::write_file(folder / "cut.wav", whole.substr(0, whole.size() / 2));
    const json answer = json_of(in(folder, {"measure", "recording", "cut.wav", "--json"}));
    CHECK(number(answer["pitches"][0]["hz"]) == Approx(220).margin(0.05));
    REQUIRE(answer["remarks"].size() == 1);
    CHECK(answer["remarks"][0].get<std::string>().find("header claims") != std::string::npos);
}

TEST_CASE("samples writes copies that differ in the sampler chunk alone") {
    const support::TempDir folder;
    const std::string original = sound(221);
    support::write_file(folder / "a.wav", original);
    support::write_file(folder / "noise.wav", support::wave_file(support::noise(1, 22050), 22050));
    const Outcome outcome =
        in(folder, {"samples", "a.wav", "noise.wav", "--scale", "9/8,5/4,4/3,3/2", "--tonic", "A3",
                    "--set", "natural,tempered,scale", "--out", "sets", "--json"});
    const json answer = json_of(outcome);
    CHECK(outcome.err.find("noise.wav") != std::string::npos);
    REQUIRE(answer["samples"].size() == 1);
    const json& sample = answer["samples"][0];
    const double cents = 1200 * std::log2(221.0 / 220);
    CHECK(sample["key"] == 57);
    CHECK(number(sample["fraction_cents"]) == Approx(cents).margin(0.05));
    CHECK(number(sample["to_degree_cents"]) == Approx(-cents).margin(0.05));
    CHECK(sample["natural"]["fraction"] == 0);
    for (const std::string set : {"natural", "tempered", "scale"}) {
        const std::string copy = support::read_file(folder / "sets" / set / "a.wav");
        CHECK(copy.size() == original.size() + 44);
        CHECK(copy.substr(8, original.size() - 8) == original.substr(8));
        CHECK(copy.substr(original.size(), 4) == "smpl");
        CHECK(support::read_file(folder / "sets" / set / "samples.csv").find("a.wav")
              != std::string::npos);
    }
    CHECK(support::read_file(folder / "a.wav") == original);
    CHECK(in(folder, {"samples", "a.wav", "--out", "."}).exit_code == 3);
    CHECK(support::read_file(folder / "a.wav") == original);
    CHECK(in(folder, {"samples", "a.wav", "--set", "scale"}).exit_code == 2);
}

TEST_CASE("A general tool reads the sampler chunk back") {
    if (!support::has_program("sndfile-info"))
        SECTIO_SKIP("sndfile-info is not installed");
    const support::TempDir folder;
    support::write_file(folder / "a.wav",
                        sound(220 * std::exp2(0.5 / 12))); // half a semitone above A3
    REQUIRE(in(folder, {"samples", "a.wav", "--out", "out"}).exit_code == 0);
    const std::string info =
        support::run({"sndfile-info", (folder / "out" / "a.wav").string()}).out;
    INFO(info);
    CHECK(info.find("smpl : 36") != std::string::npos);
    CHECK(info.find("57") != std::string::npos);
}

TEST_CASE("A folder of sound files is one measurement") {
    const support::TempDir folder;
    std::filesystem::create_directory(folder / "notes");
    support::write_file(folder / "notes/b.wav", sound(330));
    support::write_file(folder / "notes/a.wav", sound(220));
    support::write_file(folder / "notes/read.txt", "no sound");
    const json answer = json_of(in(folder, {"measure", "recording", "notes", "--json"}));
    REQUIRE(answer["pitches"].size() == 2);
    CHECK(answer["pitches"][1]["label"] == "b");
    std::filesystem::create_directory(folder / "empty");
    const Outcome empty = in(folder, {"measure", "recording", "empty"});
    CHECK(empty.exit_code == 2);
    CHECK(empty.err.find("no sound file") != std::string::npos);
}

TEST_CASE("Partials are listed of a sound, and never of a table of a pitch track") {
    const support::TempDir folder;
    support::write_file(folder / "a.wav", sound(220, 2));
    const auto partials = [&](const std::string& file, std::vector<std::string> more) {
        more.insert(more.begin(), {"measure", "recording", file, "--partials"});
        return run_sectio(more, {.input = sound(220, 2), .folder = folder.path()});
    };
    const json named = json_of(partials("a.wav", {"--json"}));
    CHECK(named["sounds"][0]["note"] == "A3");
    CHECK(named["partials"][1]["number"] == 2);
    CHECK(json_of(partials("-", {"--json"}))["partials"].size() == named["partials"].size());
    REQUIRE(partials("a.wav", {"--out", "p.csv"}).exit_code == 0);
    CHECK(support::read_file(folder / "p.csv").starts_with("file,start,number,hz,"));
    CHECK(partials("a.wav", {"--out", "p.toml"}).exit_code == 2); // which is no scale
    support::write_file(folder / "track.csv", "0,220\n0.01,220\n");
    const Outcome track = partials("track.csv", {});
    CHECK(track.exit_code == 2);
    CHECK(track.err.find("track.csv: a table of a pitch track has no partials")
          != std::string::npos);
}

TEST_CASE("Recordings of one scale over a drone, each without some notes, are put together") {
    const support::TempDir folder;
    std::filesystem::create_directory(folder / "takes");
    const auto take = [&](const char* name, const char* tonic, const char* scale) {
        CHECK(in(folder, {"listen", scale, "--tonic", tonic, "--alone", "--drone", "D3", "--out",
                          std::string("takes/") + name})
                  .exit_code
              == 0);
    };
    take("low.wav", "E3", "316c,600c");      // E3, G3 + 16 c, B♭3, E4
    take("high.wav", "G3+16c", "284c,684c"); // G3 + 16 c, B♭3, D4, G4 + 16 c
    const json answer = json_of(in(folder, {"measure", "recording", "takes", "--json"}));
    CHECK(answer["tonic"]["basis"] == "the drone");
    CHECK(answer["tonic"]["note"] == "D3");
    const std::vector<double> cents{200, 516, 800, 1200, 1400, 1716};
    REQUIRE(answer["pitches"].size() == cents.size()); // no octave of D4, whose partials ring on
    for (std::size_t i = 0; i < cents.size(); ++i) {
        const double off = number(answer["pitches"][i]["cents_exact"]) - cents[i];
        CHECK(std::abs(off) <= number(answer["pitches"][i]["uncertainty_cents_exact"]));
    }
    CHECK(answer["pitches"][1]["notes"] == 2);
}

TEST_CASE("A zither over its drone goes the whole way to a sheet") {
    const support::TempDir folder;
    const std::string zither = (support::data_dir() / "examples/sundhall-zither.toml").string();
    REQUIRE(in(folder, {"listen", zither, "--drone", "D3", "--out", "z.wav"}).exit_code == 0);
    const json heard = json_of(in(folder, {"listen", zither, "--drone", "D3", "--json"}));
    const json answer = json_of(in(folder, {"measure", "recording", "z.wav", "--json"}));
    REQUIRE(answer["drone"].size() == 1);
    CHECK(answer["drone"][0]["note"] == "D3");
    CHECK(answer["tonic"]["note"] == "D4");
    CHECK(answer["notes"].size() >= heard["notes"].size() - 1);
    for (const json& note : answer["notes"]) {
        double nearest = 1e9;
        for (const json& played : heard["notes"])
            nearest = std::min(
                nearest, std::abs(1200 * std::log2(number(note["hz"]) / number(played["hz"]))));
        CHECK(nearest < 0.5);
    }
    CHECK(
        in(folder, {"measure", "recording", "z.wav", "--drone", "D3", "--out", "z.toml"}).exit_code
        == 0);
    CHECK(in(folder, {"sheet", "z.toml", "--out", "z.pdf"}).exit_code == 0);
}
