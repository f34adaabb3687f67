// sectio interval EXPR…: all that is known of an interval.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/base/error.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/sheet/interval_page.hpp>

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

void run(const Request& request, const CLI::App& command) {
    check_out(request.common);
    refuse_stray_divisions(request);
    const ReportRequest asked = report_request(request);
    std::vector<IntervalReport> reports;
    for (std::size_t i = 0; i < request.expressions.size(); ++i)
        reports.push_back(report(request.expressions[i], fmt::format("argument {}", i + 1), asked,
                                 Catalogue::installed()));
    answer(interval_page(reports, asked), request.common, command);
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
    add_common_options(*command, request->common, page::known_endings());
    command->callback([request, against, command] {
        request->against_given = against->count() > 0;
        run(*request, *command);
    });
}

} // namespace sectio::cli
