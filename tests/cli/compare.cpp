// The command `compare` by its real output.

#include <catch2/catch.hpp>
#include <support/json.hpp>
#include <support/process.hpp>

#include <algorithm>
#include <cmath>

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

TEST_CASE("compare: further scales stand after --against as `sheet` has them") {
    CHECK(support::run_sectio({"compare", "rast", "--against", "12,zarlino", "--json"}).out
          == support::run_sectio({"compare", "rast", "12", "zarlino", "--json"}).out);
    CHECK(support::run_sectio({"compare", "rast"}).exit_code == 2);
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

TEST_CASE("compare: meantone against 12 equal steps, as published") {
    // Barbour, "Tuning and Temperament" (1951), quarter-comma meantone in cents, C to B:
    // 0 76.0 193.2 310.3 386.3 503.4 579.5 696.6 772.6 889.7 1006.8 1082.9
    const double published[] = {0,     76.0,  193.2, 310.3, 386.3,  503.4,
                                579.5, 696.6, 772.6, 889.7, 1006.8, 1082.9};
    const json pair = pairs("equal-12", "quarter-comma-meantone").at(0);
    REQUIRE(pair.at("degrees").size() == 12);
    double squares = 0, largest = 0;
    for (std::size_t i = 0; i < 12; ++i) {
        const double error = published[i] - 100.0 * static_cast<double>(i);
        CHECK(std::stod(pair["degrees"][i]["error_cents"].get<std::string>())
              == Approx(error).margin(0.06));
        squares += error * error;
        largest = std::max(largest, std::abs(error));
    }
    CHECK(std::stod(pair["rms_error_cents"].get<std::string>())
          == Approx(std::sqrt(squares / 12)).margin(0.05));
    CHECK(std::stod(pair["max_error_cents"].get<std::string>()) == Approx(largest).margin(0.06));
}

TEST_CASE("compare: the matrix has the distance of every two, there and back") {
    const json all = support::sectio_json({"compare", "5/4,3/2", "3/2", "81/64,3/2"});
    REQUIRE(all.at("distances").size() == 3);
    const auto at = [&](const char* table, std::size_t row, std::size_t column) {
        return all.at(table).at(row).at("to").at(column).at("rms_error_cents");
    };
    for (std::size_t i = 0; i < 3; ++i)
        CHECK(at("distances", i, i) == "0.000");
    CHECK(at("distances", 0, 2) == "12.417"); // the syntonic comma, 21.506 cents, in one of three
    CHECK(at("distances", 2, 0) == "12.417");
    CHECK(at("distances", 1, 0) == "0.000");   // 1/1 and 3/2 are degrees of 5/4, 3/2
    CHECK(at("distances", 0, 1) == "182.236"); // 6/5 from 5/4 to 3/2: 315.641 / sqrt 3
    // Moved by a third of the comma, its errors are 7.169, 14.337 and 7.169: 10.138.
    CHECK(at("distances_best", 0, 2) == "10.138");
    CHECK(all.at("distances").at(2).at("name") == "81/64,3/2");
}

TEST_CASE("compare: a tonic gives the first scale's degrees their keys") {
    const json all = support::sectio_json({"compare", "5/4,3/2", "81/64,3/2", "--tonic", "D"});
    CHECK(all.at("tonic") == "D4");
    const json& third = all.at("pairs").at(0).at("degrees").at(1);
    CHECK(third.at("note") == "F#4");
    CHECK(third.at("deviation_cents") == "-13.686");
    CHECK_FALSE(pairs("5/4,3/2", "81/64,3/2").at(0).at("degrees").at(1).contains("note"));
}
