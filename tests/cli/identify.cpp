// The commands `identify` and `catalogue` by their real output.

#include "support/json.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>

#include <algorithm>

using nlohmann::json;
using support::run_sectio;

namespace {

json answer(std::vector<std::string> arguments, const std::string& input = "") {
    arguments.push_back("--json");
    support::RunOptions options;
    options.input = input;
    const auto outcome = run_sectio(arguments, options);
    CAPTURE(outcome.err);
    REQUIRE(outcome.exit_code == 0);
    return support::json_of(outcome.out);
}

} // namespace

TEST_CASE("identify gives the fields that its page promises") {
    const json fit = answer({"identify", "204c, 385±2c, 498c, 702c, 815c, 1087c"});
    CHECK(fit.at("verdict") == "fits");
    const json& best = fit.at("candidates").at(0);
    CHECK(best.at("id") == "suznak");
    CHECK(best.at("start_degree") == 1);
    CHECK(best.at("matched") == 7);
    CHECK(best.at("of") == 7);
    CHECK(best.at("probability").get<std::string>().starts_with("0."));
    for (const char* key : {"name", "offset_cents", "rms_cents", "worst_cents"})
        CHECK(best.at(key).is_string());
    CHECK(fit.at("pitches").size() == 7);
    CHECK(fit.at("pitches").at(1).at("cents") == "204.000");
    CHECK(fit.at("pitches").at(1).at("readings").at(0).contains("likelihood"));
}

TEST_CASE("identify names scales of equal pitches together") {
    const json both = answer({"identify", "-"}, "cents\n0\n181\n294\n498\n702\n883\n996\n");
    CHECK(both.at("verdict") == "ambiguous");
    std::vector<std::string> named;
    for (const json& c : both.at("candidates"))
        if (c.at("named") == true) {
            named.push_back(c.at("id"));
            for (const json& id : c.at("also"))
                named.push_back(id);
        }
    CHECK(std::count(named.begin(), named.end(), "huseyni") == 1);
    CHECK(std::count(named.begin(), named.end(), "neva") == 1);
    CHECK_FALSE(both.at("distinguish").empty());
}

TEST_CASE("A tonic is read by the input's own reference pitch") {
    const std::string file = "name = \"invented\"\ntonic = \"D4\"\nreference = \"A4 = 415 Hz\"\n"
                             "degrees = [\"9/8\", \"5/4\", \"4/3\", \"3/2\", \"5/3\", \"15/8\"]\n";
    for (const char* tonic : {"D4", "D", "277.0117Hz"}) {
        CAPTURE(tonic);
        const json found = answer({"identify", "-", "--tonic", tonic}, file);
        CHECK(found.at("candidates").at(0).at("id") == "zarlino");
        CHECK(found.at("candidates").at(0).at("start_degree") == 1);
    }
}

TEST_CASE("identify says what its cents are counted from, and keeps what a melody's pitches are") {
    const auto text = [](const std::string& input) {
        support::RunOptions options;
        options.input = input;
        return run_sectio({"identify", "-"}, options).out;
    };
    const std::string melody = text("onset,cents\n0,702\n1,498\n2,386\n3,204\n4,0\n5,204\n6,0\n");
    CHECK(melody.find("in cents above 1/1") != std::string::npos);
    CHECK(melody.find("\n386.0  5/4 +0.3") != std::string::npos);
    CHECK(text("D4, E4, F#4, A4").find("in cents above the first") != std::string::npos);
    CHECK(text("204c, 0c, 386c").find("in cents above 1/1") != std::string::npos);
}

TEST_CASE("identify refuses what is no set of pitches with exit code 2") {
    for (const char* text : {"", ",", "3/2, 440Hz", "1/1", "203.4", "203±c", "-c"}) {
        CAPTURE(text);
        const auto outcome = run_sectio({"identify", text});
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK_FALSE(outcome.err.empty());
    }
    CHECK(run_sectio({"identify", "203c,386c", "--tonic", "D4"}).exit_code == 2);
    for (const char* name :
         {"ditone", "diesis", "comma", "apotome", "Hemitone", "augmented fourth"})
        CHECK(run_sectio({"identify", "1/1,9/8,5/4,4/3", "--tonic", name}).err.find("as a pitch")
              == std::string::npos);
    CHECK(run_sectio({"identify", "1/1,9/8,81/64,4/3", "--tonic", "ditone"}).exit_code == 0);
    CHECK(run_sectio({"identify", "203c,386c", "--spread", "0c"}).exit_code == 2);
}

TEST_CASE("catalogue shows an entry whole, lists many and refuses none") {
    const json rast = answer({"catalogue", "Rast"}).at("entries").at(0);
    CHECK(rast.at("id") == "rast");
    CHECK(rast.at("kind") == "scale");
    CHECK(rast.at("source") != "");
    CHECK(rast.at("degrees").size() == 7);
    CHECK(rast.at("degrees").at(2).at("cents") == "384.906"); // 17 * 1200/53
    CHECK(rast.at("rotations").size() > 0);
    for (const json& entry : answer({"catalogue", "--kind", "comma"}).at("entries"))
        CHECK(entry.at("kind") == "comma");
    const auto none = run_sectio({"catalogue", "huseynni"});
    CHECK(none.exit_code == 2);
    CHECK(none.err.find("huseyni") != std::string::npos);
    CHECK(run_sectio({"catalogue", "--kind", "colour"}).exit_code == 2);
    CHECK(run_sectio({"catalogue"}).out.find("Turkish makam") != std::string::npos);
}
