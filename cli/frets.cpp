// sectio frets SCALE: where frets lie, and the template to print.

#include "answer.hpp"

#include <sectio/base/comma_list.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/instrument/load_instrument.hpp>
#include <sectio/source/source.hpp>

#include <iostream>

namespace sectio::cli {

namespace {

struct FretsRequest {
    CommonOptions common;
    std::string scale, length, instrument, string, compensation, up_to, nut_spread, bridge_spread;
    std::optional<std::size_t> frets, perpendicular;
    std::string share = "0c", paper = "a4";
    TuningOptions tuning;
    std::vector<std::string> strings;
};

std::optional<Length> length_option(const std::string& text, const char* option) {
    if (text.empty())
        return std::nullopt;
    return parse_length(text, {option, 0, 1});
}

/// "686mm,648mm" of the first string and of the last; the comma in "612,5mm" is none between two.
void set_lengths(FretRequest& plan, const std::string& text) {
    const std::size_t comma = text.find(',');
    const bool two = comma != std::string::npos && comma > 0
                     && std::string_view("0123456789").find(text[comma - 1]) == std::string::npos;
    plan.length = length_option(text.substr(0, two ? comma : std::string::npos), "--length");
    if (two)
        plan.last_length = parse_length(text.substr(comma + 1), {"--length", 0, comma + 2});
}

Instrument instrument_option(const std::string& path) {
    if (path == "-")
        return read_instrument_file(read_text(std::cin, "standard input", limits::scale_file_bytes),
                                    "standard input");
    if (auto instrument = load_instrument(path))
        return *instrument;
    return read_instrument_file(read_text(path, limits::scale_file_bytes), path);
}

/// Leaves the plan the string that was named alone, for which frets are asked then.
void plan_one(FretRequest& plan, const InstrumentString& planned) {
    InstrumentString alone = planned;
    alone.fretted = true;
    plan.instrument->strings = {std::move(alone)};
}

/// SCALE as an instrument file: the scale that its frets are said to make is planned for all
/// strings, frets that were measured for the one that they were measured under.
Scale scale_on(const FretsRequest& request, const source::Source& source, FretRequest& plan,
               const Command& command) {
    const auto* instrument = std::get_if<Instrument>(&source.content);
    if (!instrument && !plan.instrument)
        command.refuse_idle({"--string"}, "without an instrument file, whose string it names");
    if (!instrument && !request.string.empty())
        plan_one(plan, plan.instrument->string(request.string));
    if (!instrument) {
        plan.tonic.reset(); // which the scale has now
        return kept_scale(source::scale_in(source), request.tuning);
    }
    Scale scale = played_scale(*instrument, Catalogue::installed(), request.string);
    if (plan.instrument)
        return scale;
    plan.instrument = *instrument;
    if (request.string.empty() && instrument->fret_scale)
        return scale;
    const InstrumentString& planned = instrument->string(request.string);
    if (instrument->strings.size() > 1 && request.string.empty())
        scale.remarks.push_back("Of the instrument's strings only this one is planned: "
                                + planned.name + ". --string plans another.");
    plan_one(plan, planned);
    return scale;
}

FretRequest plan_of(const FretsRequest& request) {
    FretRequest plan;
    plan.tonic = request.tuning.tonic;
    plan.reference = request.tuning.reference;
    for (const std::string& open : request.strings)
        for (const ListItem& item : comma_list(open, "--strings"))
            plan.opens.push_back(parse_tonic(item.text, item.place));
    set_lengths(plan, request.length);
    plan.nut_spread = length_option(request.nut_spread, "--nut-spread");
    plan.bridge_spread = length_option(request.bridge_spread, "--bridge-spread");
    plan.perpendicular = request.perpendicular.value_or(0);
    plan.compensation = length_option(request.compensation, "--compensation");
    const NameLookup names = Catalogue::installed().names();
    if (!request.up_to.empty())
        plan.up_to = parse_size(request.up_to, {"--up-to", 0, 1}, names);
    plan.frets = request.frets;
    plan.share = parse_size(request.share, {"--share", 0, 1}, names);
    if (!request.instrument.empty())
        plan.instrument = instrument_option(request.instrument);
    plan.date = today();
    plan.inches = request.length.find_first_of("in\"") != std::string::npos
                  || request.length.find("″") != std::string::npos;
    return plan;
}

void run(const FretsRequest& request, const Command& command) {
    check_out(request.common);
    FretRequest plan = plan_of(request);
    if (!plan.last_length && !plan.nut_spread && !plan.bridge_spread)
        command.refuse_idle({"--perpendicular"},
                            "without two lengths or spreads, which make frets slant");
    const source::Source source = source::open(request.scale);
    const Scale scale = scale_on(request, source, plan, command);
    page::PrintOptions print_options;
    print_options.paper = parse_paper(request.paper, {"--paper"});
    answer(fret_page(fret_sheet(scale, plan)), request.common, command, print_options);
}

} // namespace

void add_frets(Command& app) {
    const auto request = std::make_shared<FretsRequest>();
    Command* command =
        app.add_subcommand("frets", "where the frets of a scale lie, and a 1:1 template");
    command->add_option("SCALE", request->scale, scale_help)->required();
    command->add_option("--length", request->length,
                        "of the strings, nut to bridge: 620mm, 24.5in; 686mm,648mm of the first "
                        "and of the last, for frets that slant");
    command->add_option("--nut-spread", request->nut_spread,
                        "distance between the middles of the outer strings at the nut, such as "
                        "36mm");
    command->add_option("--bridge-spread", request->bridge_spread,
                        "the same at the bridge, such as 52mm");
    command->add_option("--perpendicular", request->perpendicular,
                        "number of the fret that is square to the neck's centre line; else 0, the "
                        "nut");
    command->add_option("--strings", request->strings, "open strings such as D4,A3; else one");
    command->add_option("--instrument", request->instrument, "an instrument file with the strings");
    command->add_option("--string", request->string,
                        "which string of the instrument file, by its name");
    command->add_option("--tonic", request->tuning.tonic, "pitch of the first degree, such as D4");
    command->add_option("--reference", request->tuning.reference,
                        "reference pitch, such as A4=442Hz");
    command->add_option("--up-to", request->up_to,
                        "highest interval above the open strings, such as 3/1; else one period");
    command->add_option("--frets", request->frets, "how many frets from the nut, such as 24")
        ->from_one_up();
    command->add_option("--share", request->share,
                        "error that a fret shared by several strings may have, such as 5c");
    command->add_option("--compensation", request->compensation,
                        "how much farther the saddle stands, such as 1.5mm");
    command->add_option("--paper", request->paper, "a4 or letter");
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
