// What must not compile. A position is no distance; no floating-point number becomes exact unseen.

#include <sectio/division/division.hpp>
#include <sectio/interval/expression.hpp>

#include <catch2/catch.hpp>

#include <concepts>

using sectio::EqualDivision;
using sectio::Integer;
using sectio::Interval;
using sectio::Pitch;
using sectio::Rational;

namespace {

template <typename A, typename B>
concept Addable = requires(A a, B b) {
    a + b;
};
template <typename A, typename B>
concept Subtractable = requires(A a, B b) {
    a - b;
};
template <typename A, typename B>
concept Multipliable = requires(A a, B b) {
    a* b;
};
template <typename A, typename B>
concept EqualityComparable = requires(A a, B b) {
    a == b;
};
template <typename A, typename B>
concept Ordered = requires(A a, B b) {
    a < b;
};
template <typename Step>
concept HasStep = requires(const EqualDivision& d, Step step) {
    d.at(step);
};
template <typename Target>
concept HasNearest = requires(const EqualDivision& d, Target target) {
    d.nearest(target);
};
template <typename Term>
concept MakesRatio = requires(Term term) {
    Interval::from_ratio(term, term);
};
template <typename Size>
concept MakesCents = requires(Size size) {
    Interval::from_cents(size);
};
template <typename A>
concept Negatable = requires(A a) {
    -a;
};

// pitch + pitch
static_assert(!Addable<Pitch, Pitch>);
// interval + pitch, interval - pitch: a pitch is the start, not the addition
static_assert(!Addable<Interval, Pitch>);
static_assert(!Subtractable<Interval, Pitch>);
// -pitch, 2 * pitch
static_assert(!Negatable<Pitch>);
static_assert(!Multipliable<Integer, Pitch>);
static_assert(!Multipliable<Pitch, Rational>);
// pitch == interval, pitch < interval
static_assert(!EqualityComparable<Pitch, Interval>);
static_assert(!Ordered<Pitch, Interval>);
// interval * interval
static_assert(!Multipliable<Interval, Interval>);
// interval + 1, interval + 1.5, interval == 1.5
static_assert(!Addable<Interval, int>);
static_assert(!Addable<Interval, double>);
static_assert(!EqualityComparable<Interval, double>);
// interval * 1.5, 1.5 * interval
static_assert(!Multipliable<Interval, double>);
static_assert(!Multipliable<double, Interval>);
// An interval from a number, a pitch from a number or an interval, unseen.
static_assert(!std::convertible_to<int, Interval>);
static_assert(!std::constructible_from<Interval, double>);
static_assert(!std::convertible_to<double, Pitch>);
static_assert(!std::constructible_from<Pitch, double>);
static_assert(!std::constructible_from<Pitch, Interval>);
static_assert(!std::convertible_to<Interval, Pitch>);
static_assert(!std::convertible_to<Pitch, Interval>);
static_assert(!std::convertible_to<double, Integer>);
static_assert(!std::convertible_to<double, Rational>);
// A division from a bare number, a step from an interval.
static_assert(!std::convertible_to<int, EqualDivision>);
static_assert(!HasStep<Interval> && !HasStep<double> && HasStep<Integer> && HasStep<int>);
static_assert(!HasNearest<double> && !HasNearest<Pitch> && HasNearest<Interval>);
static_assert(!MakesRatio<double> && !MakesRatio<float> && MakesRatio<int>);
static_assert(!MakesCents<double> && !MakesCents<float> && MakesCents<Rational>);

// What must compile, lest the above hold for another reason.
static_assert(Addable<Interval, Interval> && Subtractable<Interval, Interval>);
static_assert(Addable<Pitch, Interval> && Subtractable<Pitch, Interval>);
static_assert(std::same_as<decltype(std::declval<Pitch>() - std::declval<Pitch>()), Interval>);
static_assert(Multipliable<Integer, Interval> && Multipliable<Interval, Rational>);
static_assert(std::totally_ordered<Interval> && std::totally_ordered<Pitch>);

} // namespace

TEST_CASE("Types keep positions and distances apart") {
    SUCCEED("the assertions of this file hold, or it would not have compiled");
}
