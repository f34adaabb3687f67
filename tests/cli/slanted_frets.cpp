// What `frets` refuses of necks whose outer strings are given.

#include <catch2/catch.hpp>
#include <support/process.hpp>

using support::run_sectio;

TEST_CASE("A neck that is not known is told with what to add") {
    const auto refused = [](std::vector<std::string> more) {
        more.insert(more.begin(), {"frets", "12"});
        const auto outcome = run_sectio(more);
        CHECK(outcome.exit_code == 2);
        return outcome.err;
    };
    const auto says = [](const std::string& text, const char* words) {
        CAPTURE(text, words);
        CHECK(text.find(words) != std::string::npos);
    };
    says(refused({"--length", "686mm,648mm"}), "--nut-spread 36mm and --bridge-spread 52mm");
    says(refused(
             {"--length", "686mm,648mm,620mm", "--nut-spread", "36mm", "--bridge-spread", "52mm"}),
         "mm");
    says(refused({"--length", "686mm", "--nut-spread", "36mm", "--bridge-spread", "52mm",
                  "--strings", "E2"}),
         "--strings E2,A2");
    says(refused({"--length", "686mm,648mm", "--nut-spread", "36mm", "--bridge-spread", "52mm",
                  "--perpendicular", "13"}),
         "a number up to 12");
    says(refused({"--length", "686mm,648mm", "--nut-spread", "36mm", "--bridge-spread", "120mm"}),
         "more than 90 mm");
    says(refused({"--length", "686mm,0mm", "--nut-spread", "36mm", "--bridge-spread", "52mm"}),
         "above 0");
    says(refused({"--length", "686mm,10mm", "--nut-spread", "10mm", "--bridge-spread", "50mm"}),
         "check the lengths");
    says(refused({"--length", "686,5mm"}), "write a point");
}
