// The command `tuning` by its real output: files, JSON, refusals.

#include <catch2/catch.hpp>
#include <support/bytes.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>
#include <support/refusal.hpp>

#include <cmath>

using nlohmann::json;
using support::refusal;
using support::run_sectio;
using support::sectio_json;

namespace {

bool contains(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("tuning: a bulk dump, its fields and its file") {
    const support::TempDir dir;
    const std::string file = (dir / "rast.syx").string();
    const json answer =
        sectio_json({"tuning", "rast", "--tonic", "D4", "--keys", "12", "--out", file});
    const std::string bytes = support::read_file(file);
    CHECK(bytes.size() == 408);
    REQUIRE(answer.at("messages").size() == 1);
    const json message = answer.at("messages").at(0);
    CHECK(message.at("kind") == "bulk-dump");
    CHECK(message.at("length") == 408);
    CHECK(support::bytes(message.at("bytes").get<std::string>()) == bytes);
    json third;
    for (const json& key : answer.at("keys"))
        if (key.at("key") == 66)
            third = key;
    CHECK(third.at("degree") == 3);
    CHECK(third.at("hz") == "366.7825"); // 17 of 53 above D4
    CHECK(third.at("cents") == "384.906");
    CHECK(third.at("deviation_cents") == "-15.094");
    CHECK(third.at("word") == "41 6C 57"); // 65.84906 keys
    CHECK(std::abs(std::stod(answer.at("worst_error_cents").get<std::string>())) <= 0.00306);
}

TEST_CASE("tuning: what is written is read back as a scale file, within half a unit") {
    const support::TempDir dir;
    const std::string wanted = "9/8,5/4,4/3,3/2,5/3,15/8";
    for (const char* kind : {"a.syx", "a.mid"}) {
        CAPTURE(kind);
        const std::string file = (dir / kind).string(), scale = (dir / "a.toml").string();
        REQUIRE(run_sectio({"tuning", wanted, "--tonic", "D4", "--out", file}).exit_code == 0);
        const json answer = sectio_json({"tuning", "read", file, "--tonic", "D4", "--out", scale});
        CHECK(answer.at("period") == "2/1");
        CHECK(answer.at("tonic") == "D4");
        const json back = sectio_json({"sheet", scale}), first = sectio_json({"sheet", wanted});
        REQUIRE(back.at("degrees").size() == first.at("degrees").size());
        for (std::size_t i = 0; i < 7; ++i) {
            const auto cents = [i](const json& sheet) {
                return std::stod(sheet.at("degrees").at(i).at("cents").get<std::string>());
            };
            CHECK(std::abs(cents(back) - cents(first)) <= 0.0062); // half a unit of two words
        }
    }
}

TEST_CASE("tuning: a scale that a message cannot say is refused with the way out") {
    const std::string octave =
        refusal({"tuning", "rast", "--message", "octave-1", "--keys", "degree"});
    CHECK(contains(octave, "one offset for all octaves"));
    CHECK(contains(octave, "--keys 12"));
    const std::string range =
        refusal({"tuning", "100c,170c", "--mapping", "1,3,-,-,-,-,-,-,-,-,-,-", "--anchor", "C4",
                 "--message", "08-08"});
    CHECK(contains(range, "C# lies 70.0 cents from its key"));
    CHECK(contains(range, "-64 to 63"));
    CHECK(contains(refusal({"tuning", "rast", "--message", "dump"}), "bulk-dump"));
    CHECK(contains(refusal({"tuning", "rast", "--anchor", "128"}), "--anchor"));
    for (const char* no_key : {"D4-14c", "293Hz", "D\U0001D1324", "-1", "1000"})
        CHECK(contains(refusal({"tuning", "rast", "--anchor", no_key}), "no such key"));
    CHECK(contains(refusal({"tuning", "rast", "--out", "a.wav"}), ".syx"));
    CHECK(contains(refusal({"tuning"}), "tuning read FILE"));
}

TEST_CASE("tuning read: damaged files are refused, and nothing is written") {
    const support::TempDir dir;
    support::write_file(dir / "cut.syx", support::bytes("F07E7F080100"));
    support::write_file(dir / "text.syx", "no dump at all");
    support::write_file(dir / "none.mid", "MThd");
    for (const char* name : {"cut.syx", "text.syx", "none.mid"}) {
        CAPTURE(name);
        const std::string file = (dir / name).string();
        CHECK(
            contains(refusal({"tuning", "read", file, "--out", (dir / "a.toml").string()}), name));
    }
    CHECK_FALSE(support::fs::exists(dir / "a.toml"));
    refusal({"tuning", "read", (dir / "absent.syx").string()}, 3);
    const std::string file = (dir / "own.syx").string();
    REQUIRE(run_sectio({"tuning", "rast", "--out", file}).exit_code == 0);
    CHECK(contains(refusal({"tuning", "read", file, "--program", "5"}), "--program"));
    CHECK(contains(refusal({"tuning", "read", file, "--tonic", "C-1"}), "do not tune this key"));
}

TEST_CASE("tuning: what comes from standard input is read like a file") {
    const support::TempDir dir;
    const std::string file = (dir / "own.syx").string();
    REQUIRE(run_sectio({"tuning", "rast", "--out", file}).exit_code == 0);
    const auto piped =
        run_sectio({"tuning", "read", "-", "--json"}, {.input = support::read_file(file)});
    REQUIRE(piped.exit_code == 0);
    CHECK(support::json_of(piped.out).at("keys")
          == sectio_json({"tuning", "read", file}).at("keys"));
    CHECK(contains(run_sectio({"tuning", "read", "-"}, {.input = "no tuning"}).err,
                   "standard input"));
}

TEST_CASE("tuning read: tunings of channels are listed apart, and each is chosen by its channel") {
    const support::TempDir dir;
    std::string both;
    for (const char* tonic : {"D4", "E4"}) {
        const std::string file = (dir / "one.syx").string();
        REQUIRE(run_sectio({"tuning", "rast", "--tonic", tonic, "--keys", "12", "--message",
                            "octave-2", "--channels", tonic[0] == 'D' ? "1" : "2,3", "--out", file})
                    .exit_code
                == 0);
        both += support::read_file(file);
    }
    const std::string file = (dir / "both.syx").string();
    support::write_file(file, both);
    const auto read = [&](std::vector<std::string> more) {
        more.insert(more.begin(), {"tuning", "read", file});
        return sectio_json(more);
    };
    const json first = read({});
    REQUIRE(first.at("tunings").size() == 2);
    CHECK(first.at("tunings").at(0).at("channels") == "1");
    CHECK(first.at("tunings").at(1).at("channels") == "2, 3");
    CHECK(first.at("tunings").at(0).at("program").is_null());
    CHECK(read({"--channel", "1"}).at("keys") == first.at("keys"));
    const json key = read({"--channel", "3"}).at("keys").at(66); // Rast's second above E
    CHECK(key.at("key") == 66);
    CHECK(std::stod(key.at("deviation_cents").get<std::string>()) > 0);
    CHECK(contains(refusal({"tuning", "read", file, "--channel", "4"}), "--channel"));
}
