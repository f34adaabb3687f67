// The command `commas` by its real output.

#include <sectio/base/limits.hpp>

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

using nlohmann::json;
using support::run_sectio;

namespace {

json answer(std::vector<std::string> arguments) {
    arguments.insert(arguments.begin(), "commas");
    return support::sectio_json(std::move(arguments));
}

std::vector<std::string> ratios(const json& commas) {
    std::vector<std::string> result;
    for (const json& comma : commas)
        result.push_back(comma.at("ratio"));
    return result;
}

} // namespace

TEST_CASE("Commas carry their size, factors and names") {
    const json found =
        answer({"--primes", "5", "--below", "22c", "--above", "21c", "--digits", "6"});
    REQUIRE(found.at("count") == 1);
    const json& comma = found.at("commas").at(0);
    CHECK(comma.at("ratio") == "81/80");
    CHECK(comma.at("cents") == "21.506290");
    CHECK(comma.at("factors") == json({{"2", -4}, {"3", 4}, {"5", -1}}));
    CHECK(comma.at("names").at(0).at("name") == "syntonic comma");
    CHECK(comma.at("names").at(0).at("source") != "");
    CHECK(found.at("basis").empty());
}

TEST_CASE("What vanishes in 12, and its basis") {
    const json found = answer({"--primes", "5", "--below", "63c", "--vanishing-in", "12"});
    CHECK(ratios(found.at("basis")) == std::vector<std::string>{"81/80", "128/125"});
    for (const json& comma : found.at("commas"))
        CHECK(comma.at("steps_by_primes") == 0);
    const json& last = found.at("commas").back();
    CHECK(last.at("ratio") == "648/625");
    CHECK(last.at("nearest_step") == 1); // 62.565 cents are nearer to 100 than to 0
    const auto text =
        run_sectio({"commas", "--primes", "5", "--below", "63c", "--vanishing-in", "12"});
    CHECK(text.out.find("nearest step 1, by primes 0") != std::string::npos);
}

TEST_CASE("A bound of the terms takes the place of the usual one of the product") {
    const auto has = [](const json& found, const char* ratio) {
        const auto all = ratios(found.at("commas"));
        return std::find(all.begin(), all.end(), ratio) != all.end();
    };
    // 3^53/2^84, Mercator's comma, in a form that Sectio reads back.
    const json wide = answer({"--primes", "3", "--max-term", "2^90"});
    CHECK(wide.at("count") == 1);
    CHECK(wide.at("commas").at(0).at("factors") == json({{"2", -84}, {"3", 53}}));
    const json both =
        answer({"--primes", "5", "--below", "50c", "--max-term", "128", "--max-product", "6480"});
    CHECK(has(both, "81/80"));
    CHECK(!has(both, "128/125"));
}

TEST_CASE("The simplest come first if wanted, and the count is of all") {
    const json found =
        answer({"--primes", "7", "--below", "50c", "--sort", "simplicity", "--show", "2"});
    CHECK(found.at("count") > 2);
    CHECK(ratios(found.at("commas")) == std::vector<std::string>{"36/35", "49/48"});
}

TEST_CASE("Bounds without an answer are refused and say what could be") {
    const std::pair<std::vector<std::string>, const char*> cases[] = {
        {{"--primes", "37"}, "31"},
        {{"--primes", "1"}, "31"},
        {{"--below", "0c"}, "lower bound"},
        {{"--above", "-1c"}, "0c"},
        {{"--max-term", "3/2"}, "2^40"},
        {{"--max-product", "1/2"}, "2^40"},
        {{"--max-term", "2^5000"}, "2^40"},
        {{"--vanishing-in", "0"}, "31of53"},
        {{"--vanishing-in", "20000000"}, "10000000"},
        {{"--primes", "31", "--max-term", "2^60"}, "the list is complete"},
        {{"--below", "x"}, "steps or cents"}};
    for (const auto& [options, advice] : cases) {
        std::vector<std::string> arguments{"commas"};
        arguments.insert(arguments.end(), options.begin(), options.end());
        const auto outcome = run_sectio(arguments);
        CAPTURE(options, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find(advice) != std::string::npos);
    }
}

