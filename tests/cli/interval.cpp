// The command `interval` by its real output.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <chrono>

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

TEST_CASE("A falling interval may be an argument, after two dashes or not") {
    CHECK(intervals({"-5c"}).at(0).at("cents") == "-5.000");
    for (const std::vector<std::string>& arguments :
         std::vector<std::vector<std::string>>{{"interval", "--", "-5c"},
                                               {"interval", "3/2", "--", "-5c"},
                                               {"interval", "3/2", "-5c"}}) {
        const auto outcome = run_sectio(arguments);
        CAPTURE(arguments, outcome.err);
        CHECK(outcome.exit_code == 0);
        CHECK(outcome.out.find("−5.000 cents") != std::string::npos);
    }
}

TEST_CASE("Divisions of other periods are named as they are written") {
    const json steps = intervals({"5/3", "--against", "12,13(3/1)"}).at(0).at("steps");
    CHECK(steps.at(1).at("division") == "13(3/1)");
    CHECK(steps.at(1).at("step") == 6);
}

TEST_CASE("Ten thousand digits are given, ten thousand and one are not") {
    CHECK(run_sectio({"sheet", "12", "--digits", "10000", "--json"}).exit_code
          == 0); // hertz have more
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
          == "sectio: argument 2:9: an interval or a whole number is expected after the slash: "
             "`x`; write a ratio such as 3/2\n");
}

TEST_CASE("Divisions written apart are no intervals") {
    const auto outcome = run_sectio({"interval", "7/4", "--against", "12", "31", "53"});
    CHECK(outcome.exit_code == 2);
    CHECK(outcome.out.empty());
    CHECK(outcome.err.find("--against 12,31") != std::string::npos);
    CHECK(outcome.err.find("31/1") != std::string::npos);
    CHECK(run_sectio({"interval", "31/1", "--against", "12"}).exit_code == 0);
    CHECK(run_sectio({"interval", "31"}).exit_code == 0);
}

TEST_CASE("Names need no quotes, factors read back as they are printed") {
    CHECK(intervals({"11th harmonic"}).at(0).at("cents") == "551.318");
    CHECK(intervals({"syntonic  comma"}).at(0).at("ratio") == "81/80");
    const auto text = run_sectio({"interval", "81/80"}).out;
    CHECK(text.find("2^-4 3^4 5^-1") != std::string::npos);
    CHECK(intervals({"2^-4 3^4 5^-1"}).at(0).at("ratio") == "81/80");
    CHECK(run_sectio({"interval", "15"}).out.find("3^1 5^1") != std::string::npos);
}

TEST_CASE("A name of several words without quotes is told to want them") {
    const std::vector<std::pair<std::vector<std::string>, std::string>> asked{
        {{"11th", "harmonic"}, "`11th harmonic`; put all 2 words"},
        {{"3/2", "syntonic", "comma"}, "`syntonic comma`; put all 2 words"},
        {{"7/4", "x", "2"}, ""},
        {{"3/2", "+", "5/4"}, "`3/2 + 5/4`; put all 3 words"}};
    for (const auto& [words, advice] : asked) {
        std::vector<std::string> arguments{"interval"};
        arguments.insert(arguments.end(), words.begin(), words.end());
        const auto outcome = run_sectio(arguments);
        INFO(outcome.err);
        CHECK(outcome.exit_code == 2);
        CHECK(outcome.out.empty());
        CHECK((outcome.err.find("in one pair of quotes") != std::string::npos) == !advice.empty());
        CHECK(outcome.err.find(advice) != std::string::npos);
    }
    CHECK(run_sectio({"interval", "syntonic comma", "3/2"}).exit_code == 0);
}

TEST_CASE("The continued fraction of a size, in the octave or another measure") {
    const json fifth = intervals({"3/2", "--quotients", "8"}).at(0).at("continued_fraction");
    CHECK(fifth.at("measure") == "2/1");
    CHECK(fifth.at("quotients") == json({0, 1, 1, 2, 2, 3, 1, 5}));
    CHECK(fifth.at("ended") == false);
    CHECK(fifth.at("convergents").at(5) == json({{"steps", 24}, {"divisions", 41}}));
    CHECK(fifth.at("convergents").size() == 8);
    const json ended =
        intervals({"81/16", "--quotients", "9", "--measure", "3/2"}).at(0).at("continued_fraction");
    CHECK(ended.at("quotients") == json({4}));
    CHECK(ended.at("ended") == true);
    CHECK(run_sectio({"interval", "3/2", "--quotients", "5"}).out.find("[0; 1, 1, 2, 2, …] in 2/1")
          != std::string::npos);
    CHECK(run_sectio({"interval", "3/2", "--quotients", "2", "--measure", "1/1"}).exit_code == 2);
    CHECK_FALSE(intervals({"3/2"}).at(0).contains("continued_fraction"));
}

TEST_CASE("Near ratios come nearer and nearer, and say nothing dull of a comma") {
    const auto near = [](const char* text) {
        std::string list;
        const json ratios = intervals({text}).at(0).at("near_ratios");
        for (const json& ratio : ratios)
            list += ratio.at("ratio").get<std::string>() + " ";
        return list;
    };
    CHECK(near("350c").starts_with("11/9 60/49 "));
    CHECK(near("5/4") == "5/4 ");
    CHECK(near("2^22") == ""); // beyond the usual bound of terms
}

TEST_CASE("A thousand long ratios share one search for factors, and say what was left") {
    std::vector<std::string> arguments{"interval", "--digits", "50", "--json"};
    std::string digits = "1";
    for (int i = 0; i < 200; ++i) {
        std::string text;
        for (int k = 0; k < 2; ++k) {
            digits.clear();
            for (int n = 0; n < 200; ++n)
                digits += static_cast<char>('1' + (i * 7919 + k * 104729 + n * n * (i + 3)) % 9);
            text += (k == 0 ? "" : "/") + digits;
        }
        arguments.push_back(text);
    }
    const auto start = std::chrono::steady_clock::now();
    const json all = support::sectio_json(arguments).at("intervals");
    const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - start;
    CHECK(all.size() == 200);
    CHECK(taken.count() < 20); // 90 seconds when each had a search of its own
    CHECK(all.at(0).at("factors_complete") == false);
    arguments = {"interval", arguments.back()};
    CHECK(run_sectio(arguments).out.find("not split into primes: a factor of 1")
          != std::string::npos);
}

TEST_CASE("Its page shows what the command answers") {
    const std::string page =
        support::read_file(support::source_dir() / "docs/commands/interval.md");
    const auto run = run_sectio({"interval", "12 x 3/2 - 7 x 2/1"});
    INFO(run.out);
    CHECK(page.find("$ sectio interval '12 x 3/2 - 7 x 2/1'\n" + run.out) != std::string::npos);
}
