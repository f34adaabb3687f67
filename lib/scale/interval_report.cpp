#include <sectio/approx/near_ratios.hpp>
#include <sectio/scale/interval_report.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

std::optional<Integer> prime_limit(const Factors& factors) {
    const bool all_known =
        std::all_of(factors.begin(), factors.end(), [](const Factor& f) { return f.prime; });
    return all_known && !factors.empty() ? std::optional(factors.back().base) : std::nullopt;
}

/// How far away a near ratio may be.
Interval near_tolerance(const Interval& interval) {
    const Interval usual = Interval::from_cents(Rational(near_ratio_cents));
    const Interval quarter = absolute(interval) * Rational(1, 4);
    return quarter.is_unison() ? usual : std::min(usual, quarter);
}

} // namespace

IntervalReport report(const std::string& input, const std::string& source,
                      const ReportRequest& request, const Catalogue& catalogue) {
    IntervalReport report;
    report.input = input;
    report.interval = parse_interval(input, {source, 0, 1}, catalogue.names());
    report.factors = report.interval.prime_factors(request.factor_budget);
    report.prime_limit = prime_limit(report.factors);
    report.names = catalogue.of_size(report.interval);
    for (const EqualDivision& division : request.divisions)
        report.steps.push_back(compared_step(division, report.interval));
    NearBounds bounds;
    bounds.most = most_near_ratios;
    report.near_ratios =
        successive_approximations(report.interval, near_tolerance(report.interval), bounds);
    if (request.quotients > 0)
        report.fraction = continued_fraction(report.interval, request.measure, request.quotients);
    return report;
}

std::string exponent_text(const Rational& exponent) {
    return exponent.denominator() == 1
               ? exponent.numerator().str()
               : fmt::format("{}/{}", exponent.numerator().str(), exponent.denominator().str());
}

std::string factors_text(const Factors& factors) {
    const auto is_plain = [](const Factor& f) { return f.exponent == Rational(1); };
    // `3 5` would read as a ratio that lacks its slash.
    const bool all_plain =
        factors.size() > 1 && std::all_of(factors.begin(), factors.end(), is_plain);
    std::string text;
    for (const Factor& f : factors) {
        text += (text.empty() ? "" : " ") + f.base.str();
        if (!is_whole(f.exponent))
            text += "^(" + exponent_text(f.exponent) + ")";
        else if (all_plain || !is_plain(f))
            text += "^" + exponent_text(f.exponent);
    }
    return text.empty() ? "1" : text;
}

} // namespace sectio
