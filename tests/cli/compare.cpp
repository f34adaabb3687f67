// The command `compare` by its real output.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <support/json.hpp>
#include <support/process.hpp>

using nlohmann::json;

namespace {

json pairs(const std::string& a, const std::string& b) {
    return support::sectio_json({"compare", a, b}).at("pairs");
}

} // namespace

TEST_CASE("compare: from the same tonic, degree by degree") {
    // 81/64 above 5/4 is the syntonic comma, 21.506 cents; sqrt(21.506^2 / 3) is 12.417.
    const json pair = pairs("5/4,3/2", "81/64,3/2").at(0);
    CHECK(pair.at("fit") == "tonic");
    CHECK(pair.at("start_degree") == 1);
    CHECK(pair.at("offset_cents") == "0.000");
    CHECK(pair.at("common") == 2);
    CHECK(pair.at("max_error_cents") == "21.506");
    CHECK(pair.at("rms_error_cents") == "12.417");
    CHECK(pair.at("degrees").at(1).at("error_cents") == "21.506");
}

TEST_CASE("compare: a rotation of a scale is found from its degree") {
    // From its second degree 9/8, 5/4, 3/2 has 10/9, 4/3, 16/9.
    const json best = pairs("10/9,4/3,16/9", "9/8,5/4,3/2").at(1);
    CHECK(best.at("fit") == "best");
    CHECK(best.at("start_degree") == 2);
    CHECK(best.at("offset_cents") == "0.000");
    CHECK(best.at("rms_error_cents") == "0.000");
    CHECK(best.at("common") == 4);
}

TEST_CASE("compare: the best offset halves an error between two degrees") {
    const json best = pairs("700c", "704c").at(1);
    CHECK(best.at("offset_cents") == "-2.000");
    CHECK(best.at("max_error_cents") == "2.000");
    CHECK(best.at("rms_error_cents") == "2.000");
}

TEST_CASE("compare: three scales give three pairs, one scale is refused") {
    CHECK(support::sectio_json({"compare", "3/2", "4/3", "5/4"}).at("pairs").size() == 6);
    CHECK(support::run_sectio({"compare", "3/2"}).exit_code == 2);
    CHECK(support::run_sectio({"compare", "3/2", "nothing-such"}).exit_code == 2);
}
