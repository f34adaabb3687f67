// sectio identify SCALE: which scales of the catalogue account for a measured set.

#include "answer.hpp"
#include "batch.hpp"
#include "parallel.hpp"
#include "together.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/sound_endings.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/collection_page.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/identify_page.hpp>
#include <sectio/identify/messages.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/scale_file_text.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/score/melody.hpp>
#include <sectio/source/source.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <sstream>
#include <utility>

namespace sectio::cli {

namespace {

struct IdentifyRequest {
    CommonOptions common;
    std::string scale;
    std::string tonic;
    std::vector<std::string> among;
    std::string spread;
    std::string uncertainty;
    std::size_t show = 5;
    BatchOptions batch;
    std::string labels;
};

/// Of the files in a folder those that have one of these endings are named.
std::vector<std::string> file_kinds() {
    std::vector<std::string> kinds{".csv",  ".tsv",      ".txt", ".toml",
                                   ".json", ".musicxml", ".xml", ".mxl"};
    kinds.insert(kinds.end(), sound_endings.begin(), sound_endings.end());
    return kinds;
}

std::optional<double> cents_option(const std::string& text, const char* name) {
    if (text.empty())
        return std::nullopt;
    return cents_of(parse_interval(text, {name}));
}

/// A note has few letters: `Cis` is refused as one, `comma` names an interval.
bool is_pitch(const std::string& text, const NameLookup& names) {
    constexpr std::size_t most_letters = 3;
    const auto letter = [](char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'h'; };
    const auto is_letter = [](char c) { return (c | 0x20) >= 'a' && (c | 0x20) <= 'z'; };
    const auto after = std::ranges::find_if_not(text, is_letter);
    return text.ends_with("Hz") || text.ends_with("hz")
           || (letter(text[0]) && !names(text)
               && static_cast<std::size_t>(after - text.begin()) <= most_letters);
}

/// A tonic as a pitch lies above the first pitch by their interval; as an interval it is counted
/// from there.
Interval tonic_at(const std::string& text, const Melody& melody) {
    const NameLookup names = Catalogue::installed().names();
    if (!is_pitch(text, names))
        return parse_interval(text, {"--tonic"}, names);
    if (!melody.sounding_zero)
        throw error(message::tonic_without_pitch, text, {"--tonic"});
    return parse_tonic(text, {"--tonic"}).at(melody.a4) - *melody.sounding_zero
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
    if (std::holds_alternative<source::Recording>(source.content))
        return measure::melody_of(measure::hear({measure::listen(source.file)}));
    const auto say = [&](const std::vector<std::string>& said) {
        for (const std::string& remark : said)
            remarks.paragraphs.push_back({page::Role::remark, remark});
    };
    if (const auto* document = std::get_if<score::Document>(&source.content)) {
        score::ScoreMelody line = score::melody_of(score::read_score(*document));
        say(line.remarks);
        return std::move(line.melody);
    }
    const PitchList list = each_degree_once(to_list(source::scale_in(source)));
    say(list.remarks);
    return to_melody(list);
}

IdentifyOptions options_of(const IdentifyRequest& request, const Melody& melody) {
    IdentifyOptions options;
    options.tonic = known_tonic(request.tonic, melody);
    options.spread = cents_option(request.spread, "--spread");
    if (!request.uncertainty.empty())
        options.uncertainty = parse_uncertainty(request.uncertainty, {"--uncertainty"});
    options.show = request.show;
    return options;
}

/// An answer, and what a reader should know of the input.
struct Answered {
    Identification answer;
    page::Paragraphs remarks{.key = "remarks"};

    page::Page page() const {
        page::Page page = identify_page(answer);
        page.blocks.push_back(remarks);
        return page;
    }
};

Answered identified(const std::string& argument, const IdentifyRequest& request,
                    const ScaleLibrary& library, bool names_alone = false) {
    Answered answered;
    const Melody melody = melody_argument(argument, answered.remarks);
    IdentifyOptions options = options_of(request, melody);
    options.names_alone = names_alone;
    answered.answer = identify(melody, library, options);
    return answered;
}

void run_together(const std::vector<std::string>& files, const IdentifyRequest& request,
                  const ScaleLibrary& library, const Command& command) {
    const bool names_alone = !request.batch.json_lines;
    std::optional<Labels> labels;
    if (!request.labels.empty())
        labels.emplace(read_text(request.labels, limits::table_bytes), request.labels);
    page::PrintOptions line;
    line.one_line = true;
    if (command.given("--digits"))
        line.digits = request.common.digits;
    std::vector<NamedFile> named(files.size());
    std::vector<std::string> lines(files.size());
    const auto work = [&](std::size_t i) {
        const Answered answered = identified(files[i], request, library, names_alone);
        named[i] = named_file(files[i], answered.answer);
        if (const auto label = labels ? labels->of(files[i]) : std::nullopt)
            judge(named[i], *label);
        if (request.batch.json_lines)
            lines[i] = json_line(files[i], answered.page(), line);
    };
    const auto tell = [&](std::size_t i) { print(std::exchange(lines[i], {})); };
    const auto failed = in_parallel(files.size(), request.batch.threads, work, tell);
    for (const auto& [i, failure] : failed) {
        named[i].file = files[i];
        named[i].failure = cli::named(files[i], failure).what();
    }
    if (!request.batch.json_lines || !request.common.out.empty())
        answer(collection_page(named, labels ? labels->remarks(files, ScaleLibrary::installed())
                                             : std::vector<std::string>()),
               request.common, command);
    tell_failures(files, failed, request.common.json);
}

void run(const IdentifyRequest& request, const Command& command) {
    check_out(request.common);
    if (request.scale.empty() && request.batch.files_from.empty())
        command.lacks("SCALE");
    const ScaleLibrary& all = ScaleLibrary::installed();
    const auto chosen =
        request.among.empty() ? std::nullopt : std::optional(all.among(request.among));
    const ScaleLibrary& library = chosen ? *chosen : all;
    if (const auto files = files_together(request.scale, request.batch, file_kinds()))
        return run_together(*files, request, library, command);
    if (!request.labels.empty())
        throw error(message::labels_of_one, request.scale, {"--labels"});
    answer(identified(request.scale, request, library).page(), request.common, command);
}

} // namespace

void add_identify(Command& app) {
    const auto request = std::make_shared<IdentifyRequest>();
    Command* command = app.add_subcommand(
        "identify", "which scales of the catalogue account for measured pitches or a melody");
    command->add_option(
        "SCALE", request->scale,
        "pitches such as 440Hz, 470.3Hz±0.5Hz or 203c, 386±3c; a scale file, a table "
        "(.csv), a score (MusicXML), a recording, a folder of such files, a catalogue id, or - "
        "for standard input");
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
    command->add_option("--show", request->show, "how many candidates to show")->between(1, 10'000);
    add_batch_options(*command, request->batch, "SCALE");
    command->add_option(
        "--labels", request->labels,
        "a table of files and their true names: which answers differ, and how often "
        "those given are right");
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
