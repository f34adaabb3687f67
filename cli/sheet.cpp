// sectio sheet SCALE: the printable comparison sheet.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/base/file.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/scale_file_text.hpp>
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
    std::string title;
    std::string clef = "auto", accidentals = "auto";
    bool large = false;
    ComparisonOptions comparison;
};

/// The scale's own file, which must not be overwritten; empty where it is none.
std::filesystem::path input_file(const std::string& scale) {
    std::error_code ignored;
    return std::filesystem::is_regular_file(scale, ignored) ? scale : "";
}

/// The scale itself as a scale file, on the tonic and with the reference that count.
void save_scale(const Request& request) {
    const TunedScale scale = tuned(scale_argument(request.scale), request.comparison);
    Scale kept = scale.scale();
    if (!request.title.empty())
        kept.name = request.title;
    if (request.comparison.tonic)
        kept.tonic = scale.tonic().written;
    if (request.comparison.reference)
        kept.reference = request.comparison.reference;
    write_whole(request.common.out, scale_file_text(kept), input_file(request.scale));
}

bool is_score(const std::filesystem::path& out) {
    return out.extension() == ".musicxml";
}

void write_score(const Request& request, const Comparison& comparison, const SheetOptions& options,
                 const CLI::App& command) {
    const bool asked = command.count("--digits") > 0;
    const page::Digits digits{asked ? request.common.digits : 1, request.common.digits, asked};
    write_whole(request.common.out,
                staff_musicxml(comparison.tuned, options.staff, digits, options.date),
                input_file(request.scale));
}

void run(Request request, const CLI::App& command) {
    if (ending(request.common.out) == ".toml")
        return save_scale(request);
    if (!is_score(request.common.out))
        check_out(request.common, ".musicxml, .toml, ");
    page::PrintOptions options;
    options.paper = parse_paper(request.paper, {"--paper"});
    options.large = request.large;
    request.comparison.divisions = parse_divisions(request.against);
    const Comparison comparison = compare(tuned(scale_argument(request.scale), request.comparison),
                                          request.comparison.divisions);
    SheetOptions sheet_options;
    sheet_options.date = today();
    sheet_options.pages = parse_sheet_pages(request.pages, {"--pages"});
    sheet_options.staff = {score::parse_clef(request.clef, {"--clef"}),
                           score::parse_sign_style(request.accidentals, {"--accidentals"})};
    if (!request.drone.empty())
        sheet_options.drone = parse_pitch(request.drone, comparison.a4(), {"--drone"});
    if (is_score(request.common.out)) {
        write_score(request, comparison, sheet_options, command);
        if (!request.common.json)
            return;
        request.common.out.clear();
    }
    page::Page page = sheet_page(comparison, sheet_options);
    if (!request.title.empty())
        page.title = request.title;
    answer(page, request.common, command, options, input_file(request.scale));
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
    command->add_option("--title", request->title,
                        "title of the page, instead of the scale's name");
    command->add_option("--against", request->against, "divisions to compare with, such as 12,53");
    command->add_option("--pages", request->pages, "which pages: " + sheet_page_names());
    command->add_option("--drone", request->drone,
                        "pitch that the degrees beat against on the page matrix; else the tonic");
    command->add_option("--clef", request->clef,
                        "of the page staff: treble, octave-treble, alto, bass or auto");
    command->add_option("--accidentals", request->accidentals,
                        "of the page staff: plain, quarter (tones), comma (53 to the octave) or "
                        "auto");
    command->add_option("--paper", request->paper, "a4, letter or card (A4 lying, for the stand)");
    command->add_flag("--large", request->large, "type that is read at a metre");
    add_common_options(*command, request->common,
                       ".musicxml, .toml (the scale as a scale file), " + page::known_endings());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
