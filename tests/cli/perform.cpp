// The command `perform` by its real output, on the invented tune of the examples.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/midi_ear.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using nlohmann::json;
using support::run_sectio;

namespace {

std::string tune() {
    return (support::data_dir() / "examples/goose-walk.musicxml").string();
}

} // namespace

TEST_CASE("perform: a note gets the pitch that annotate says") {
    const support::TempDir dir;
    const std::string out = (dir / "out.mid").string();
    const auto outcome = run_sectio(
        {"perform", tune(), "--system", "quarter-comma-meantone", "--out", out, "--json"});
    REQUIRE(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    CHECK(answer.at("notes") == 24);
    CHECK(answer.at("channels").get<int>() > 0);
    CHECK(answer.at("crowded").empty());
    CHECK(answer.at("unmatched").empty());
    CHECK(std::stod(answer.at("worst_error_cents").get<std::string>()) < 0.0125);
    const support::Heard heard = support::heard(support::read_file(out));
    REQUIRE(heard.notes.size() == 24);
    // D, E, F♯ from C: two, four and six fifths of 5^(1/4): 193.157, 386.314, 579.471 cents.
    CHECK(100 * (heard.notes[0].key - 60) == Approx(193.157).margin(0.013));
    CHECK(100 * (heard.notes[1].key - 60) == Approx(386.314).margin(0.013));
    CHECK(100 * (heard.notes[2].key - 60) == Approx(579.471).margin(0.013));
    CHECK(heard.texts.at(0) == "The Goose Walk (invented)");
}

TEST_CASE("perform: --transpose moves every note by an exact interval") {
    const support::TempDir dir;
    const std::string plain = (dir / "plain.mid").string(), higher = (dir / "higher.mid").string();
    REQUIRE(run_sectio({"perform", tune(), "--system", "19", "--out", plain}).exit_code == 0);
    REQUIRE(run_sectio({"perform", tune(), "--system", "19", "--transpose", "5/4", "--out", higher})
                .exit_code
            == 0);
    const support::Heard before = support::heard(support::read_file(plain)),
                         after = support::heard(support::read_file(higher));
    REQUIRE(after.notes.size() == before.notes.size());
    for (std::size_t i = 0; i < after.notes.size(); ++i) // 5/4 is 386.314 cents
        CHECK(100 * (after.notes[i].key - before.notes[i].key) == Approx(386.314).margin(0.026));
}

TEST_CASE("perform: a MIDI file is taken too, and from standard input") {
    const support::TempDir dir;
    const std::string first = (dir / "first.mid").string(), second = (dir / "second.mid").string();
    REQUIRE(run_sectio({"perform", tune(), "--system", "12", "--out", first}).exit_code == 0);
    REQUIRE(run_sectio({"perform", "-", "--system", "19", "--reference", "A4=442", "--out", second},
                       {support::read_file(first)})
                .exit_code
            == 0);
    const support::Heard heard = support::heard(support::read_file(second));
    REQUIRE(heard.notes.size() == 24);
    // D4 is 3 of 19 steps above a C4 that lies 9 keys below 442 Hz (7.851 cents above 440 Hz).
    CHECK(100 * (heard.notes[0].key - 60) == Approx(3 * 1200.0 / 19 + 7.851).margin(0.013));
}

TEST_CASE("perform: what cannot be meant is refused, and nothing is left half written") {
    const support::TempDir dir;
    const std::string damaged = (dir / "damaged.mid").string(), out = (dir / "out.mid").string();
    support::write_file(damaged, std::string("MThd\0\0\0\6\0\0\0\1\1", 13));
    const auto outcome = run_sectio({"perform", damaged, "--system", "19", "--out", out});
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.err.find("damaged.mid") != std::string::npos);
    CHECK(!std::filesystem::exists(out));
    CHECK(run_sectio({"perform", tune()}).exit_code == 2);
    CHECK(run_sectio({"perform", tune(), "--system", "19", "--out", "x.wav"}).exit_code == 2);
    CHECK(run_sectio({"perform", tune(), "--system", "19", "--bend-range", "0"}).exit_code == 2);
    const auto both = run_sectio({"perform", tune(), "--system", "19", "--scale", "rast"});
    CHECK(both.err.find("leave --scale or --system out") != std::string::npos);
    CHECK(run_sectio({"perform", (dir / "absent").string(), "--system", "19"}).exit_code == 3);
}

TEST_CASE("perform: by tuning messages the file has no bends, and says what tunes it") {
    const support::TempDir dir;
    const std::string out = (dir / "out.mid").string();
    const auto outcome = run_sectio({"perform", tune(), "--system", "quarter-comma-meantone",
                                     "--by", "tuning", "--out", out, "--json"});
    REQUIRE(outcome.exit_code == 0);
    const json answer = support::json_of(outcome.out);
    CHECK(answer.at("by") == "tuning");
    CHECK(answer.at("message") == "octave-2");
    CHECK(answer.at("channels") == 1);
    CHECK(answer.at("retunings") == 0);
    const support::Heard heard = support::heard(support::read_file(out));
    REQUIRE(heard.notes.size() == 24);
    CHECK(100 * (heard.notes[0].key - 60) == Approx(193.157).margin(0.0062));
    CHECK(100 * (heard.notes[2].key - 60) == Approx(579.471).margin(0.0062));
    for (const char* const option : {"--bend-range=2", "--channels=mpe"})
        CHECK(run_sectio({"perform", tune(), "--system", "19", "--by", "tuning", option}).exit_code
              == 2);
}

TEST_CASE("perform: a general MIDI library reads the same notes, bends and messages") {
    const std::string python = "/usr/bin/python3";
    if (!support::has_program("python3")
        || support::run({python, "-c", "import mido"}).exit_code != 0)
        SECTIO_SKIP("python3-mido is not installed");
    const std::string script = "import mido, sys\n"
                               "time = notes = 0\n"
                               "kinds = {}\n"
                               "file = mido.MidiFile(sys.argv[1])\n"
                               "for message in mido.merge_tracks(file.tracks):\n"
                               "    time += message.time\n"
                               "    kinds[message.type] = kinds.get(message.type, 0) + 1\n"
                               "    if message.type == 'note_on' and message.velocity > 0:\n"
                               "        print(time, message.channel, message.velocity)\n"
                               "print('bends' if 'pitchwheel' in kinds else 'no bends',\n"
                               "      kinds.get('sysex', 0))\n";
    const support::TempDir dir;
    const std::string out = (dir / "out.mid").string();
    for (const auto& [options, end] :
         {std::pair<std::vector<std::string>, std::string>{{"--by", "bend"}, "bends 0\n"},
          {{"--channels", "mpe"}, "bends 0\n"},
          {{"--by", "tuning"}, "no bends 1\n"},
          {{"--by", "tuning", "--message", "bulk-dump"}, "no bends 1\n"}}) {
        std::vector<std::string> arguments{"perform", tune(), "--system", "quarter-comma-meantone",
                                           "--out",   out};
        arguments.insert(arguments.end(), options.begin(), options.end());
        REQUIRE(run_sectio(arguments).exit_code == 0);
        std::string wanted;
        for (const auto& note : support::heard(support::read_file(out)).notes)
            wanted += std::to_string(note.begin) + " " + std::to_string(note.channel) + " "
                      + std::to_string(note.velocity) + "\n";
        const auto read = support::run({python, "-c", script, out});
        CAPTURE(read.err);
        CHECK(read.out == wanted + end);
    }
}
