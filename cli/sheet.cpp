// sectio sheet SCALE: the printable comparison sheet.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/scale/comparison.hpp>
#include <sectio/sheet/sheet.hpp>

#include <filesystem>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::string scale;
    std::string against = "12,53";
    std::string paper = "a4";
    std::string pages = "ruler,table", drone;
    bool large = false;
    ComparisonOptions comparison;
};

/// The scale's own file, which must not be overwritten; empty where it is none.
std::filesystem::path input_file(const std::string& scale) {
    std::error_code ignored;
    return std::filesystem::is_regular_file(scale, ignored) ? scale : "";
}

void run(Request request, const CLI::App& command) {
    check_out(request.common);
    page::PrintOptions options;
    options.paper = parse_paper(request.paper, {"--paper"});
    options.large = request.large;
    request.comparison.divisions = parse_divisions(request.against);
    const Comparison comparison = compare(scale_argument(request.scale), request.comparison);
    SheetOptions sheet_options;
    sheet_options.date = today();
    sheet_options.pages = parse_sheet_pages(request.pages, {"--pages"});
    if (!request.drone.empty())
        sheet_options.drone = parse_pitch(request.drone, comparison.a4, {"--drone"});
    answer(sheet_page(comparison, sheet_options), request.common, command, options,
           input_file(request.scale));
}

} // namespace

void add_sheet(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command =
        app.add_subcommand("sheet", "a printable sheet: a scale against equal divisions");
    command->add_option("SCALE", request->scale, scale_help)->required();
    command->add_option("--tonic", request->comparison.tonic,
                        "pitch of the first degree, such as D4");
    command->add_option("--reference", request->comparison.reference,
                        "reference pitch, such as A4=442Hz");
    command->add_option("--against", request->against, "divisions to compare with, such as 12,53");
    command->add_option("--pages", request->pages, "which pages: " + sheet_page_names());
    command->add_option("--drone", request->drone,
                        "pitch that the degrees beat against on the page matrix; else the tonic");
    command->add_option("--paper", request->paper, "a4, letter or card (A4 lying, for the stand)");
    command->add_flag("--large", request->large, "type that is read at a metre");
    add_common_options(*command, request->common, page::known_endings());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
