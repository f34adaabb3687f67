// sectio sheet SCALE: the printable comparison sheet.

#include "command.hpp"

#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/sheet/drawing.hpp>
#include <sectio/sheet/print.hpp>

#include <fmt/format.h>

#include <filesystem>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::string scale;
    std::string against = "12,53";
    std::string paper = "a4";
    ComparisonOptions comparison;
};

Json degree_json(const Comparison& comparison, const ComparedDegree& degree, std::size_t index,
                 int digits) {
    Json against = Json::array();
    for (std::size_t i = 0; i < comparison.divisions.size(); ++i) {
        Json step = step_json(comparison.divisions[i], degree.against[i], digits);
        step["note"] = degree.note.text();
        step["deviation_cents"] = degree.deviation.cents(digits);
        against.push_back(std::move(step));
    }
    Json json = {{"index", index},
                 {"name", degree.degree.name},
                 {"interval", to_expression(degree.degree.interval)},
                 {"written", degree.degree.written},
                 {"cents", degree.degree.interval.cents(digits)},
                 {"next_cents", degree.next ? Json(degree.next->cents(digits)) : Json()},
                 {"hz", degree.pitch.hertz(digits)},
                 {"note", degree.note.text()},
                 {"deviation_cents", degree.deviation.cents(digits)},
                 {"against", against}};
    if (degree.degree.uncertainty)
        json["uncertainty_cents"] = degree.degree.uncertainty->cents(digits);
    return json;
}

Json summary_json(const DivisionSummary& summary, int digits) {
    return {{"division", division_json(summary.division)},
            {"max_error_cents", summary.max_error.cents(digits)},
            {"rms_error_cents", summary.rms_cents(digits)},
            {"worst", summary.worst}};
}

Json comparison_json(const Comparison& comparison, int digits) {
    Json json = {{"name", comparison.scale.name},
                 {"source", comparison.scale.source},
                 {"tonic", comparison.tonic_written},
                 {"tonic_hz", comparison.tonic.hertz(digits)},
                 {"reference_hz", comparison.a4.hertz(digits)},
                 {"degrees", Json::array()},
                 {"period", Json()},
                 {"summary", Json::array()}};
    for (std::size_t i = 0; i < comparison.degrees.size(); ++i)
        json["degrees"].push_back(degree_json(comparison, comparison.degrees[i], i, digits));
    if (comparison.closing)
        json["period"] =
            degree_json(comparison, *comparison.closing, comparison.degrees.size(), digits);
    for (const DivisionSummary& summary : comparison.summaries)
        json["summary"].push_back(summary_json(summary, digits));
    return json;
}

/// The sheet in the format that the file's ending names.
std::string printed(const Sheet& sheet, const Request& request) {
    const Paper paper = parse_paper(request.paper, {"--paper"});
    const std::string kind = ending(request.common.out);
    if (kind == ".pdf")
        return print_pdf(sheet, paper);
    if (kind == ".svg")
        return print_svg(sheet, paper);
    if (kind == ".html")
        return print_html(sheet);
    if (kind == ".txt")
        return print_text(sheet);
    if (kind == ".csv")
        return print_csv(sheet);
    throw error(message::unknown_output_kind, request.common.out, {"--out"},
                ".pdf, .svg, .html, .txt, .csv or .json");
}

/// The scale's own file, which must not be overwritten; empty where it is none.
std::filesystem::path input_file(const std::string& scale) {
    std::error_code ignored;
    return std::filesystem::is_regular_file(scale, ignored) ? scale : "";
}

/// True where the answer ends in a drawing, for which fonts are read.
bool is_drawn(const std::string& kind) {
    return kind == ".pdf" || kind == ".svg" || kind == ".html";
}

void run(Request request, bool digits_given) {
    const std::string kind = ending(request.common.out);
    if (is_drawn(kind))
        begin_reading_fonts();
    request.comparison.divisions = parse_divisions(request.against);
    const Comparison comparison = compare(scale_argument(request.scale), request.comparison);
    const auto json = [&] {
        return comparison_json(comparison, request.common.digits).dump(2) + "\n";
    };
    if (request.common.json)
        print(json());
    if (kind == ".json")
        return write_whole(request.common.out, json(), input_file(request.scale));
    if (request.common.json && request.common.out.empty())
        return;
    SheetOptions options;
    options.date = today();
    options.digits = digits_given     ? request.common.digits
                     : kind == ".csv" ? data_digits
                                      : paper_digits;
    const Sheet sheet = make_sheet(comparison, options);
    if (request.common.out.empty())
        return print(print_text(sheet));
    write_whole(request.common.out, printed(sheet, request), input_file(request.scale));
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
    command->add_option("--paper", request->paper, "a4 or letter");
    add_common_options(*command, request->common, ".pdf, .svg, .html, .txt, .csv or .json");
    command->callback([request, command] { run(*request, command->count("--digits") > 0); });
}

} // namespace sectio::cli
