// The command `interval` by its real output.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using nlohmann::json;
using support::run_sectio;

namespace {

json intervals(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "interval");
    return support::sectio_json(std::move(arguments)).at("intervals");
}

} // namespace

TEST_CASE("Twelve fifths less seven octaves are the Pythagorean comma") {
    const json comma = intervals({"12 x 3/2 - 7 x 2/1", "--digits", "6"}).at(0);
    CHECK(comma.at("input") == "12 x 3/2 - 7 x 2/1");
    CHECK(comma.at("ratio") == "531441/524288");
    CHECK(comma.at("cents") == "23.460010");
    CHECK(comma.at("factors") == json({{"2", -19}, {"3", 12}}));
    CHECK(comma.at("prime_limit") == 3);
    CHECK(comma.at("names").at(0).at("name") == "Pythagorean comma");
    CHECK(comma.at("names").at(0).at("source") != "");
    CHECK(comma.at("steps").at(0).at("division") == 12);
    CHECK(comma.at("steps").at(0).at("step") == 0);
    CHECK(comma.at("steps").at(1).at("error_cents") == "-0.818501"); // 1200/53 less the comma
}

TEST_CASE("Irrational intervals have no ratio and fractional exponents") {
    const json all = intervals({"31of53", "5^(1/4)", "701.955c", "7of13(3/1)"});
    CHECK(all.at(0).at("ratio").is_null());
    CHECK(all.at(0).at("factors") == json({{"2", "31/53"}}));
    CHECK(all.at(0).at("interval") == "31of53");
    CHECK(all.at(1).at("cents") == "696.578");
    CHECK(all.at(2).at("cents") == "701.955");
    CHECK(all.at(3).at("interval") == "7of13(3/1)");
}

TEST_CASE("A falling interval may be the first argument") {
    CHECK(intervals({"-5c"}).at(0).at("cents") == "-5.000");
}

TEST_CASE("Divisions of other periods are named as they are written") {
    const json steps = intervals({"5/3", "--against", "12,13(3/1)"}).at(0).at("steps");
    CHECK(steps.at(1).at("division") == "13(3/1)");
    CHECK(steps.at(1).at("step") == 6);
}

TEST_CASE("Ten thousand digits are given, ten thousand and one are not") {
    const json long_one = intervals({"3/2", "--digits", "10000"}).at(0);
    CHECK(long_one.at("cents").get<std::string>().size() == 3 + 1 + 10000);
    CHECK(run_sectio({"interval", "3/2", "--digits", "10001"}).exit_code == 2);
}

TEST_CASE(
    "A request that cannot be answered exits with 2, says why on standard error, prints nothing") {
    for (const std::vector<std::string>& arguments :
         std::vector<std::vector<std::string>>{{"interval", "3/0"},
                                               {"interval", "3/2 +"},
                                               {"interval", "1.5"},
                                               {"interval", "\"no such comma\""},
                                               {"interval", "D4"},
                                               {"interval", "2^5000"
                                                            "/x"},
                                               {"interval", "3/2", "--against", "0"},
                                               {"interval", "3/2", "--against", "12,,53"},
                                               {"interval"},
                                               {"interval", "3/2", "--colour"},
                                               {"intervall", "3/2"},
                                               {}}) {
        const auto outcome = run_sectio(arguments);
        CAPTURE(arguments, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find("sectio: ") == 0);
    }
}

TEST_CASE("An error names the argument, the column and the piece, and says what to write") {
    const auto outcome = run_sectio({"interval", "3/2", "5/4 + 3/x"});
    CHECK(outcome.err
          == "sectio: argument 2:9: an interval or a whole number is expected after the stroke: "
             "`x`; write a ratio such as 3/2\n");
}

TEST_CASE("The README shows what the command answers") {
    const std::string readme = support::read_file(support::source_dir() / "README.md");
    const auto run = run_sectio({"interval", "12 x 3/2 - 7 x 2/1"});
    INFO(run.out);
    CHECK(readme.find("$ sectio interval '12 x 3/2 - 7 x 2/1'\n" + run.out) != std::string::npos);
}
