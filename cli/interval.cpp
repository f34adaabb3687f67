// sectio interval EXPR…: all that is known of an interval.

#include "command.hpp"

#include <sectio/scale/interval_report.hpp>

#include <fmt/format.h>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::vector<std::string> expressions;
    std::string against = "12,53";
};

bool all_prime(const Factors& factors) {
    return std::all_of(factors.begin(), factors.end(), [](const Factor& f) { return f.prime; });
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
            {"factors_complete", all_prime(report.factors)},
            {"cents", report.interval.cents(digits)},
            {"names", names_json(report.names)},
            {"prime_limit", report.prime_limit ? count(*report.prime_limit) : Json()},
            {"steps", steps_json(report, divisions, digits)},
            {"near_ratios", near_ratios_json(report, digits)}};
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
    std::string text = fmt::format(
        "{}\n  interval   {}\n  size       {} cents\n  factors    {}{}\n", report.input,
        to_expression(report.interval), report.interval.cents(digits), factors_text(report.factors),
        all_prime(report.factors) ? "" : "  (not all split into primes)");
    for (const Entry& entry : report.names)
        text += fmt::format("  known as   {} ({})\n", entry.name, entry.source);
    return text + steps_text(report, divisions, digits) + near_text(report, digits);
}

void run(const Request& request) {
    const auto divisions = parse_divisions(request.against);
    Json json = {{"intervals", Json::array()}};
    std::string text;
    for (std::size_t i = 0; i < request.expressions.size(); ++i) {
        const IntervalReport answer =
            report(request.expressions[i], fmt::format("argument {}", i + 1), divisions,
                   Catalogue::installed());
        if (request.common.json)
            json["intervals"].push_back(report_json(answer, divisions, request.common.digits));
        else
            text += report_text(answer, divisions, request.common.digits);
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
    command->add_option("--against", request->against, "divisions to compare with, such as 12,53");
    add_common_options(*command, request->common);
    command->callback([request] { run(*request); });
}

} // namespace sectio::cli
