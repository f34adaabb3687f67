#include <sectio/base/limits.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>

namespace sectio {

namespace {

/// The mean of the squares in cents where all are exact fractions.
std::optional<Rational> exact_mean_square(const std::vector<Interval>& intervals) {
    Rational sum(0);
    for (const Interval& interval : intervals) {
        const auto cents = interval.exact_cents();
        if (!cents)
            return std::nullopt;
        sum += *cents * *cents;
    }
    return sum / Integer(intervals.size());
}

ComparedDegree compared_degree(const std::vector<EqualDivision>& divisions, const Degree& degree,
                               const TunedDegree& tuned) {
    ComparedDegree compared{tuned, degree, std::nullopt, {}};
    for (const EqualDivision& division : divisions)
        compared.against.push_back(compared_step(division, degree.interval));
    return compared;
}

void set_next(Comparison& comparison) {
    auto& degrees = comparison.degrees;
    for (std::size_t i = 0; i + 1 < degrees.size(); ++i)
        degrees[i].next = degrees[i + 1].degree.interval - degrees[i].degree.interval;
    if (comparison.scale().period)
        degrees.back().next = *comparison.scale().period - degrees.back().degree.interval;
}

DivisionSummary summary(const Comparison& comparison, std::size_t division) {
    DivisionSummary result{comparison.divisions[division], Interval(), 0, {}};
    for (std::size_t i = 0; i < comparison.degrees.size(); ++i) {
        if (comparison.degrees[i].degree.interval.is_unison())
            continue;
        const Interval& error = comparison.degrees[i].against[division].error;
        result.errors.push_back(error);
        if (const Interval size = absolute(error); size > result.max_error) {
            result.max_error = size;
            result.worst = i;
        }
    }
    return result;
}

} // namespace

ComparedStep compared_step(const EqualDivision& division, const Interval& degree) {
    const Integer step = division.nearest(degree);
    const Interval size = division.at(step);
    return {step, size, size - degree};
}

Real root_mean_square(const std::vector<Interval>& intervals) {
    if (intervals.empty())
        return Rational(0);
    if (const auto mean = exact_mean_square(intervals))
        return Real::root_of(*mean);
    return Real::enclosed([intervals](long bits) {
        Enclosure sum(bits);
        for (const Interval& interval : intervals) {
            const Enclosure octaves = interval.octaves(bits);
            sum = sum + octaves * octaves;
        }
        const Integer count(intervals.size());
        return sqrt(sum / Enclosure(count, bits)) * Enclosure(Integer(1200), bits);
    });
}

Comparison compare(const TunedScale& tuned, const std::vector<EqualDivision>& divisions) {
    if (divisions.size() > limits::compared_divisions)
        throw error(message::too_many_divisions, "", {}, limits::compared_divisions);
    const Scale& scale = tuned.scale();
    Comparison comparison{tuned, divisions, {}, {}, {}};
    for (std::size_t i = 0; i < scale.degrees.size(); ++i)
        comparison.degrees.push_back(
            compared_degree(divisions, scale.degrees[i], tuned.degrees()[i]));
    if (scale.period)
        comparison.closing = compared_degree(divisions, scale.closing, *tuned.closing());
    set_next(comparison);
    for (std::size_t i = 0; i < divisions.size(); ++i)
        comparison.summaries.push_back(summary(comparison, i));
    return comparison;
}

Comparison compare(const Scale& scale, const ComparisonOptions& options) {
    return compare(tuned(scale, options), options.divisions);
}

} // namespace sectio
