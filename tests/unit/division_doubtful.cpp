// Error tables where doubles cannot tell: errors that differ by less than the screen's own, and
// figures next to a half of the last digit.

#include "support/intervals.hpp"

#include <sectio/division/division.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/division/screen.hpp>

#include <numeric>

using namespace sectio;

namespace {

const Integer tiny = Integer(1) << 80;

/// Place `where` of the octave, moved by `moves` times 2^-80 of it.
Interval near_place(const Rational& where, int moves) {
    return Interval::octave() * Rational(where + Rational(Integer(moves), tiny));
}

ErrorTable table_of(std::vector<Interval> targets) {
    return ErrorTable(Targets{std::move(targets)});
}

} // namespace

TEST_CASE("Two divisions whose errors differ by 2^-79 of an octave are put in their order") {
    int pairs = 0;
    for (int a = 2; a <= 40; ++a)
        for (int b = a + 1; b <= 40; ++b) {
            if (std::gcd(a, b) > 1)
                continue;
            // Half way between neighbouring steps of both: k/a < m/b, no other step between.
            const int k = a / 2, m = k * b / a + 1;
            const Rational middle = (Rational(k, a) + Rational(m, b)) / Integer(2);
            for (const int moves : {-1, 1}) {
                const Interval target = near_place(middle, moves);
                if (EqualDivision(a).nearest(target) != k || EqualDivision(b).nearest(target) != m)
                    continue;
                ++pairs;
                const ErrorTable table = table_of({target});
                const std::int64_t first = moves < 0 ? a : b; // nearer to k/a or to m/b
                CAPTURE(a, b, moves);
                for (const ErrorKind kind : {ErrorKind::max, ErrorKind::rms}) {
                    const auto order = table.best(kind, {a, b}, b - a + 1);
                    const auto place_a = std::find(order.begin(), order.end(), a);
                    const auto place_b = std::find(order.begin(), order.end(), b);
                    CHECK((place_a < place_b) == (first == a));
                    // One of the two, whichever comes first among all that were offered.
                    const auto best = table.best(kind, {a, b}, 1);
                    CHECK(best.front() == order.front());
                    const auto records = table.records(kind, {a, b});
                    const bool a_is_record =
                        std::find(records.begin(), records.end(), a) != records.end();
                    const bool b_is_record =
                        std::find(records.begin(), records.end(), b) != records.end();
                    if (a_is_record && order.front() == b && first == b)
                        CHECK(b_is_record);
                    if (first == a)
                        CHECK_FALSE(b_is_record);
                }
            }
        }
    CHECK(pairs > 200);
}

TEST_CASE("Relative errors that differ by less than doubles tell are put in their order") {
    // Around half a step of a and a third … of b the errors in steps are compared: a x - k against
    // m - b x, equal at x = (k + m) / (a + b).
    int pairs = 0;
    for (int a = 2; a <= 30; ++a)
        for (int b = a + 1; b <= 30; ++b) {
            const int k = a / 3, m = k * b / a + 1;
            const Rational middle(k + m, a + b);
            for (const int moves : {-1, 1}) {
                const Interval target = near_place(middle, moves);
                if (EqualDivision(a).nearest(target) != k || EqualDivision(b).nearest(target) != m)
                    continue;
                ++pairs;
                const auto order = table_of({target}).best(ErrorKind::relative, {a, b}, b - a + 1);
                const auto place_a = std::find(order.begin(), order.end(), a);
                const auto place_b = std::find(order.begin(), order.end(), b);
                CAPTURE(a, b, moves);
                CHECK((place_a < place_b) == (moves < 0));
            }
        }
    CHECK(pairs > 100);
}

TEST_CASE("A figure next to a half of the last digit goes to its own side") {
    for (int k = 0; k < 200; ++k)
        for (const int moves : {-1, 1}) {
            // (k + 1/2) / 1000 cents, moved by 2^-80 octave.
            const Rational place(2 * k + 1, 2 * 1'200'000);
            const ErrorRow row = table_of({near_place(place, moves)}).row(1);
            const std::string expected = decimal_text(moves < 0 ? k : k + 1, 3);
            CAPTURE(k, moves);
            CHECK(row.max_error_cents.decimal(3) == expected);
            CHECK(row.rms_error_cents.decimal(3) == expected);
        }
    for (int k = 0; k < 200; ++k)
        for (const int moves : {-1, 1}) {
            // (k + 1/2) / 1000 of a step of 12.
            const Rational place(2 * k + 1, 2 * 12 * 1000);
            const ErrorRow row = table_of({near_place(place, moves)}).row(12);
            CHECK(row.max_error_steps.decimal(3) == decimal_text(moves < 0 ? k : k + 1, 3));
        }
}

TEST_CASE("Targets next to one another keep apart, equal ones are one class") {
    const Rational place(5, 12);
    const auto classes =
        target_classes({near_place(place, 1), near_place(place, 0), near_place(place, -1),
                        near_place(Rational(7, 12), 0), near_place(place, 1),
                        near_place(Rational(17, 12), -1), near_place(place, 0)},
                       Interval::octave());
    REQUIRE(classes.size() == 3);
    const double weights[]{2, 3, 2};
    for (std::size_t i = 0; i < 3; ++i) {
        CHECK(classes[i].first_target == i);
        CHECK(classes[i].weight == weights[i]);
    }
}

TEST_CASE("The nearest step of a target next to half a step is decided for the table too") {
    for (const int moves : {-1, 0, 1}) {
        // 11/24 is half way between 5 and 6 steps of 12. Two of it are a whole of 11/12.
        const ErrorTable table = table_of(
            {near_place(Rational(11, 24), moves), near_place(Rational(11, 12), 2 * moves)});
        const bool up = moves > 0;                // an exact half goes down
        CHECK(table.row(12).consistent == false); // 5 + 5 or 6 + 6, but 11
        CHECK(EqualDivision(12).nearest(table.targets()[0]) == (up ? 6 : 5));
    }
}
