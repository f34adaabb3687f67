#pragma once
/// @file
/// Random intervals for rapidcheck: ratios, steps, cents, roots, and sums of them.

#include <rapidcheck.h>
#include <support/intervals.hpp>

namespace rc {

template <>
struct Arbitrary<sectio::Interval> {
    static Gen<sectio::Interval> arbitrary() {
        using sectio::Integer;
        using sectio::Interval;
        using sectio::Rational;
        const auto ratio =
            gen::map(gen::pair(gen::inRange(1, 2000), gen::inRange(1, 2000)),
                     [](const auto& t) { return Interval::from_ratio(t.first, t.second); });
        // Terms of 64 bits: mostly products of primes that are not known to be primes.
        const auto long_ratio =
            gen::map(gen::pair(gen::inRange<std::uint64_t>(1, UINT64_MAX),
                               gen::inRange<std::uint64_t>(1, UINT64_MAX)),
                     [](const auto& t) { return Interval::from_ratio(t.first, t.second); });
        const auto steps =
            gen::map(gen::pair(gen::inRange(-500, 500), gen::inRange(1, 100)),
                     [](const auto& t) { return Interval::from_steps(t.first, t.second); });
        const auto cents = gen::map(gen::inRange(-2'000'000, 2'000'000), [](int thousandths) {
            return Interval::from_cents(Rational(thousandths, 1000));
        });
        const auto root = gen::map(gen::pair(ratio, gen::inRange(2, 12)),
                                   [](const auto& t) { return t.first * Rational(1, t.second); });
        const auto simple = gen::oneOf(ratio, long_ratio, steps, cents, root);
        const auto sum =
            gen::map(gen::tuple(simple, simple, gen::inRange(-20, 20)), [](const auto& t) {
                return std::get<0>(t) + Integer(std::get<2>(t)) * std::get<1>(t);
            });
        return gen::oneOf(simple, sum, ratio, steps);
    }
};

template <>
struct Arbitrary<sectio::Rational> {
    static Gen<sectio::Rational> arbitrary() {
        return gen::map(gen::pair(gen::inRange(-60, 60), gen::inRange(1, 60)),
                        [](const auto& t) { return sectio::Rational(t.first, t.second); });
    }
};

} // namespace rc

namespace sectio {

/// How rapidcheck shows a counterexample.
inline void showValue(const Interval& value, std::ostream& out) {
    out << to_expression(value);
}

} // namespace sectio

namespace support {

/// Fails the Catch2 test where the property falls; rapidcheck prints the counterexample.
template <typename Property>
void holds(const char* name, Property property) {
    INFO("seed and counterexample stand above");
    CHECK(rc::check(name, property));
}

} // namespace support
