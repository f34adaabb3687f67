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

} // namespace

IntervalReport report(const std::string& input, const std::string& source,
                      const std::vector<EqualDivision>& divisions, const Catalogue& catalogue) {
    IntervalReport report;
    report.input = input;
    report.interval = parse_interval(input, {source, 0, 1}, catalogue.names());
    report.factors = report.interval.prime_factors();
    report.prime_limit = prime_limit(report.factors);
    report.names = catalogue.of_size(report.interval);
    for (const EqualDivision& division : divisions)
        report.steps.push_back(compared_step(division, report.interval));
    NearBounds bounds;
    bounds.most = most_near_ratios;
    if (const auto ratio = report.interval.ratio()) // its own terms may be longer than the usual
        bounds.max_term = std::max({bounds.max_term, ratio->numerator(), ratio->denominator()});
    report.near_ratios =
        near_ratios(report.interval, Interval::from_cents(Rational(near_ratio_cents)), bounds);
    return report;
}

std::string exponent_text(const Rational& exponent) {
    return exponent.denominator() == 1
               ? exponent.numerator().str()
               : fmt::format("{}/{}", exponent.numerator().str(), exponent.denominator().str());
}

std::string factors_text(const Factors& factors) {
    std::string text;
    for (const Factor& f : factors) {
        text += (text.empty() ? "" : " ") + f.base.str();
        if (f.exponent.denominator() != 1)
            text += "^(" + exponent_text(f.exponent) + ")";
        else if (f.exponent != Rational(1))
            text += "^" + exponent_text(f.exponent);
    }
    return text.empty() ? "1" : text;
}

} // namespace sectio
