// sectio sheet SCALE: the printable comparison sheet.

#include "against.hpp"
#include "answer.hpp"
#include "batch.hpp"
#include "command.hpp"
#include "sheet_set.hpp"

#include <sectio/base/file.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/instrument/fret_template.hpp>
#include <sectio/instrument/load_instrument.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/scale_file_text.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/source/source.hpp>

namespace sectio::cli {

namespace {

struct SheetRequest {
    CommonOptions common;
    std::vector<std::string> scales, among;
    bool all = false;
    std::string set_kind = "pdf";
    std::string against = "12,53";
    std::string paper = "a4";
    std::string pages = "ruler,table", drone;
    std::string title;
    std::string clef = "auto", accidentals = "auto";
    std::optional<unsigned> limit;
    bool large = false;
    ComparisonOptions comparison;
};

/// The scale on the tonic, with the reference and with the signs that were asked for, all of which
/// a file of it keeps.
Scale scale_asked(const SheetRequest& request, const source::Source& source) {
    Scale kept = kept_scale(source::scale_in(source), request.comparison);
    if (const auto signs = parse_sign_style(request.accidentals, {"--accidentals"}))
        kept.signs = signs;
    return kept;
}

/// As a scale file, under the title.
void save_scale(const SheetRequest& request, Scale scale) {
    if (!request.title.empty())
        scale.name = request.title;
    write_whole(request.common.out, scale_file_text(scale));
}

page::Page titled(page::Page page, const std::string& title) {
    if (!title.empty())
        page.title = title;
    return page;
}

bool is_score(const std::string& out) {
    return ending(out) == staff_score.ending;
}

void write_score(const SheetRequest& request, const Comparison& comparison,
                 const SheetOptions& options, const Command& command) {
    const bool asked = command.given("--digits");
    const page::Digits digits{asked ? request.common.digits : 1, request.common.digits, asked};
    write_whole(request.common.out,
                staff_musicxml(comparison.tuned, options.staff(), digits, options.date));
}

/// Where the degrees lie, if `source` is an instrument.
std::optional<page::Drawing> chart_of(const SheetRequest& request, const source::Source& source) {
    const auto* instrument = std::get_if<Instrument>(&source.content);
    if (!instrument)
        return std::nullopt;
    FretRequest plan;
    plan.instrument = *instrument;
    plan.tonic = request.comparison.tonic;
    plan.reference = request.comparison.reference;
    const FretSheet frets = fret_sheet(played_scale(*instrument, Catalogue::installed()), plan);
    return finger_chart(frets.plan, frets.up_to, request.large);
}

/// The trade's name of the first degree, of a scale of the catalogue; else the degree's own.
std::string tonic_name_of(const Scale& scale) {
    if (!scale.id.empty())
        if (const auto entry = Catalogue::installed().find(scale.id))
            return entry->tonic_name();
    return scale.degrees[scale.tonic_index()].name;
}

SheetOptions sheet_options_of(const SheetRequest& request, const source::Source& source,
                              const Comparison& comparison) {
    SheetOptions options;
    options.date = today();
    options.pages = parse_sheet_pages(request.pages, {"--pages"});
    options.clef = score::parse_clef(request.clef, {"--clef"});
    options.large = request.large;
    if (!request.drone.empty())
        options.drone = parse_pitch(request.drone, comparison.a4(), {"--drone"});
    options.prime_limit = request.limit;
    options.frequencies = request.comparison.reference || comparison.scale().reference;
    if (request.pages.find("instrument") != std::string::npos || request.pages == "all")
        options.chart = chart_of(request, source);
    if (request.pages == "all" && options.chart)
        options.pages.emplace_back("instrument");
    return options;
}

void add_systems(SheetOptions& options, const Comparison& comparison, const Against& against) {
    const std::string tonic_name = tonic_name_of(comparison.scale());
    for (const Scale& system : against.systems)
        options.systems.push_back(counted_from(system, tonic_name));
}

page::PrintOptions print_options_of(const SheetRequest& request, const Command& command) {
    page::PrintOptions options;
    options.paper = parse_paper(request.paper, {"--paper"});
    options.large = request.large;
    if (command.given("--digits"))
        options.digits = request.common.digits;
    return options;
}

/// `--all`: a sheet of each.
void run_set(SheetRequest request, const Command& command) {
    const Against against = parse_against(request.against);
    SheetSet set{request.scales,
                 request.among,
                 request.common.out,
                 request.set_kind,
                 print_options_of(request, command),
                 [&](const source::Source& source) {
                     const Comparison comparison =
                         compare(tuned(scale_asked(request, source)), against.divisions);
                     SheetOptions options = sheet_options_of(request, source, comparison);
                     add_systems(options, comparison, against);
                     return titled(sheet_page(comparison, options), request.title);
                 }};
    const WrittenSheets sheets = write_sheets(set);
    request.common.out.clear();
    answer(sheets.answer, request.common, command);
    std::vector<Error> failed;
    for (const FailedSheet& sheet : sheets.failed)
        failed.push_back(named(sheet.argument, sheet.error));
    end_with(failed, request.common.json);
}

/// What the first SCALE is laid against. Further ones are laid beside it, on a page of their own
/// unless others are asked for.
Against against_of(SheetRequest& request, const Command& command) {
    if (request.scales.size() < 2)
        return parse_against(request.against);
    Against against;
    if (command.given("--against"))
        against = parse_against(request.against);
    for (std::size_t i = 1; i < request.scales.size(); ++i)
        against.systems.push_back(to_scale(scale_argument(request.scales[i])));
    if (!command.given("--pages"))
        request.pages = "beside";
    return against;
}

void run(SheetRequest request, const Command& command) {
    if (request.all || !request.among.empty())
        return run_set(std::move(request), command);
    command.refuse_idle({"--as"}, "without --all: the ending of --out says the kind of one sheet");
    if (request.scales.empty())
        throw error(message::no_scale, "", {"SCALE"});
    check_out(request.common);
    const source::Source source = source::open(request.scales.front());
    const page::PrintOptions options = print_options_of(request, command);
    const Against against = against_of(request, command); // its files are inputs for .toml too
    if (ending(request.common.out) == scale_file.ending)
        return save_scale(request, scale_asked(request, source));
    const Comparison comparison = compare(tuned(scale_asked(request, source)), against.divisions);
    SheetOptions sheet_options = sheet_options_of(request, source, comparison);
    add_systems(sheet_options, comparison, against);
    if (is_score(request.common.out)) {
        write_score(request, comparison, sheet_options, command);
        if (!request.common.json)
            return;
        request.common.out.clear();
    }
    answer(titled(sheet_page(comparison, sheet_options), request.title), request.common, command,
           options);
}

void add_matrix_options(Command& command, SheetRequest& request) {
    command.add_option("--limit", request.limit,
                       "largest prime of the simple ratios on the page matrix, such as 5");
    command.add_option("--drone", request.drone,
                       "pitch that the degrees beat against on the page matrix; else the tonic");
}

} // namespace

void add_sheet(Command& app) {
    const auto request = std::make_shared<SheetRequest>();
    Command* command =
        app.add_subcommand("sheet", "a printable sheet: a scale against equal divisions");
    Option* scales = command->add_option("SCALE", request->scales, scale_help)->expected(0, 10'000);
    command->add_flag(
        "--all", request->all,
        "a sheet of every scale of the catalogue, or of each SCALE, and an index, into "
        "the folder of --out");
    command
        ->add_option("--among", request->among,
                     "with --all: only scales that these words describe, of a name, a tradition, a "
                     "family, a kind, such as turkish")
        ->expected(1, 100)
        ->excludes(scales);
    command->add_option("--as", request->set_kind, "with --all: pdf, svg, html, txt, csv or json");
    command->add_option("--tonic", request->comparison.tonic,
                        "pitch of the first degree, such as D4");
    command->add_option("--reference", request->comparison.reference,
                        "reference pitch, such as A4=442Hz");
    command->add_option("--title", request->title,
                        "title of the page, instead of the scale's name");
    command->add_option("--against", request->against,
                        "what to compare with: divisions, catalogue systems and scales, "
                        "scale files, such as 12,53,turkish-24,my-zither.toml");
    command->add_option("--pages", request->pages, "which pages: " + sheet_page_names());
    add_matrix_options(*command, *request);
    command->add_option("--clef", request->clef,
                        "of the page staff: treble, octave-treble, alto, bass or auto");
    command->add_option("--accidentals", request->accidentals,
                        "of the page staff: plain, quarter (tones), comma (53 to the octave), "
                        "persian or auto");
    command->add_option("--paper", request->paper,
                        "a4, letter or card (A4 landscape, for the stand)");
    command->add_flag("--large", request->large, "type that is read at a metre");
    add_common_options(*command, request->common, page_kinds({staff_score, scale_file}));
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