TEST_CASE("Too many commas or terms are refused with bounds that can be answered") {
    using namespace sectio::limits;
    for (const auto& [below, bits, limit] :
         {std::tuple{"1200c", 20, listed_ratios}, {"0.01c", 60, smooth_numbers}}) {
        const auto listed = [&below = below](int power) {
            return run_sectio({"commas", "--primes", "31", "--below", below, "--max-term",
                               "2^" + std::to_string(power), "--show", "1"});
        };
        const auto refused = listed(bits);
        REQUIRE(refused.exit_code == 2);
        CHECK(refused.err.find("more than " + std::to_string(limit)) != std::string::npos);
        const auto power = refused.err.find("2^");
        REQUIRE(power != std::string::npos);
        const int possible = std::stoi(refused.err.substr(power + 2));
        CHECK(possible < bits);
        const auto answer = listed(possible);
        REQUIRE(answer.exit_code == 0);
        CHECK(std::stoi(answer.out) > 1000); // "86437 commas of …"
    }
}

TEST_CASE("A bound without a unit is refused, not read as a ratio") {
    for (const char* option : {"--below", "--above"}) {
        const auto outcome = run_sectio({"commas", "--primes", "5", option, "45"});
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK(outcome.err.find("write 45c") != std::string::npos);
    }
    CHECK(answer({"--primes", "5", "--below", "45c"}).at("count") == 11);
}

TEST_CASE("The header states the bounds, the usual ones too") {
    const auto first_line = [](std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), "commas");
        std::string out = run_sectio(arguments).out;
        out.resize(std::min(out.find("\n\n"), out.size() - 1));
        std::replace(out.begin(), out.end(), '\n', ' ');
        return out;
    };
    CHECK(first_line({"--primes", "3"})
          == "0 commas of the 3-limit, larger than 0c, smaller than 10c, product of both terms up "
             "to 2^40");
    CHECK(first_line({"--primes", "2,3,7", "--below", "30c", "--max-term", "100"})
          == "1 comma of the primes 2, 3, 7, larger than 0c, smaller than 30c, terms up to 100");
    const json bounds = answer({"--primes", "2,3,7", "--max-term", "2^40 + 1"}).at("bounds");
    CHECK(bounds.at("primes") == json({2, 3, 7}));
    CHECK(bounds.at("below") == "10c");
    CHECK(bounds.at("max_product").is_null());
    CHECK(bounds.at("max_term") == 1099511627777);
    CHECK(ratios(answer({"--primes", "2,3,7", "--below", "30c", "--max-term", "100"}).at("commas"))
          == std::vector<std::string>{"64/63"});
}

TEST_CASE("Primes and counts that mean nothing are refused with what would") {
    const std::pair<std::vector<std::string>, const char*> cases[] = {
        {{"--primes", "4"}, "write 3 or 5"},
        {{"--primes", "2,4"}, "write 3 or 5"},
        {{"--primes", "five"}, "2,3,7"},
        {{"--max-term", "2^40 x 3"}, "2^40"},
        {{"--show", "0"}, "no whole number from 1 up"}};
    for (const auto& [options, advice] : cases) {
        std::vector<std::string> arguments{"commas"};
        arguments.insert(arguments.end(), options.begin(), options.end());
        const auto outcome = run_sectio(arguments);
        CAPTURE(options, outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.err.find(advice) != std::string::npos);
        CHECK(outcome.err.size() < 200);
    }
}

TEST_CASE("commas gives its table in every format") {
    const support::TempDir folder;
    const std::string csv = (folder / "c.csv").string(), pdf = (folder / "c.pdf").string();
    REQUIRE(run_sectio({"commas", "--primes", "5", "--below", "22c", "--out", csv}).exit_code == 0);
    CHECK(support::read_file(csv).find("\r\n21.506,81/80,") != std::string::npos);
    REQUIRE(run_sectio({"commas", "--primes", "5", "--below", "22c", "--out", pdf}).exit_code == 0);
    CHECK(support::read_file(pdf).starts_with("%PDF"));
}
