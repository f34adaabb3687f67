#pragma once
/// @file
/// Private to lib/approx: Euclid's algorithm on two numbers that are only known to lie in narrow
/// ranges.
///
/// The real x = α / β with α in [a, a + 2] and β in [b, b + 2] lies between a / (b + 2) and
/// (a + 2) / b. The reals whose continued fraction begins with given quotients form an interval, so
/// quotients that the two ends share belong to every number between them. That is the certificate;
/// the rest is speed: quotients of the leading half of the digits, found first, are quotients of
/// the whole, since the leading half is itself such a range.
///
/// Cost: O(M(n) log n) for n bits, M(n) being GMP's multiplication.
/// Sources: D. H. Lehmer, Amer. Math. Monthly 45 (1938); A. Schönhage, Acta Informatica 1 (1971).

#include <sectio/base/number.hpp>

#include <vector>

namespace sectio {

/// The quotients of x = α / β that are certain from `a` and `b` alone, first to last. Each but the
/// first is at least 1. Precondition: a, b >= 0.
std::vector<Integer> certain_quotients(const Integer& a, const Integer& b);

} // namespace sectio
