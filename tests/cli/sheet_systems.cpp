// `sectio sheet --against` with systems, scales and files; the page of an instrument.

#include "support/json.hpp"
#include "support/paths.hpp"
#include "support/process.hpp"

#include <catch2/catch.hpp>

using support::run_sectio;
using Json = nlohmann::json;

namespace {

Json sheet_json(const std::vector<std::string>& arguments) {
    std::vector<std::string> all{"sheet", "--json"};
    all.insert(all.end(), arguments.begin(), arguments.end());
    const auto outcome = run_sectio(all);
    REQUIRE(outcome.exit_code == 0);
    return Json::parse(outcome.out);
}

} // namespace

TEST_CASE("A scale is laid against a list of intervals, exactly where both are equal") {
    const support::TempDir folder;
    support::write_file(folder / "mine.toml",
                        "name='Mine'\ndegrees=['10/9','5/4',{interval='498c',uncertainty='3c'}]");
    const Json sheet =
        sheet_json({"9/8,5/4,4/3", "--against", "12," + (folder / "mine.toml").string()});
    const Json& degrees = sheet["degrees"];
    REQUIRE(degrees.size() == 4);
    CHECK(degrees[1]["against"][0]["division"] == 12);
    const Json& second = degrees[1]["against"][1];
    CHECK(second["system"] == "Mine");
    CHECK(second["degree"] == 2);
    CHECK(second["error_cents"] == "-21.506"); // the comma 81/80
    CHECK(second["equal"] == false);
    CHECK(degrees[2]["against"][1]["error_cents"] == "0.000");
    CHECK(degrees[2]["against"][1]["equal"] == true);
    CHECK(degrees[3]["against"][1]["error_cents"] == "0"); // ± 3 cents bear no more
    CHECK(degrees[3]["against"][1]["equal"] == false);
    CHECK(sheet["period"]["against"][1]["degree"] == 5);
    CHECK(sheet["summary"][1]["system"] == "Mine");
    CHECK(sheet["summary"][1]["worst"] == 1);
}

TEST_CASE("Without systems the members of JSON are those of divisions alone") {
    const Json sheet = sheet_json({"9/8,5/4", "--against", "12"});
    CHECK(sheet["degrees"][1]["against"][0].size() == 6);
    CHECK(!sheet["summary"][0].contains("system"));
}

TEST_CASE("A system lies with the degree that bears the tonic's name on the tonic") {
    const Json rast = sheet_json({"rast", "--against", "turkish-24"});
    const auto name = [&](std::size_t i) {
        return rast["degrees"][i]["against"][0]["degree_name"].get<std::string>();
    };
    CHECK(name(0) == "Rast");
    CHECK(name(1) == "Dügâh");
    CHECK(name(2) == "Segâh");
    CHECK(name(3) == "Kaba Çârgâh 8va");
    CHECK(name(4) == "Yegâh 8va");
}

TEST_CASE("Systems of another period, and sets without one, are laid against a scale") {
    const support::TempDir folder;
    support::write_file(folder / "set.toml", "name='Set'\nperiod='none'\ndegrees=['300c','900c']");
    support::write_file(folder / "twelfth.toml",
                        "name='Twelfth'\nperiod='3/1'\ndegrees=['1of13(3/1)','12of13(3/1)']");
    const Json sheet =
        sheet_json({"3/2,15/8", "--against",
                    (folder / "set.toml").string() + "," + (folder / "twelfth.toml").string()});
    CHECK(sheet["degrees"][1]["against"][0]["degree_cents"] == "900.000");
    CHECK(sheet["period"]["against"][0]["degree_cents"] == "900.000");
    CHECK(sheet["degrees"][1]["against"][1]["degree_cents"] == "146.304");
    CHECK(sheet["period"]["against"][1]["degree_cents"] == "1755.651");
}

TEST_CASE("What a sheet cannot be laid against is refused with its place") {
    const auto unknown = run_sectio({"sheet", "rast", "--against", "12,no-such-system"});
    CHECK(unknown.exit_code == 2);
    CHECK(unknown.err.find("--against:4: ") != std::string::npos);
    CHECK(run_sectio({"sheet", "rast", "--against", "1,2,3,4,5,6,7,8,9,10,11,12,turkish-24"})
              .exit_code
          == 2);
}

TEST_CASE("Scales side by side share a row where they are exactly equal") {
    const Json sheet = sheet_json({"9/8,3/2", "10/9,3/2,17/10"});
    const Json& rows = sheet["beside"];
    REQUIRE(rows.size() == 6);
    CHECK(rows[1]["cents"] == "182.404");
    CHECK(rows[1]["scales"][0]["degree"].is_null());
    CHECK(rows[1]["scales"][1]["degree"] == "2");
    CHECK(rows[2]["scales"][0]["degree"] == "2");
    CHECK(rows[3]["scales"][0]["degree"] == "3");
    CHECK(rows[3]["scales"][1]["degree"] == "3");
    CHECK(rows[5]["scales"][1]["degree"] == "5");
}

TEST_CASE("The page of an instrument needs an instrument") {
    const std::string zither =
        (support::source_dir() / "data/examples/sundhall-zither-instrument.toml").string();
    const support::TempDir folder;
    const auto chart = run_sectio(
        {"sheet", zither, "--pages", "instrument", "--out", (folder / "c.pdf").string()});
    CHECK(chart.exit_code == 0);
    if (support::has_program("pdftotext")) {
        const auto text = support::run({"pdftotext", (folder / "c.pdf").string(), "-"});
        CHECK(text.out.find("high drone") != std::string::npos);
    }
    const auto refused = run_sectio({"sheet", "rast", "--pages", "instrument"});
    CHECK(refused.exit_code == 2);
    CHECK(refused.err.find("--pages: this page needs") != std::string::npos);
    CHECK(run_sectio({"sheet", "rast", "--pages", "all"}).exit_code == 0);
}

TEST_CASE("Frequencies stand in the table where a reference is given") {
    const auto with = run_sectio({"sheet", "3/2", "--tonic", "A4", "--reference", "A4=415Hz"});
    CHECK(with.out.find("622.50") != std::string::npos);
    CHECK(run_sectio({"sheet", "3/2", "--tonic", "A4"}).out.find("660.00") == std::string::npos);
}
