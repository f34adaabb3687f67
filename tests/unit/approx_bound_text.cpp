// Bounds as people write them: sets of primes, and whole numbers read whole.

#include "support/errors.hpp"

#include <sectio/approx/bound_text.hpp>

using namespace sectio;

TEST_CASE("A limit stands for all primes up to it, a list for itself") {
    CHECK(parse_primes("13").primes() == std::vector<unsigned>{2, 3, 5, 7, 11, 13});
    CHECK(parse_primes("13").text() == "13-limit");
    CHECK(parse_primes(" 2 ").primes() == std::vector<unsigned>{2});
    const PrimeChoice some = parse_primes("7, 2,3,3");
    CHECK(some.limit == 7);
    CHECK(some.primes() == std::vector<unsigned>{2, 3, 7});
    CHECK(some.text() == "primes 2, 3, 7");
}

TEST_CASE("What is no prime is no limit") {
    struct Row {
        const char *text, *name;
        std::size_t column;
        const char* advice;
    };
    const Row row = GENERATE(values<Row>(
        {{"4", "not_a_prime", 1, "write 3 or 5"},
         {"2,3,9", "not_a_prime", 5, "write 7 or 11"},
         {"1", "prime_limit_out_of_range", 1, "write a limit such as 5, 7 or 13"},
         {"32", "prime_limit_out_of_range", 1, "write a limit such as 5, 7 or 13"},
         {"4294967298", "prime_limit_out_of_range", 1, "write a limit such as 5, 7 or 13"},
         {"", "expected_primes", 1, "write a limit such as 13, or primes such as 2,3,7"},
         {"2,", "expected_primes", 3, "write a limit such as 13, or primes such as 2,3,7"},
         {"2 3", "expected_primes", 3, "write a limit such as 13, or primes such as 2,3,7"}}));
    INFO(row.text);
    const auto error = support::error_of([&] { parse_primes(row.text, {"--primes", 0, 1}); });
    CHECK(support::name_of(error) == row.name);
    REQUIRE(error);
    CHECK(error->place().column == row.column);
    CHECK(error->advice() == row.advice);
}

TEST_CASE("A bound is read whole or refused") {
    CHECK(parse_bound("1000000") == 1'000'000);
    CHECK(parse_bound("2^40") == Integer(1) << 40);
    CHECK(parse_bound("2^40 + 1") == (Integer(1) << 40) + 1);
    CHECK(parse_bound("2⁴⁰ − 1") == (Integer(1) << 40) - 1);
    CHECK(parse_bound("1^99999999999999999999") == 1);
    CHECK(parse_bound("2^4095") == Integer(1) << 4095);
    const auto fault = [](const char* text) {
        const auto error = support::error_of([&] { parse_bound(text, {"--max-term", 0, 1}); });
        return support::name_of(error) + (error ? " " + error->place().text() : "");
    };
    CHECK(fault("0") == "bound_not_positive --max-term:1");
    CHECK(fault("0^3") == "bound_not_positive --max-term:1");
    CHECK(fault("3 - 2^2") == "bound_not_positive --max-term:1");
    CHECK(fault("") == "bound_not_positive --max-term:1");
    CHECK(fault("2^40 x 3") == "bound_not_positive --max-term:6");
    CHECK(fault("3/2") == "bound_not_positive --max-term:2");
    CHECK(fault("2^") == "bound_not_positive --max-term:1");
    CHECK(fault("2^4096") == "bound_too_large --max-term:1");
    CHECK(fault("10 + 3^99999999999999999999999") == "bound_too_large --max-term:6");
}
