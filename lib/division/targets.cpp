#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/division/screen.hpp>
#include <sectio/division/targets.hpp>
#include <sectio/interval/prime_list.hpp>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace sectio {

namespace {

/// The odd numbers a, b of a limit, coprime and different.
template <typename Visit>
void for_odd_pairs(unsigned limit, Visit visit) {
    for (unsigned a = 1; a <= limit; a += 2)
        for (unsigned b = 1; b <= limit; b += 2)
            if (a != b && std::gcd(a, b) == 1)
                visit(a, b);
}

/// How many targets the odd limit `limit` has beyond the one two below it.
std::size_t added_by_odd(unsigned limit) {
    std::size_t coprime = 0;
    for (unsigned below = 1; below < limit; below += 2)
        coprime += std::gcd(limit, below) == 1;
    return 2 * coprime; // each as limit/below and as below/limit
}

/// The largest odd limit with at most limits::division_targets targets.
unsigned largest_odd_limit() {
    static const unsigned largest = [] {
        unsigned next = 3;
        for (std::size_t size = added_by_odd(next); size <= limits::division_targets;
             size += added_by_odd(next))
            next += 2;
        return next - 2;
    }();
    return largest;
}

/// Two ratios of an odd limit, brought into one octave, are further apart than this in octaves: the
/// terms of their quotient are at most 2 limit^2, which is below 10^5, so it exceeds 1 by 10^-5 at
/// least. Doubles are good to far more, so they tell such ratios apart and order them.
constexpr double least_odd_distance = 1e-5;

/// a/b brought into one octave.
Interval odd_ratio(unsigned a, unsigned b) {
    return reduced(Interval::from_ratio(a, b));
}

} // namespace

Targets odd_limit_targets(unsigned limit) {
    if (limit < 3 || limit > largest_odd_limit() + 1)
        throw error(message::odd_limit_out_of_range, fmt::to_string(limit), {},
                    largest_odd_limit());
    Targets targets{{}, limit};
    for_odd_pairs(limit,
                  [&](unsigned a, unsigned b) { targets.intervals.push_back(odd_ratio(a, b)); });
    std::sort(targets.intervals.begin(), targets.intervals.end(),
              [](const Interval& a, const Interval& b) {
                  return a.estimate().value < b.estimate().value;
              });
    return targets;
}

Targets prime_targets(unsigned limit) {
    constexpr unsigned largest = 100'000; // 9592 primes, fewer than limits::division_targets
    if (limit < 2 || limit > largest)
        throw error(message::prime_targets_out_of_range, fmt::to_string(limit), {}, largest);
    Targets targets;
    for (const unsigned prime : primes_up_to(limit))
        targets.intervals.push_back(Interval::from_ratio(prime));
    return targets;
}

std::optional<Targets> parse_limit_targets(std::string_view text, const Place& place) {
    TextCursor in(text, place);
    in.skip_spaces();
    const bool odd = in.accept_word("odd");
    if ((!odd && !in.accept_word("primes")) || !in.accept(':'))
        return std::nullopt;
    in.skip_spaces();
    const std::size_t start = in.position();
    const std::string digits = in.digits();
    if (digits.empty())
        throw in.failure(message::expected_limit, start);
    in.expect_end();
    // More digits than any limit here has.
    const unsigned limit =
        digits.size() > 9 ? 1'000'000'000 : static_cast<unsigned>(std::stoul(digits));
    try {
        return odd ? odd_limit_targets(limit) : prime_targets(limit);
    } catch (const Error& e) {
        throw e.at(in.place(start));
    }
}

Targets without_periods(const Targets& targets, const Interval& period) {
    Targets kept{{}, targets.odd_limit};
    for (const Interval& interval : targets.intervals) {
        const auto periods = exact_quotient(interval, period);
        if (!periods || periods->denominator() != 1)
            kept.intervals.push_back(interval);
    }
    if (kept.intervals.empty())
        throw error(message::no_targets, "", {});
    if (kept.intervals.size() > limits::division_targets)
        throw error(message::too_many_targets, "", {}, limits::division_targets);
    return kept;
}

namespace {

std::vector<TargetSum> odd_sums(const Targets& targets) {
    std::vector<double> sizes;
    for (const Interval& target : targets.intervals)
        sizes.push_back(target.estimate().value);
    const auto place = [&](unsigned a, unsigned b) {
        const double size = std::log2(a) - std::log2(b);
        const double from = size - std::floor(size) - least_odd_distance / 2;
        return static_cast<std::size_t>(std::lower_bound(sizes.begin(), sizes.end(), from)
                                        - sizes.begin());
    };
    std::vector<TargetSum> sums;
    for (unsigned a = 5; a <= *targets.odd_limit; a += 2)
        for (unsigned b = 3; b < a; b += 2) {
            const std::size_t ratio = place(a, b), low = place(b, 1), high = place(a, 1);
            // The sum lies within two octaves, and the rest is a whole number of them.
            sums.push_back(
                {ratio, low, high, Integer(std::lround(sizes[ratio] + sizes[low] - sizes[high]))});
        }
    return sums;
}

/// An interval as whole periods and the rest, which is its target's or, for the unison, nobody's.
struct Position {
    double place; ///< rest / period, correctly rounded or next to it
    Interval rest;
    Integer periods;
    std::optional<std::size_t> target;
};

/// Of all targets and the unison.
std::vector<Position> positions(const Targets& targets, const Interval& period) {
    std::vector<Position> result;
    for (std::size_t i = 0; i < targets.intervals.size(); ++i) {
        const Integer periods = whole_periods(targets.intervals[i], period);
        Interval rest = targets.intervals[i] - periods * period;
        const double place = quotient_of_sizes(rest, period);
        result.push_back({place, std::move(rest), periods, i});
    }
    result.push_back({0, {}, 0, {}});
    return result;
}

/// Sums of any targets. Doubles propose, exact intervals decide: three places are off by less than
/// 2^-50 together.
std::vector<TargetSum> listed_sums(const Targets& targets, const Interval& period) {
    constexpr double near = 0x1p-48;
    const auto given = positions(targets, period);
    auto places = given;
    std::sort(places.begin(), places.end(),
              [](const Position& a, const Position& b) { return a.place < b.place; });
    const auto first_from = [&](double from) {
        return std::partition_point(places.begin(), places.end(),
                                    [&](const Position& p) { return p.place < from; });
    };
    std::vector<TargetSum> sums;
    const auto look_near = [&](const Position& a, const Position& b, int turns) {
        const double from = a.place + b.place - turns - near;
        for (auto p = first_from(from); p != places.end() && p->place < from + 2 * near; ++p)
            if (a.rest + b.rest == p->rest + Integer(turns) * period)
                sums.push_back(
                    {*a.target, *b.target, p->target, a.periods + b.periods - p->periods + turns});
    };
    const std::size_t count = targets.intervals.size();
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = i; j < count; ++j)
            for (const int turns : {0, 1})
                look_near(given[i], given[j], turns);
    return sums;
}

} // namespace

std::vector<TargetSum> target_sums(const Targets& targets, const Interval& period) {
    if (targets.odd_limit.value_or(0) >= 5 && period == Interval::octave()
        && targets.intervals == odd_limit_targets(*targets.odd_limit).intervals)
        return odd_sums(targets);
    if (targets.intervals.size() > limits::consistency_targets)
        return {};
    return listed_sums(targets, period);
}

} // namespace sectio
