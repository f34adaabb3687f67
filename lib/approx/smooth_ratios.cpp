#include <sectio/approx/messages.hpp>
#include <sectio/approx/smooth_numbers.hpp>
#include <sectio/approx/smooth_ratios.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/prime_list.hpp>

#include <algorithm>
#include <cstdlib>

namespace sectio {

namespace {

/// The product of the primes whose exponents have the sign of `side`.
Integer term_of(const Exponents& exponents, int side) {
    static const auto primes = primes_up_to(largest_prime_limit);
    Integer term = 1;
    for (std::size_t i = 0; i < most_primes; ++i)
        if (exponents[i] * side > 0)
            term *= boost::multiprecision::pow(Integer(primes[i]),
                                               static_cast<unsigned>(std::abs(exponents[i])));
    return term;
}

} // namespace

Integer numerator_of(const Exponents& exponents) {
    return term_of(exponents, 1);
}

Integer denominator_of(const Exponents& exponents) {
    return term_of(exponents, -1);
}

Interval interval_of(const Exponents& exponents) {
    return Interval::from_ratio(numerator_of(exponents), denominator_of(exponents));
}

namespace {

struct SizedRatio {
    std::int64_t size; ///< in SizeUnits
    Exponents exponents;
};

/// Bound of both terms that follows from the other bounds: max(a, b)^2 = ab max(a/b, b/a), which is
/// at most max_product 2^w where the window lies within w octaves of the unison.
Integer term_bound(const RatioBounds& bounds) {
    if (!bounds.max_product)
        return *bounds.max_term;
    const Interval widest = std::max(absolute(bounds.low), absolute(bounds.high));
    const Integer octaves = whole_periods(widest, Interval::octave()) + 1;
    Integer bound = *bounds.max_product;
    if (octaves < static_cast<long>(bit_length(bound)))
        bound = sqrt(Integer(bound << octaves.convert_to<unsigned>()));
    return bounds.max_term ? std::min(bound, *bounds.max_term) : bound;
}

/// The ratios of two classes of numbers without a common prime, for all such pairs of classes.
class Enumeration {
  public:
    Enumeration(const RatioBounds& bounds, const Integer& max_term)
        : bounds_(bounds), units_(max_term), low_(units_.of(bounds.low)),
          high_(units_.of(bounds.high)),
          product_(bounds.max_product ? units_.of(Interval::from_ratio(*bounds.max_product)) : 0) {}

    /// False where there are more ratios than the limit.
    bool run(const SmoothClasses& classes, const RatioProgress& progress) {
        const std::size_t all = classes.size() - 1;
        for (std::size_t above = 0; above <= all; ++above) {
            const std::size_t rest = all & ~above;
            // All subsets of `rest`, largest first.
            for (std::size_t below = rest;; below = (below - 1) & rest) {
                if (!pair_up(classes[above], classes[below]))
                    return false;
                if (below == 0)
                    break;
            }
            if (progress)
                progress(static_cast<double>(above + 1) / static_cast<double>(all + 1));
        }
        return true;
    }

    std::vector<Exponents> sorted() &&;

  private:
    bool pair_up(const std::vector<SmoothNumber>& above, const std::vector<SmoothNumber>& below) {
        const std::int64_t low = low_ - units_.error(), high = high_ + units_.error();
        if (above.size() < below.size())
            return walk(above, below, -high, -low,
                        [&](const SmoothNumber& a, const SmoothNumber& b) { return take(a, b); });
        return walk(below, above, low, high,
                    [&](const SmoothNumber& b, const SmoothNumber& a) { return take(a, b); });
    }

    template <typename Take>
    static bool walk(const std::vector<SmoothNumber>& few, const std::vector<SmoothNumber>& many,
                     std::int64_t low, std::int64_t high, Take take);

    bool take(const SmoothNumber& a, const SmoothNumber& b);
    bool in_window(std::int64_t size, const Exponents& exponents) const;
    bool in_product(std::int64_t size, const Exponents& exponents) const;

