// sectio identify SCALE: which scales of the catalogue account for a measured set.

#include "command.hpp"
#include "table.hpp"

#include <sectio/identify/cents.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/score/melody.hpp>

#include <fmt/format.h>

#include <fstream>
#include <iostream>
#include <ranges>

namespace sectio::cli {

namespace {

/// Digits that a figure of the statistics is printed with at most: a double holds no more.
constexpr int most_digits = 9;
/// Candidates in text for people; JSON has them all.
constexpr std::size_t most_rows = 20;

struct Request {
    CommonOptions common;
    std::string scale;
    std::string tonic;
    std::string spread;
    std::string uncertainty;
    std::size_t show = 5;
};

/// A figure of the statistics as a decimal, correctly rounded from the double that was computed.
std::string figure(double value, int digits) {
    const std::string text = fmt::format("{:.{}f}", value, std::min(digits, most_digits));
    return text.find_first_not_of("-0.") == std::string::npos && text.starts_with('-')
               ? text.substr(1)
               : text;
}

std::optional<double> cents_option(const std::string& text, const char* name) {
    if (text.empty())
        return std::nullopt;
    return cents_of(parse_interval(text, {name}));
}

/// A tonic as a pitch lies above the first pitch by their interval.
Interval tonic_at(const std::string& text, const Melody& melody) {
    const bool is_pitch =
        text.find_first_of("ABCDEFGabcdefgHh") == 0 || text.ends_with("Hz") || text.ends_with("hz");
    if (!is_pitch)
        return parse_interval(text, {"--tonic"}, Catalogue::installed().names());
    if (!melody.sounding_zero)
        throw error(message::tonic_without_pitch, text, {"--tonic"});
    return parse_pitch(text, Pitch::concert_a(), {"--tonic"}) - *melody.sounding_zero;
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
    if (text != "first")
        tonic.at = tonic_at(text, melody);
    return tonic;
}

Json candidate_json(const Candidate& c, int digits) {
    Json json = {{"id", c.scale->entry.id},
                 {"name", c.scale->entry.name},
                 {"start_degree", c.start_degree},
                 {"offset_cents", figure(c.offset_cents, digits)},
                 {"rms_cents", figure(c.rms_cents, digits)},
                 {"worst_cents", figure(c.worst_cents, digits)},
                 {"matched", c.matched},
                 {"of", c.of},
                 {"probability", figure(c.probability, digits)},
                 {"named", c.named}};
    if (!c.course.empty())
        json["course"] = c.course;
    return json;
}

Json pitch_json(const IdentifiedPitch& pitch, int digits) {
    Json readings = Json::array();
    for (const PitchReading& reading : pitch.readings)
        readings.push_back({{"expression", reading.expression},
                            {"error_cents", reading.error.cents(digits)},
                            {"likelihood", figure(reading.likelihood, digits)}});
    return {{"cents", pitch.interval.cents(digits)}, {"readings", readings}};
}

Json answer_json(const Identification& answer, int digits) {
    Json json = {{"verdict", text(answer.verdict)},
                 {"candidates", Json::array()},
                 {"none_probability", figure(answer.none_probability, digits)},
                 {"others_probability", figure(answer.others_probability, digits)},
                 {"by_course", answer.by_course},
                 {"distinguish", Json::array()},
                 {"pitches", Json::array()}};
    for (const Candidate& candidate : answer.candidates)
        json["candidates"].push_back(candidate_json(candidate, digits));
    for (const Distinction& d : answer.distinguish)
        json["distinguish"].push_back({{"ids", d.ids}, {"by", d.by}, {"text", d.text}});
    for (const IdentifiedPitch& pitch : answer.pitches)
        json["pitches"].push_back(pitch_json(pitch, digits));
    return json;
}

std::string percent(double probability) {
    return fmt::format("{:.1f} %", 100 * probability);
}

std::string headline(const Identification& answer) {
    switch (answer.verdict) {
    case Verdict::fits:
        return fmt::format("fits: {}\n", answer.candidates.front().scale->entry.name);
    case Verdict::ambiguous:
        return "ambiguous: several scales account for these pitches about equally\n";
    case Verdict::none:
        return "none: no scale of the catalogue accounts for these pitches\n";
    }
    return {};
}

std::string candidates_text(const Identification& answer, int digits) {
    std::vector<std::vector<std::string>> rows = {
        {"", "scale", "id", "first pitch is", "offset", "rms", "worst", "matched", "probability"}};
    for (const Candidate& c : answer.candidates | std::views::take(most_rows))
        rows.push_back({c.named ? "*" : "", c.scale->entry.name, c.scale->entry.id,
                        fmt::format("degree {}", c.start_degree), figure(c.offset_cents, digits),
                        figure(c.rms_cents, digits), figure(c.worst_cents, digits),
                        fmt::format("{} of {}", c.matched, c.of), percent(c.probability)});
    rows.push_back(
        {"", "none of the catalogue", "", "", "", "", "", "", percent(answer.none_probability)});
    if (answer.others_probability > 0)
        rows.push_back(
            {"", "all others", "", "", "", "", "", "", percent(answer.others_probability)});
    using enum Align;
    return aligned(rows, {left, left, left, left, right, right, right, right, right});
}

std::string pitches_text(const Identification& answer, int digits) {
    std::vector<std::vector<std::string>> rows = {{"cents", "may stand for (error, likelihood)"}};
    for (const IdentifiedPitch& pitch : answer.pitches) {
        std::vector<std::string> row = {pitch.interval.cents(digits)};
        for (const PitchReading& r : pitch.readings)
            row.push_back(fmt::format("{} ({}, {})", r.expression, r.error.cents(digits),
                                      percent(r.likelihood)));
        rows.push_back(std::move(row));
    }
    return aligned(rows, {Align::right});
}

std::string answer_text(const Identification& answer, int digits) {
    std::string text = headline(answer) + "\n" + candidates_text(answer, digits);
    for (const Candidate& c : answer.candidates)
        if (c.named && !c.course.empty()) {
            text += fmt::format("\nThe course and {}\n", c.scale->entry.name);
            for (const std::string& line : c.course)
                text += wrapped(line, "  ");
        }
    if (!answer.distinguish.empty()) {
        text += "\nWhat would tell them apart\n";
        for (const Distinction& d : answer.distinguish)
            text += wrapped(d.text, "  ");
    }
    return text + "\nThe pitches, in cents above the first\n" + pitches_text(answer, digits);
}

/// A file that is a compressed score, or XML, holds a score; all else is for load_melody().
bool is_score_file(const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::string head(4, '\0');
    file.read(head.data(), static_cast<std::streamsize>(head.size()));
    const std::string kind = ending(path);
    return file
           && (score::is_archive(head) || kind == ".musicxml" || kind == ".xml" || kind == ".mxl");
}

Melody melody_argument(const std::string& text) {
    if (is_score_file(text))
        return score::melody_of(score::read_score(score::read_document(text))).melody;
    return load_melody(text, Catalogue::installed(), std::cin);
}

void run(const Request& request) {
    const Melody melody = melody_argument(request.scale);
    IdentifyOptions options;
    options.tonic = known_tonic(request.tonic, melody);
    options.spread = cents_option(request.spread, "--spread");
    if (!request.uncertainty.empty())
        options.uncertainty = parse_interval(request.uncertainty, {"--uncertainty"});
    options.show = request.show;
    const Identification answer = identify(melody, ScaleLibrary::installed(), options);
    if (request.common.json)
        print_json(answer_json(answer, request.common.digits));
    else
        print(answer_text(answer, std::min(request.common.digits, 1)));
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
                        "first, free, or the tonic as an interval or a pitch; without it the first "
                        "pitch is the tonic with probability one half");
    command->add_option("--spread", request->spread,
                        "standard deviation of practice, such as 10c; without it 2.5 to 20 cents");
    command->add_option("--uncertainty", request->uncertainty,
                        "half width of every pitch that has none of its own, such as 3c");
    command->add_option("--show", request->show, "how many candidates to show")
        ->check(CLI::Range(1, 10'000));
    add_common_options(*command, request->common);
    command->callback([request] { run(*request); });
}

} // namespace sectio::cli
