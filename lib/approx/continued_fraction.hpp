#pragma once
/// @file
/// The continued fraction of one interval's size in another's: 3/2 in octaves is
/// [0; 1, 1, 2, 2, 3, 1, 5, …], whose convergents 1/1, 1/2, 3/5, 7/12, 24/41, 31/53 name the
/// equal divisions of the octave that bring the fifth nearer than all smaller ones.
///
/// Notation: [a0; a1, a2, …] = a0 + 1/(a1 + 1/(a2 + …)); a0 any whole number, the others at least
/// 1, and the last one of a finite fraction at least 2 unless it stands alone.
/// Source: A. Ya. Khinchin, Continued Fractions (1964), chapters 1 and 2.

#include <sectio/interval/interval.hpp>

#include <cstddef>
#include <vector>

namespace sectio {

/// The first quotients of a continued fraction. All are certain (see certified_euclid.hpp).
struct ContinuedFraction {
    std::vector<Integer> quotients;
    /// The fraction ends with the last quotient: the size is a rational number of the measure, such
    /// as 4/1 in octaves. Otherwise there are more, without end.
    bool ended = false;
};

/// The first `count` quotients of size(a) / size(measure), fewer where it ends sooner.
///
/// Whether it ends is decided first and exactly (exact_quotient), so an irrational size needs only
/// enough digits. `count` quotients take about 3.42 count bits (Lévy's constant); where that is not
/// enough the precision grows.
/// @throws Error zero_power_of_nothing where `measure` is the unison, too_many_quotients beyond
/// limits::quotients, order_undecided where one quotient alone is out of reach
ContinuedFraction continued_fraction(const Interval& a, const Interval& measure, std::size_t count);

/// A fraction near the size: `steps` parts of the measure divided into `divisions`.
struct Approximant {
    Integer steps, divisions;
    /// A convergent is nearer to the size, in steps of its own division, than any fraction of a
    /// smaller denominator. An intermediate fraction lies between two convergents of one side.
    bool convergent = true;
    friend bool operator==(const Approximant&, const Approximant&) = default;
};

/// The convergents of the quotients, first to last.
std::vector<Approximant> convergents(const ContinuedFraction& fraction);

/// Convergents and the intermediate fractions between them, by denominator, as long as that is at
/// most `max_divisions`. These are the best approximations of one side: none of a smaller or equal
/// denominator lies between one of them and the size on its side.
/// @throws Error unfit_argument for more than limits::quotients of them
std::vector<Approximant> approximants(const ContinuedFraction& fraction,
                                      const Integer& max_divisions);

} // namespace sectio
