#include <sectio/approx/smooth_numbers.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/prime_list.hpp>

#include <algorithm>
#include <bit>
#include <cmath>

namespace sectio {

namespace {

constexpr std::int64_t farthest = std::int64_t{1} << 62;

/// size * 2^fraction_bits within 1: the nearest whole number, or the floor where a half is so near
/// that the nearest one is open.
Integer in_units(const Interval& interval, long fraction_bits) {
    const long precision = fraction_bits + 96;
    Integer unit = 1;
    unit <<= static_cast<unsigned>(fraction_bits);
    const Enclosure scaled = interval.octaves(precision) * Enclosure(unit, precision);
    if (const auto nearest = scaled.rounded())
        return *nearest;
    if (const auto down = scaled.floored())
        return *down;
    throw error(message::order_undecided, to_expression(interval), {}, precision);
}

} // namespace

SizeUnits::SizeUnits(const Integer& max_term) {
    const std::size_t bits = bit_length(max_term) + 1;
    fraction_bits_ = 61 - std::bit_width(bits);
    error_ = 2 * static_cast<std::int64_t>(bits) + 2;
    const auto primes = primes_up_to(largest_prime_limit);
    for (std::size_t i = 0; i < most_primes; ++i)
        primes_[i] = of(Interval::from_ratio(primes[i]));
}

std::int64_t SizeUnits::of(const Interval& interval) const {
    // Twice as far as is kept: there the bits before the point would leave too few behind it.
    const double octaves = interval.estimate().value;
    if (std::abs(octaves) > std::ldexp(1.0, 63 - static_cast<int>(fraction_bits_)))
        return octaves > 0 ? farthest : -farthest;
    const Integer units = in_units(interval, fraction_bits_);
    return std::clamp(units, Integer(-farthest), Integer(farthest)).convert_to<std::int64_t>();
}

namespace {

/// Walks all numbers of the prime limit up to a bound.
class Walk {
  public:
    Walk(const RatioBounds& bounds, const Integer& max_term, const SizeUnits& units,
         std::size_t most)
        : bounds_(bounds), max_term_(max_term), units_(units), left_(most),
          largest_(units.of(Interval::from_ratio(max_term))),
          farthest_(units.of(std::max(absolute(bounds.low), absolute(bounds.high)))),
          primes_(primes_up_to(bounds.prime_limit)), classes_(std::size_t{1} << primes_.size()) {
        for (std::size_t i = 0; i < primes_.size(); ++i)
            if (bounds.only.empty() || std::ranges::count(bounds.only, primes_[i]) > 0)
                all_ |= std::size_t{1} << i;
    }

    /// Adds `n` times all products of the primes from `prime` on; false where there are too many.
    bool add(const SmoothNumber& n, std::size_t prime, std::size_t mask) {
        if (prime == primes_.size())
            return keep(n, mask);
        const std::size_t bit = std::size_t{1} << prime;
        if ((all_ & bit) == 0)
            return add(n, prime + 1, mask);
        SmoothNumber multiple = n;
        for (std::size_t with = mask; fits(multiple); with = mask | bit) {
            if (!add(multiple, prime + 1, with))
                return false;
            ++multiple.exponents[prime];
            multiple.size += units_.prime(prime);
            multiple.steps += bounds_.vanishing ? (*bounds_.vanishing)[prime] : 0;
        }
        return true;
    }

    SmoothClasses sorted() && {
        for (auto& numbers : classes_)
            std::sort(numbers.begin(), numbers.end(), [](const auto& a, const auto& b) {
                return a.steps != b.steps ? a.steps < b.steps : a.size < b.size;
            });
        return std::move(classes_);
    }

  private:
    bool fits(const SmoothNumber& n) const {
        const std::int64_t beyond = n.size - largest_;
        if (beyond < -units_.error() || beyond > units_.error())
            return beyond < 0;
        return numerator_of(n.exponents) <= max_term_;
    }

    bool keep(const SmoothNumber& n, std::size_t mask) {
        if (mask == all_ && n.size > farthest_ + units_.error())
            return true;
        if (left_ == 0)
            return false;
        --left_;
        classes_[mask].push_back(n);
        return true;
    }

    const RatioBounds& bounds_;
    const Integer& max_term_;
    const SizeUnits& units_;
    std::size_t left_;
    std::int64_t largest_, farthest_;
    std::vector<unsigned> primes_;
    std::size_t all_ = 0; ///< the class of a number that all wanted primes divide
    SmoothClasses classes_;
};

} // namespace

std::optional<SmoothClasses> smooth_numbers(const RatioBounds& bounds, const Integer& max_term,
                                            const SizeUnits& units, std::size_t most) {
    Walk walk(bounds, max_term, units, most);
    if (!walk.add({0, 0, {}}, 0, 0))
        return std::nullopt;
    return std::move(walk).sorted();
}

} // namespace sectio
