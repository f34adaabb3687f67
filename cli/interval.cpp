// sectio interval EXPR…: all that is known of an interval.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/base/error.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/sheet/interval_page.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace sectio::cli {

namespace {

struct IntervalRequest {
    CommonOptions common;
    std::vector<std::string> expressions;
    std::string against = "12,53";
    bool against_given = false;
    std::size_t quotients = 0;
    std::string measure = "2/1";
};

/// `--against 12 31 53` makes intervals of 31 and 53, though divisions are meant.
void refuse_stray_divisions(const IntervalRequest& request) {
    if (!request.against_given)
        return;
    for (const std::string& text : request.expressions)
        if (text.find_first_not_of("0123456789") == std::string::npos)
            throw error(message::stray_division, text, {}, request.against, text);
}

ReportRequest report_request(const IntervalRequest& request) {
    ReportRequest asked;
    asked.divisions = parse_divisions(request.against);
    asked.quotients = request.quotients;
    asked.measure =
        parse_interval(request.measure, {"--measure", 0, 1}, Catalogue::installed().names());
    // All expressions together cost what one would.
    asked.factor_budget = search_budget / request.expressions.size();
    return asked;
}

bool is_interval(const std::string& text) {
    try {
        parse_interval(text, {}, Catalogue::installed().names());
        return true;
    } catch (const Error&) {
        return false;
    }
}

/// `interval 11th harmonic`: the shortest run of arguments around number `at`, which is no interval
/// by itself, that is one when joined.
std::optional<std::vector<std::string>> joined_words(const std::vector<std::string>& arguments,
                                                     std::size_t at) {
    constexpr std::size_t most = 12; // words of a name or an expression
    for (std::size_t count = 2; count <= std::min(most, arguments.size()); ++count)
        for (std::size_t first = at < count ? 0 : at - count + 1;
             first <= at && first + count <= arguments.size(); ++first) {
            const auto begin = arguments.begin() + static_cast<std::ptrdiff_t>(first);
            const std::vector<std::string> words(begin, begin + static_cast<std::ptrdiff_t>(count));
            if (is_interval(fmt::format("{}", fmt::join(words, " "))))
                return words;
        }
    return std::nullopt;
}

/// The report of argument number `i`; one that is part of a name learns that the name wants quotes.
IntervalReport report_of(const IntervalRequest& request, const ReportRequest& asked,
                         std::size_t i) {
    const std::string place = fmt::format("argument {}", i + 1);
    try {
        return report(request.expressions[i], place, asked, Catalogue::installed());
    } catch (const Error&) {
        const auto words = joined_words(request.expressions, i);
        if (!words)
            throw;
        const std::string joined = fmt::format("{}", fmt::join(*words, " "));
        throw error(message::words_want_quotes, joined, {place}, words->size());
    }
}

void run(const IntervalRequest& request, const Command& command) {
    check_out(request.common);
    if (!request.quotients)
        command.refuse_idle({"--measure"}, "without --quotients, whose measure it is");
    refuse_stray_divisions(request);
    const ReportRequest asked = report_request(request);
    std::vector<IntervalReport> reports;
    for (std::size_t i = 0; i < request.expressions.size(); ++i)
        reports.push_back(report_of(request, asked, i));
    answer(interval_page(reports, asked), request.common, command);
}

} // namespace

void add_interval(Command& app) {
    const auto request = std::make_shared<IntervalRequest>();
    Command* command = app.add_subcommand("interval", "all that is known of an interval");
    command
        ->add_option("EXPR", request->expressions,
                     "intervals, such as 3/2, 31of53, 701.955c, '12 x 3/2 - 7 x 2/1'")
        ->required();
    command->add_option("--against", request->against, "divisions to compare with, such as 12,53");
    command->add_option("--quotients", request->quotients,
                        "show so many quotients of the continued fraction of the size");
    command->add_option("--measure", request->measure,
                        "what --quotients measures the size in (2/1)");
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] {
        request->against_given = command->given("--against");
        run(*request, *command);
    });
}

} // namespace sectio::cli
