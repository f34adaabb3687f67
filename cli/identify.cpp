// sectio identify SCALE: which scales of the catalogue account for a measured set.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/identify/cents.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/identify_page.hpp>
#include <sectio/identify/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/score/melody.hpp>
#include <sectio/source/source.hpp>

#include <fmt/format.h>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::string scale;
    std::string tonic;
    std::vector<std::string> among;
    std::string spread;
    std::string uncertainty;
    std::size_t show = 5;
};

std::optional<double> cents_option(const std::string& text, const char* name) {
    if (text.empty())
        return std::nullopt;
    return cents_of(parse_interval(text, {name}));
}

/// A tonic as a pitch lies above the first pitch by their interval; as an interval it is counted
/// from there.
Interval tonic_at(const std::string& text, const Melody& melody) {
    const bool is_pitch =
        text.find_first_of("ABCDEFGabcdefgHh") == 0 || text.ends_with("Hz") || text.ends_with("hz");
    if (!is_pitch)
        return parse_interval(text, {"--tonic"}, Catalogue::installed().names());
    if (!melody.sounding_zero)
        throw error(message::tonic_without_pitch, text, {"--tonic"});
    return parse_tonic(text, melody.a4, {"--tonic"}).pitch - *melody.sounding_zero
           - reference_of(melody);
}

KnownTonic known_tonic(const std::string& text, const Melody& melody) {
    KnownTonic tonic;
    if (text.empty())
        return tonic;
    if (text == "free") {
        tonic.kind = KnownTonic::Kind::free;
        return tonic;
    }
    tonic.kind = KnownTonic::Kind::known;
    if (text == "zero")
        tonic.at = -reference_of(melody);
    else if (text != "first")
        tonic.at = tonic_at(text, melody);
    return tonic;
}

/// With what a reader should know of it, such as columns that were not read.
Melody melody_argument(const std::string& text, page::Paragraphs& remarks) {
    const source::Source source = source::open(text);
    if (const auto* document = std::get_if<score::Document>(&source.content))
        return score::melody_of(score::read_score(*document)).melody;
    const PitchList list = to_list(source::scale_in(source));
    for (const std::string& remark : list.remarks)
        remarks.paragraphs.push_back({page::Role::remark, remark});
    return to_melody(list);
}

void run(const Request& request, const CLI::App& command) {
    check_out(request.common);
    page::Paragraphs remarks{.key = "remarks"};
    const Melody melody = melody_argument(request.scale, remarks);
    IdentifyOptions options;
    options.tonic = known_tonic(request.tonic, melody);
    options.spread = cents_option(request.spread, "--spread");
    if (!request.uncertainty.empty())
        options.uncertainty = parse_uncertainty(request.uncertainty, {"--uncertainty"});
    options.show = request.show;
    const ScaleLibrary& all = ScaleLibrary::installed();
    const ScaleLibrary library = request.among.empty() ? all : all.among(request.among);
    page::Page page = identify_page(identify(melody, library, options));
    page.blocks.push_back(std::move(remarks));
    answer(page, request.common, command);
}

} // namespace

void add_identify(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command = app.add_subcommand(
        "identify", "which scales of the catalogue account for measured pitches or a melody");
    command
        ->add_option("SCALE", request->scale,
                     "pitches such as 440Hz, 470.3Hz±0.5Hz or 203c, 386±3c; a scale file, a table "
                     "(.csv), a score (MusicXML), a catalogue id, or - for standard input")
        ->required();
    command->add_option("--tonic", request->tonic,
                        "first, zero (what the input's intervals are counted from), free, or the "
                        "tonic as an interval or a pitch; without it the first pitch is the tonic "
                        "with probability one half");
    command->add_option("--among", request->among,
                        "only scales that these words describe: of a name, a tradition, a family, "
                        "a kind, such as turkish");
    command->add_option("--spread", request->spread,
                        "standard deviation of practice, such as 10c; without it 2.5 to 20 cents");
    command->add_option("--uncertainty", request->uncertainty,
                        "half width of every pitch that has none of its own, such as 3c");
    command->add_option("--show", request->show, "how many candidates to show")
        ->check(CLI::Range(1, 10'000));
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
