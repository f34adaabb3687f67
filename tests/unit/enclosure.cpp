#include <sectio/base/limits.hpp>
#include <sectio/interval/enclosure.hpp>

#include <support/errors.hpp>

using sectio::Enclosure;
using sectio::Integer;
using sectio::Rational;

TEST_CASE("An enclosure decides only what all its values agree on") {
    const Enclosure third(Rational(1, 3), 64);
    CHECK(third.sign() == 1);
    CHECK((third - third).sign() == std::nullopt); // about zero, but not known to be
    CHECK(Enclosure(64).sign() == 0);
    CHECK(Enclosure(Rational(-1, 3), 64).sign() == -1);
    CHECK(third.rounded() == Integer(0));
    CHECK(third.floored() == Integer(0));
    CHECK((third + third).rounded() == Integer(1));
    CHECK((third + third + third).rounded() == Integer(1));
    CHECK((third + third + third).floored() == std::nullopt); // 0.99… or 1.00…
    CHECK(Enclosure(Integer(7), 64).floored() == Integer(7));
    CHECK((Enclosure(Integer(1), 64) / (third - third)).rounded() == std::nullopt); // infinite
    CHECK((Enclosure(Integer(1), 64) / (third - third)).sign() == std::nullopt);
}

TEST_CASE("An operation keeps the larger precision, copies keep values") {
    const Enclosure coarse(Rational(1, 3), 32), fine(Rational(1, 7), 256);
    CHECK((coarse + fine).bits() == 256);
    CHECK((fine * coarse).bits() == 256);
    Enclosure copy = fine, moved = std::move(copy);
    copy = moved;
    CHECK((moved * Enclosure(Integer(7), 256) - Enclosure(Integer(1), 256)).rounded()
          == Integer(0));
    CHECK(copy.estimate() == Approx(1.0 / 7));
}

TEST_CASE("Functions enclose known values") {
    // OEIS A002193, A020857 (log2 3).
    const auto text = [](const sectio::RealFunction& f) {
        return sectio::certified_decimal(f, 40);
    };
    CHECK(text([](long b) { return sqrt(Enclosure(Integer(2), b)); })
          == "1.4142135623730950488016887242096980785697");
    CHECK(text([](long b) { return log2(Enclosure(Integer(3), b)); })
          == "1.5849625007211561814537389439478165087598");
    CHECK(
        text([](long b) { return exp2(log2(Enclosure(Integer(3), b)) / Enclosure(Integer(2), b)); })
        == "1.7320508075688772935274463415058723669428"); // OEIS A002194
}

TEST_CASE("What no precision decides is undecided, not guessed") {
    using support::error_of;
    using support::name_of;
    const auto third_times_three = [](long bits) {
        return Enclosure(Rational(1, 3), bits) * Enclosure(Integer(3), bits);
    };
    const auto zero = [&](long bits) {
        return third_times_three(bits) - Enclosure(Integer(1), bits);
    };
    const auto half = [&](long bits) {
        return third_times_three(bits) / Enclosure(Integer(2), bits);
    };
    const auto order = error_of([&] { sectio::certified_sign(zero); });
    CHECK(name_of(order) == "order_undecided");
    REQUIRE(order);
    CHECK(order->code() == sectio::ErrorCode::undecided);
    CHECK(name_of(error_of([&] { sectio::certified_round(half); })) == "rounding_undecided");
    CHECK(name_of(error_of([&] { sectio::certified_floor(third_times_three); }))
          == "rounding_undecided");
    CHECK(name_of(error_of([&] { sectio::certified_decimal(half, 0); })) == "rounding_undecided");
}

TEST_CASE("A rounding near a half grows its precision until it is decided") {
    // 1/2 + 2^-5000, made of irrational parts.
    const auto near_half = [](long bits) {
        const Enclosure root = sqrt(Enclosure(Integer(2), bits));
        return root * root / Enclosure(Integer(4), bits)
               + Enclosure(Rational(1, Integer(1) << 5000), bits);
    };
    CHECK(sectio::certified_round(near_half) == 1);
    CHECK(sectio::certified_decimal(near_half, 0) == "1");
}

TEST_CASE("A double next to a real is found however small the real is") {
    using sectio::certified_double;
    const auto third = [](long bits) { return Enclosure(Rational(1, 3), bits); };
    CHECK(certified_double(third) == 1.0 / 3);
    CHECK(certified_double([](long bits) { return Enclosure(bits); }) == 0);
    // 2^-500 + 2^-600 is left of two numbers near 1, and the first digits of their difference only
    // show beyond 500 bits.
    const auto small = [](long bits) {
        const Integer unit = Integer(1) << 600;
        const Enclosure one(Rational(unit + (Integer(1) << 100) + 1, unit), bits);
        return one - Enclosure(Integer(1), bits);
    };
    CHECK(certified_double(small) == 0x1p-500);
    CHECK(certified_double([&](long bits) { return Enclosure(bits) - small(bits); }) == -0x1p-500);
    // Nothing tells it from 0, and at last not from the nearest double either.
    CHECK(certified_double([&](long bits) { return third(bits) - third(bits); }) == 0);
}
