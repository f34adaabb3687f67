#include <sectio/sheet/step_names.hpp>

#include <tuple>

namespace sectio {

namespace {

bool has_primes_up_to_5(Integer term) {
    for (const int prime : {2, 3, 5})
        while (term % prime == 0)
            term /= prime;
    return term == 1;
}

/// The lower stands nearer to theory: not the step itself, primes beyond 5, product of the terms.
using Rank = std::tuple<bool, bool, Integer>;

std::optional<Rank> rank_of(const Interval& interval, const Interval& error) {
    if (error.is_unison())
        return Rank{false, false, 0};
    const auto ratio = interval.ratio();
    if (!ratio)
        return std::nullopt;
    const Integer product = ratio->numerator() * ratio->denominator();
    return Rank{true, !has_primes_up_to_5(product), product};
}

} // namespace

std::map<long, std::string> step_names(const EqualDivision& division, long count,
                                       const Catalogue& catalogue) {
    const Interval quarter = division.at(1) * Rational(1, 4);
    std::map<long, std::pair<Rank, std::string>> best;
    for (const Entry& entry : catalogue.sizes()) {
        const Interval& interval = *entry.interval();
        const Integer step = division.nearest(interval);
        if (step < 1 || step > count)
            continue;
        const Interval error = division.at(step) - interval;
        const auto rank = rank_of(interval, error);
        if (!rank || absolute(error) > quarter)
            continue;
        const auto [at, is_new] = best.try_emplace(step.convert_to<long>(), *rank, entry.name);
        if (!is_new && *rank < at->second.first)
            at->second = {*rank, entry.name};
    }
    std::map<long, std::string> names;
    for (auto& [step, named] : best)
        names.emplace(step, std::move(named.second));
    return names;
}

} // namespace sectio
