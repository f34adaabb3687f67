// sectio compare A B…: how far scales and systems lie from each other.

#include "against.hpp"
#include "answer.hpp"
#include "command.hpp"

#include <sectio/sheet/compare_page.hpp>
#include <sectio/sheet/messages.hpp>

namespace sectio::cli {

namespace {

struct CompareRequest {
    CommonOptions common;
    std::vector<std::string> scales;
    std::string against; ///< further ones, as `sheet` takes them
    TuningOptions tuning;
};

/// Those of `--against` after the others.
std::vector<Scale> all_scales(const CompareRequest& request) {
    std::vector<Scale> scales;
    for (const std::string& text : request.scales)
        scales.push_back(scales.empty() ? kept_scale(scale_argument(text), request.tuning)
                                        : to_scale(scale_argument(text)));
    if (!request.against.empty())
        for (const ListItem& item : comma_list(request.against, "--against"))
            scales.push_back(scale_against(item));
    if (scales.size() < 2)
        throw error(message::nothing_to_compare_with, request.scales.front(), {"SCALE"});
    return scales;
}

void run(const CompareRequest& request, const Command& command) {
    check_out(request.common);
    const std::vector<Scale> scales = all_scales(request);
    TuningOptions shown = request.tuning;
    if (shown.tonic)
        shown.tonic = scales.front().tonic;
    answer(compare_page(scales, shown), request.common, command);
}

} // namespace

void add_compare(Command& app) {
    const auto request = std::make_shared<CompareRequest>();
    Command* command =
        app.add_subcommand("compare", "how far scales and systems lie from each other");
    command->add_option("SCALE", request->scales, scale_help)->required()->expected(1, 40);
    command->add_option("--against", request->against,
                        "further scales, joined by commas, such as 12,53,zarlino");
    command->add_option("--tonic", request->tuning.tonic,
                        "pitch of the first scale's tonic, such as D4, for keys and deviations");
    command->add_option("--reference", request->tuning.reference,
                        "reference pitch, such as A4=442Hz");
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
