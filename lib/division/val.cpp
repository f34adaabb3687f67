#include <sectio/division/val.hpp>
#include <sectio/interval/prime_list.hpp>

#include <algorithm>

namespace sectio {

Val::Val(const EqualDivision& division, unsigned prime_limit) : primes_(primes_up_to(prime_limit)) {
    for (const unsigned prime : primes_)
        steps_.push_back(division.nearest(Interval::from_ratio(prime)));
}

std::optional<Integer> Val::steps_of(const Interval& interval) const {
    Integer sum = 0;
    for (const Factor& f : interval.prime_factors()) {
        const auto place = std::lower_bound(primes_.begin(), primes_.end(), f.base);
        if (place == primes_.end() || *place != f.base || f.exponent.denominator() != 1)
            return std::nullopt;
        sum += f.exponent.numerator() * steps_[static_cast<std::size_t>(place - primes_.begin())];
    }
    return sum;
}

} // namespace sectio
