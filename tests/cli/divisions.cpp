// The command `divisions` by its real output.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using nlohmann::json;
using support::run_sectio;

namespace {

json answer(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "divisions");
    return support::sectio_json(std::move(arguments));
}

std::vector<int> numbers(const json& table) {
    std::vector<int> result;
    for (const json& row : table.at("divisions"))
        result.push_back(row.at("division").get<int>());
    return result;
}

} // namespace

TEST_CASE("Without options: the 15-odd-limit in 1 to 100") {
    const json table = answer({});
    CHECK(table.at("targets").size() == 48);
    REQUIRE(table.at("divisions").size() == 100);
    const json& twelve = table.at("divisions").at(11);
    CHECK(twelve.at("division") == 12);
    // 12/11 is 150.637 cents, 16/13 359.472, 11/8 551.318: by hand from a table of logarithms.
    CHECK(twelve.at("max_error_cents") == "49.363");
    CHECK(twelve.at("worst") == "12/11");
    CHECK(twelve.at("consistent") == false);
    CHECK(table.at("divisions").at(28).at("consistent") == true); // 29
}

TEST_CASE("Records, orders and rows to show") {
    CHECK(numbers(answer({"--targets", "3/2", "--records", "--to", "60"}))
          == std::vector{1, 2, 3, 5, 7, 12, 29, 41, 53});
    CHECK(numbers(answer(
              {"--targets", "3/2", "--records", "--to", "60", "--sort", "max", "--show", "2"}))
          == std::vector{53, 41});
    CHECK(numbers(answer({"--targets", "3/2", "--to", "60", "--sort", "rms", "--show", "4"}))
          == std::vector{53, 41, 29, 58}); // the fifth of 58 is that of 29
    CHECK(numbers(answer({"--from", "20", "--to", "30", "--show", "3"}))
          == std::vector{20, 21, 22});
    CHECK(numbers(answer({"--targets", "odd:5", "--from", "12", "--to", "12"})) == std::vector{12});
}

TEST_CASE("A scale brings its period along, and its degrees as targets") {
    const json table =
        answer({"--targets", "pythagorean-12", "--to", "53", "--sort", "max", "--show", "1"});
    CHECK(table.at("targets").size() == 11);
    CHECK(table.at("divisions").at(0).at("division") == 53);
    CHECK(answer({"--targets", "3/2, 5/4, 31of53"}).at("targets").size() == 3);
}

TEST_CASE("Other periods") {
    const json table = answer({"--targets", "primes:7", "--period", "3/1", "--from", "13", "--to",
                               "13", "--digits", "2"});
    CHECK(table.at("period") == "3/1");
    CHECK(table.at("targets").size() == 3); // 2, 5, 7
    const json& row = table.at("divisions").at(0);
    CHECK(row.at("division") == "13(3/1)");
    CHECK(row.at("consistent").is_null());
    CHECK(row.at("worst") == "2/1");
    // 8 of 13 steps of 1901.955 cents are 1170.434, 29.566 from the octave.
    CHECK(row.at("max_error_cents") == "29.57");
}

TEST_CASE("Ten million divisions are searched for records") {
    const json table = answer({"--targets", "5/4", "--records", "--to", "10000000", "--show", "3"});
    CHECK(numbers(table) == std::vector{1, 2, 3});
}

TEST_CASE("Divisions that cannot be tabulated are refused and say what could be") {
    const std::pair<std::vector<std::string>, const char*> cases[] = {
        {{"--to", "10000001"}, "1 to 10000000"},
        {{"--from", "0"}, "1 to 10000000"},
        {{"--from", "9", "--to", "3"}, "--from 1 --to 100"},
        {{"--to", "200000"}, "--show"},
        {{"--targets", "odd:1000"}, "221"},
        {{"--targets", "2/1"}, "3/2"},
        {{"--targets", "primes:"}, "primes:13"},
        {{"--period", "1/1"}, "3/1"},
        {{"--sort", "worst"}, "number"},
        {{"--show", "0"}, "--show"},
        {{"--to", "1e9"}, "--to"}};
    for (const auto& [options, advice] : cases) {
        std::vector<std::string> arguments{"divisions"};
        arguments.insert(arguments.end(), options.begin(), options.end());
        const auto outcome = run_sectio(arguments);
        CAPTURE(options, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find(advice) != std::string::npos);
    }
}

