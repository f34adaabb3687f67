// sectio interval EXPR…: all that is known of an interval.

#include "command.hpp"

#include <sectio/base/error.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/scale/interval_report.hpp>

#include <fmt/format.h>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::vector<std::string> expressions;
    std::string against = "12,53";
    bool against_given = false;
    std::size_t quotients = 0;
    std::string measure = "2/1";
};

/// The factors that withstood the search, each by its digits: "a factor of 190 digits".
std::string unsplit(const Factors& factors) {
    std::string text;
    for (const Factor& f : factors)
        if (!f.prime)
            text += fmt::format("{}a factor of {} digits", text.empty() ? "" : ", ",
                                f.base.str().size());
    return text;
}

Json steps_json(const IntervalReport& report, const std::vector<EqualDivision>& divisions,
                int digits) {
    Json json = Json::array();
    for (std::size_t i = 0; i < divisions.size(); ++i)
        json.push_back(step_json(divisions[i], report.steps[i], digits));
    return json;
}

Json near_ratios_json(const IntervalReport& report, int digits) {
    Json json = Json::array();
    for (const Interval& ratio : report.near_ratios)
        json.push_back({{"ratio", to_expression(ratio)},
                        {"cents", ratio.cents(digits)},
                        {"error_cents", (ratio - report.interval).cents(digits)}});
    return json;
}

Json report_json(const IntervalReport& report, const std::vector<EqualDivision>& divisions,
                 int digits) {
    return {{"input", report.input},
            {"interval", to_expression(report.interval)},
            {"ratio", report.interval.is_ratio() ? Json(to_expression(report.interval)) : Json()},
            {"factors", factors_json(report.factors)},
            {"factors_complete", unsplit(report.factors).empty()},
            {"cents", report.interval.cents(digits)},
            {"names", names_json(report.names)},
            {"prime_limit", report.prime_limit ? count(*report.prime_limit) : Json()},
            {"steps", steps_json(report, divisions, digits)},
            {"near_ratios", near_ratios_json(report, digits)}};
}

/// The continued fraction with its convergents, as steps of divisions of the measure.
Json fraction_json(const IntervalReport& report, const Interval& measure) {
    Json quotients = Json::array(), fractions = Json::array();
    for (const Integer& q : report.fraction.quotients)
        quotients.push_back(count(q));
    for (const Approximant& a : convergents(report.fraction))
        fractions.push_back({{"steps", count(a.steps)}, {"divisions", count(a.divisions)}});
    return {{"measure", to_expression(measure)},
            {"quotients", std::move(quotients)},
            {"ended", report.fraction.ended},
            {"convergents", std::move(fractions)}};
}

std::string fraction_text(const IntervalReport& report, const Interval& measure) {
    std::string quotients, fractions;
    const char* separators[]{"", "; ", ", "};
    std::size_t place = 0;
    for (const Integer& q : report.fraction.quotients)
        quotients += separators[std::min<std::size_t>(place++, 2)] + q.str();
    for (const Approximant& a : convergents(report.fraction))
        fractions += fmt::format(" {}/{}", a.steps.str(), a.divisions.str());
    return fmt::format("  quotients  [{}{}] in {}\n  steps/of  {}\n", quotients,
                       report.fraction.ended ? "" : ", …", to_expression(measure), fractions);
}

std::string steps_text(const IntervalReport& report, const std::vector<EqualDivision>& divisions,
                       int digits) {
    std::string text;
    for (std::size_t i = 0; i < divisions.size(); ++i) {
        const ComparedStep& step = report.steps[i];
        text += fmt::format("  in {:<8}step {} = {} cents, error {} cents\n",
                            division_text(divisions[i]), step.step.str(), step.size.cents(digits),
                            step.error.cents(digits));
    }
    return text;
}

std::string near_text(const IntervalReport& report, int digits) {
    std::string text;
    for (const Interval& ratio : report.near_ratios)
        text += fmt::format("{} {} ({})", text.empty() ? "" : ",", to_expression(ratio),
                            (ratio - report.interval).cents(digits));
    return text.empty() ? text : "  near      " + text + "\n";
}

std::string report_text(const IntervalReport& report, const std::vector<EqualDivision>& divisions,
                        int digits) {
    const std::string left = unsplit(report.factors);
    std::string text = fmt::format(
        "{}\n  interval   {}\n  size       {} cents\n  factors    {}{}\n", report.input,
        to_expression(report.interval), report.interval.cents(digits), factors_text(report.factors),
        left.empty() ? "" : "  (not split into primes: " + left + ")");
    for (const Entry& entry : report.names)
        text += fmt::format("  known as   {} ({})\n", entry.name, entry.source);
    return text + steps_text(report, divisions, digits) + near_text(report, digits);
}

/// `--against 12 31 53` makes intervals of 31 and 53, though divisions are meant.
void refuse_stray_divisions(const Request& request) {
    if (!request.against_given)
        return;
    for (const std::string& text : request.expressions)
        if (text.find_first_not_of("0123456789") == std::string::npos)
            throw error(message::stray_division, text, {}, request.against, text);
}

ReportRequest report_request(const Request& request) {
    ReportRequest asked;
    asked.divisions = parse_divisions(request.against);
    asked.quotients = request.quotients;
    asked.measure =
        parse_interval(request.measure, {"--measure", 0, 1}, Catalogue::installed().names());
    // All expressions together cost what one would.
    asked.factor_budget = search_budget / request.expressions.size();
    return asked;
}

void run(const Request& request) {
    refuse_stray_divisions(request);
    const ReportRequest asked = report_request(request);
    const int digits = request.common.digits;
    Json json = {{"intervals", Json::array()}};
    std::string text;
    for (std::size_t i = 0; i < request.expressions.size(); ++i) {
        const IntervalReport answer =
            report(request.expressions[i], fmt::format("argument {}", i + 1), asked,
                   Catalogue::installed());
        if (request.common.json) {
            Json entry = report_json(answer, asked.divisions, digits);
            if (asked.quotients > 0)
                entry["continued_fraction"] = fraction_json(answer, asked.measure);
            json["intervals"].push_back(std::move(entry));
        } else {
            text += report_text(answer, asked.divisions, digits);
            if (asked.quotients > 0)
                text += fraction_text(answer, asked.measure);
        }
    }
    request.common.json ? print_json(json) : print(text);
}

} // namespace

void add_interval(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command = app.add_subcommand("interval", "all that is known of an interval");
    command
        ->add_option("EXPR", request->expressions,
                     "intervals, such as 3/2, 31of53, 701.955c, '12 x 3/2 - 7 x 2/1'")
        ->required();
    const CLI::Option* against = command->add_option("--against", request->against,
                                                     "divisions to compare with, such as 12,53");
    command->add_option("--quotients", request->quotients,
                        "show so many quotients of the continued fraction of the size");
    command->add_option("--measure", request->measure,
                        "what --quotients measures the size in (2/1)");
    add_common_options(*command, request->common);
    command->callback([request, against] {
        request->against_given = against->count() > 0;
        run(*request);
    });
}

} // namespace sectio::cli
