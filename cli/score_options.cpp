#include "score_options.hpp"

#include <sectio/base/error.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/score/messages.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio::cli {

namespace {

using namespace sectio::score;

/// A catalogue id or name, or the number of equal steps, as `option` names it.
std::unique_ptr<NoteTuning> system_tuning(const std::string& text, const char* option,
                                          const StatedPitch& tonic, const Pitch& a4) {
    if (!text.empty() && text.find_first_not_of("0123456789") == std::string::npos)
        return tuning_by_division(parse_division(text, {option}), tonic, a4);
    const Catalogue& catalogue = Catalogue::installed();
    const auto is_system = [](const Entry& e) { return e.kind() == EntryKind::system; };
    auto entry = entry_called(catalogue, text, is_system);
    if (!entry)
        entry = entry_called(catalogue, text, [](const Entry&) { return true; });
    if (!entry)
        throw error(message::unknown_system, text, {option},
                    suggestion(catalogue, text, is_system));
    return tuning_by_system(*entry, tonic, a4);
}

std::optional<Interval> widest(const Scale& scale) {
    std::optional<Interval> width;
    for (const Degree& degree : scale.degrees)
        if (degree.uncertainty && (!width || *degree.uncertainty > *width))
            width = degree.uncertainty;
    return width;
}

} // namespace

void add_words(Command& command, const std::string& name, std::string& value,
               const std::vector<std::string>& words, const std::string& help) {
    command.add_option(name, value, help)->one_of(words);
}

void add_tuning_choice(Command& command, ScoreOptions& options) {
    command.add_option("--scale", options.scale, scale_help);
    command.add_option("--system", options.system,
                       "a tuning system of the catalogue, or a number of equal steps");
    command.add_option("--rest", options.rest,
                       "a system, as for --system, for the notes that the scale lacks");
    command.add_option(
        "--tonic", options.tuning.tonic,
        "pitch of the scale's first degree, or the note of the system that does not deviate");
    command.add_option("--reference", options.tuning.reference,
                       "reference pitch, such as A4=442Hz");
}

void add_reading_choice(Command& command, ScoreOptions& options) {
    add_words(command, "--reading", options.reading, {"auto", "alter", "sign"},
              "whether alter or the printed sign is the truth");
    add_words(command, "--signs", options.signs, {"auto", "general", "turkish"},
              "what signs mean: quarter tones, or commas");
    add_words(command, "--signature", options.signature, {"written", "practised"},
              "a sign's value: of the sign, or of the key signature's own commas");
}

void add_score_options(Command& command, ScoreOptions& options, const std::string& kinds) {
    command.add_option("SCORE", options.score, kinds + ", or - for standard input");
    add_tuning_choice(command, options);
    add_reading_choice(command, options);
}

ChosenTuning tuning_of(const ScoreOptions& options) {
    if (options.scale.empty() == options.system.empty())
        throw error(options.scale.empty() ? message::no_tuning_given : message::two_tunings,
                    options.system, {});
    if (options.scale.empty() && !options.rest.empty())
        throw error(message::rest_without_scale, options.rest, {"--rest"});
    if (options.scale.empty()) {
        const Pitch a4 = reference_of(options.tuning.reference);
        return {system_tuning(options.system, "--system", options.tuning.tonic.value_or("C4"), a4),
                a4, std::nullopt};
    }
    const TunedScale scale = tuned(scale_argument(options.scale), options.tuning);
    auto tuning = tuning_by_scale(scale);
    if (!options.rest.empty())
        tuning =
            tuning_with_rest(std::move(tuning), system_tuning(options.rest, "--rest",
                                                              scale.tonic().stated, scale.a4()));
    return {std::move(tuning), scale.a4(), widest(scale.scale())};
}

ReadingChoice reading_of(const ScoreOptions& options) {
    ReadingChoice choice;
    if (options.reading != "auto")
        choice.source = options.reading == "sign" ? Source::sign : Source::alter;
    if (options.signs != "auto")
        choice.table = options.signs == "turkish" ? SignTable::turkish : SignTable::general;
    choice.signature = options.signature == "practised" ? Signature::practised : Signature::written;
    return choice;
}

} // namespace sectio::cli