TEST_CASE("Targets stand after the command as after their option") {
    const std::vector<std::string> fifths{"3/2,5/4", "--to", "60", "--records"};
    CHECK(answer(fifths) == answer({"--targets", "3/2,5/4", "--to", "60", "--records"}));
    CHECK(run_sectio({"divisions", "3/2", "--targets", "5/4"}).exit_code == 2);
}

TEST_CASE("The relative error ranks divisions by the largest error in steps") {
    const json table =
        answer({"--targets", "3/2", "--to", "60", "--sort", "relative", "--show", "2"});
    CHECK(numbers(table) == std::vector{53, 41});
    CHECK(table.at("divisions").at(0).at("max_error_steps") == "0.003");
    const auto text = run_sectio(
        {"divisions", "--targets", "3/2", "--records", "--sort", "relative", "--to", "12"});
    CHECK(text.out.find("records of the maximum error in steps") != std::string::npos);
}

TEST_CASE("Where no target errs there is no worst one") {
    const json table = answer({"--targets", "7of12,4of12", "--from", "12", "--to", "12"});
    CHECK(table.at("divisions").at(0).at("worst").is_null());
    CHECK(run_sectio({"divisions", "--targets", "7of12", "--from", "12", "--to", "12"})
              .out.find("  -      -\n")
          != std::string::npos);
}

TEST_CASE(
    "Errors that are exactly half a digit are decided where period and cents have no measure") {
    const json table =
        answer({"--targets", "91.0625c", "--period", "3/1", "--from", "3", "--to", "3"});
    CHECK(table.at("divisions").at(0).at("rms_error_cents") == "91.062");
    const json half = answer(
        {"--targets", "0.7c,0.1c", "--digits", "0", "--period", "3/1", "--from", "1", "--to", "1"});
    CHECK(half.at("divisions").at(0).at("rms_error_cents") == "0");
    CHECK(answer({"--targets", "odd:3", "--from", "5", "--to", "5"})
              .at("divisions")
              .at(0)
              .at("consistent")
          == true);
}

TEST_CASE("Periods of commas and targets of long terms have exact errors") {
    const json comma = answer({"--period", "3^53/2^84", "--targets", "3/2", "--from", "63", "--to",
                               "63", "--digits", "9"});
    CHECK(comma.at("divisions").at(0).at("max_error_cents") == "0.004904468");
    const json tiny = answer({"--period", "3^225644606/2^357638239", "--targets", "3/2", "--from",
                              "1", "--to", "1", "--digits", "9"});
    CHECK(tiny.at("divisions").at(0).at("max_error_cents") == "0.000000447");
}

TEST_CASE("divisions draws error against number and gives its table in every format") {
    const support::TempDir folder;
    const std::string csv = (folder.path() / "d.csv").string(),
                      svg = (folder.path() / "d.svg").string();
    const std::vector<std::string> asked{"divisions", "--targets", "3/2",  "--records",
                                         "--to",      "60",        "--out"};
    const auto written = [&](const std::string& file) {
        auto arguments = asked;
        arguments.push_back(file);
        REQUIRE(run_sectio(arguments).exit_code == 0);
        return support::read_file(file);
    };
    const std::string table = written(csv);
    CHECK(table.starts_with(
        "division,max_error_cents,rms_error_cents,max_error_steps,worst,consistent\r\n"));
    CHECK(table.find("\r\n53,0.068,0.068,0.003,3/2,\r\n") != std::string::npos);
    CHECK(written(svg).find("<svg") != std::string::npos);
    CHECK(run_sectio({"divisions", "--out", (folder.path() / "d.xyz").string()}).exit_code == 2);
}
