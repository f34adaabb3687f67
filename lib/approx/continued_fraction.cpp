#include <sectio/approx/certified_euclid.hpp>
#include <sectio/approx/continued_fraction.hpp>
#include <sectio/approx/messages.hpp>
#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/messages.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

ContinuedFraction rational_fraction(Rational x, std::size_t count) {
    ContinuedFraction result;
    while (result.quotients.size() < count) {
        result.quotients.push_back(floor(x));
        x -= result.quotients.back();
        if (x == Rational(0)) {
            result.ended = true;
            break;
        }
        x = Rational(x.denominator(), x.numerator());
    }
    return result;
}

/// A whole number below size * 2^shift by at most 2: the nearest one less 1, or the floor where
/// the value is so near to a half that the nearest one is open.
Integer scaled_size(const Interval& a, long shift) {
    // An enclosure's bits count from its first one, so those before the point come on top.
    const long guard = 64 + std::ilogb(1 + std::abs(a.estimate().value));
    Integer unit = 1;
    unit <<= static_cast<unsigned>(shift);
    const Enclosure scaled = a.octaves(shift + guard) * Enclosure(unit, shift + guard);
    if (const auto nearest = scaled.rounded())
        return *nearest - 1;
    if (const auto down = scaled.floored())
        return *down;
    throw error(message::order_undecided, "", {}, shift);
}

/// Bits that `count` quotients need: twice π²/(12 ln 2) / ln 2 = 1.7119 for each on average, for
/// almost all numbers (Lévy 1936), and some for the spread.
long bits_for(std::size_t count) {
    const auto n = static_cast<double>(count);
    return static_cast<long>(3.4238 * n + 8 * std::sqrt(n)) + 128;
}

/// Quotients of size(a) / size(b) for 0 < size(a) < size(b), irrational.
std::vector<Integer> irrational_quotients(const Interval& a, const Interval& b, std::size_t count) {
    const long most = bits_for(limits::quotients) + limits::precision_bits;
    for (long bits = bits_for(count); bits <= most; bits += bits / 4) {
        auto quotients = certain_quotients(scaled_size(a, bits), scaled_size(b, bits));
        if (quotients.size() >= count) {
            quotients.resize(count);
            return quotients;
        }
    }
    throw error(message::order_undecided, "", {}, most);
}

/// The continued fraction's recurrence: this fraction is q times the last one plus the one before.
Approximant next(const Approximant& last, const Approximant& before, const Integer& q) {
    return {q * last.steps + before.steps, q * last.divisions + before.divisions};
}

} // namespace

ContinuedFraction continued_fraction(const Interval& a, const Interval& measure,
                                     std::size_t count) {
    if (count > limits::quotients)
        throw error(message::too_many_quotients, fmt::to_string(count), {}, limits::quotients);
    if (const auto rational = exact_quotient(a, measure))
        return rational_fraction(*rational, count);
    if (measure < Interval())
        return continued_fraction(-a, -measure, count);
    ContinuedFraction result;
    if (count == 0)
        return result;
    const Integer whole = whole_periods(a, measure);
    result.quotients.push_back(whole);
    if (count == 1)
        return result;
    auto rest = irrational_quotients(a - whole * measure, measure, count);
    std::move(rest.begin() + 1, rest.end(), std::back_inserter(result.quotients));
    return result;
}

std::vector<Approximant> convergents(const ContinuedFraction& fraction) {
    std::vector<Approximant> result;
    Approximant before{0, 1}, last{1, 0};
    for (const Integer& q : fraction.quotients) {
        result.push_back(next(last, before, q));
        before = std::exchange(last, result.back());
    }
    return result;
}

std::vector<Approximant> approximants(const ContinuedFraction& fraction,
                                      const Integer& max_divisions) {
    std::vector<Approximant> result;
    Approximant before{0, 1}, last{1, 0};
    for (const Integer& q : fraction.quotients) {
        // The first quotient alone has no fractions before it: last is 1/0, which is none.
        for (Integer k = last.divisions == 0 ? q : Integer(1); k <= q; ++k) {
            Approximant here = next(last, before, k);
            if (here.divisions > max_divisions)
                return result;
            check_argument(result.size() < limits::quotients, "the largest division",
                           "smaller, where a quotient is so large");
            here.convergent = k == q;
            result.push_back(std::move(here));
        }
        before = std::exchange(last, next(last, before, q));
    }
    return result;
}

} // namespace sectio