    const RatioBounds& bounds_;
    SizeUnits units_;
    std::int64_t low_, high_, product_;
    std::vector<SizedRatio> found_;
};

bool before(const SmoothNumber& n, std::int64_t steps, std::int64_t size) {
    return n.steps != steps ? n.steps < steps : n.size < size;
}

/// Shows `take` every pair of the same steps whose sizes differ by low … high. Both lists ascend by
/// steps and size, so the run of partners only moves on; where the other list is much longer it is
/// found by halving, else by walking.
template <typename Take>
bool Enumeration::walk(const std::vector<SmoothNumber>& few, const std::vector<SmoothNumber>& many,
                       std::int64_t low, std::int64_t high, Take take) {
    const bool halve = many.size() / 16 > few.size();
    auto first = many.begin();
    for (const SmoothNumber& n : few) {
        const auto too_small = [&](const SmoothNumber& m) {
            return before(m, n.steps, n.size + low);
        };
        if (halve)
            first = std::partition_point(first, many.end(), too_small);
        while (first != many.end() && too_small(*first))
            ++first;
        for (auto m = first; m != many.end() && m->steps == n.steps && m->size <= n.size + high;
             ++m)
            if (!take(n, *m))
                return false;
    }
    return true;
}

bool Enumeration::in_window(std::int64_t size, const Exponents& exponents) const {
    if (size - low_ > units_.error() && high_ - size > units_.error())
        return true;
    const Interval ratio = interval_of(exponents);
    return (ratio > bounds_.low || (bounds_.with_low && ratio == bounds_.low))
           && (ratio < bounds_.high || (bounds_.with_high && ratio == bounds_.high));
}

bool Enumeration::in_product(std::int64_t size, const Exponents& exponents) const {
    if (!bounds_.max_product)
        return true;
    const std::int64_t beyond = size - product_;
    if (std::abs(beyond) > units_.error())
        return beyond < 0;
    return numerator_of(exponents) * denominator_of(exponents) <= *bounds_.max_product;
}

bool Enumeration::take(const SmoothNumber& a, const SmoothNumber& b) {
    SizedRatio ratio{a.size - b.size, {}};
    for (std::size_t i = 0; i < most_primes; ++i)
        ratio.exponents[i] = static_cast<std::int16_t>(a.exponents[i] - b.exponents[i]);
    if (!in_window(ratio.size, ratio.exponents) || !in_product(a.size + b.size, ratio.exponents))
        return true;
    if (found_.size() == limits::listed_ratios)
        return false;
    found_.push_back(ratio);
    return true;
}

std::vector<Exponents> Enumeration::sorted() && {
    std::sort(found_.begin(), found_.end(), [this](const SizedRatio& a, const SizedRatio& b) {
        // Two sizes, each within the error.
        const std::int64_t apart = a.size - b.size;
        return std::abs(apart) > 2 * units_.error()
                   ? apart < 0
                   : interval_of(a.exponents) < interval_of(b.exponents);
    });
    std::vector<Exponents> ratios;
    ratios.reserve(found_.size());
    for (const SizedRatio& ratio : found_)
        ratios.push_back(ratio.exponents);
    return ratios;
}

/// The enumeration done, not yet in order, or what there are too many of.
struct Attempt {
    std::optional<Enumeration> done;
    Message trouble = message::too_many_ratios;
};

Attempt attempt(const RatioBounds& bounds, const RatioProgress& progress) {
    const Integer max_term = term_bound(bounds);
    const SizeUnits units(max_term);
    const auto classes = smooth_numbers(bounds, max_term, units, limits::smooth_numbers);
    if (!classes)
        return {std::nullopt, message::too_many_numbers};
    Enumeration enumeration(bounds, max_term);
    if (!enumeration.run(*classes, progress))
        return {};
    return {std::move(enumeration)};
}

Integer power_of_two(std::size_t exponent) {
    return Integer(1) << static_cast<unsigned>(exponent);
}

/// What could be answered instead: a power of two as the bound that was too large. More room for
/// the terms never gives fewer ratios, so halving finds it; an eighth short of the largest one is
/// near enough, since the trials near to that are the long ones.
[[noreturn]] void refuse(RatioBounds bounds, Message trouble) {
    const bool by_term = bounds.max_term && term_bound(bounds) == *bounds.max_term;
    std::optional<Integer>& bound = by_term ? bounds.max_term : bounds.max_product;
    std::size_t good = 0, bad = bit_length(*bound);
    while (bad - good > std::max<std::size_t>(1, good / 8)) {
        const std::size_t middle = (good + bad) / 2;
        bound = power_of_two(middle);
        (attempt(bounds, nullptr).done ? good : bad) = middle;
    }
    throw error(trouble, "", {},
                trouble == message::too_many_ratios ? limits::listed_ratios
                                                    : limits::smooth_numbers,
                by_term ? "the largest term" : "the largest product of both terms", good);
}

void check(const RatioBounds& bounds) {
    if (bounds.prime_limit < 2 || bounds.prime_limit > largest_prime_limit)
        throw error(message::prime_limit_out_of_range, fmt::to_string(bounds.prime_limit), {},
                    largest_prime_limit);
    if (!bounds.max_term && !bounds.max_product)
        throw error(message::no_term_bound, "", {});
    for (const auto& bound : {bounds.max_term, bounds.max_product}) {
        if (bound && *bound < 1)
            throw error(message::bound_not_positive, bound->str(), {});
        if (bound && bit_length(*bound) > limits::term_bits)
            throw error(message::term_too_large, "", {}, limits::term_bits);
    }
    if (bounds.low > bounds.high)
        throw error(message::window_empty, to_expression(bounds.high), {});
}

} // namespace

std::vector<Exponents> ratios_within(const RatioBounds& bounds, const RatioProgress& progress) {
    check(bounds);
    Attempt first = attempt(bounds, progress);
    if (!first.done)
        refuse(bounds, first.trouble);
    return std::move(*first.done).sorted();
}

void sort_by_benedetti_height(std::vector<Exponents>& ratios) {
    struct Keyed {
        Integer product;
        Exponents exponents;
    };
    std::vector<Keyed> keyed;
    keyed.reserve(ratios.size());
    for (const Exponents& e : ratios)
        keyed.push_back({numerator_of(e) * denominator_of(e), e});
    std::sort(keyed.begin(), keyed.end(), [](const Keyed& a, const Keyed& b) {
        return a.product != b.product ? a.product < b.product
                                      : interval_of(a.exponents) < interval_of(b.exponents);
    });
    std::transform(keyed.begin(), keyed.end(), ratios.begin(),
                   [](const Keyed& k) { return k.exponents; });
}

} // namespace sectio
