// sectio annotate SCORE: the score with each note's deviation from 12 equal steps.

#include "command.hpp"

#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/page/figures.hpp>
#include <sectio/page/print.hpp>
#include <sectio/score/annotation.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/sheet/key_sheet.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>

namespace sectio::cli {

namespace {

using namespace sectio::score;

struct Request {
    CommonOptions common;
    std::string score, scale, system, summary, paper = "a4";
    std::optional<std::string> tonic, reference;
    std::string as = "words", placement, pitch = "sounding", reading = "auto", signs = "auto",
                signature = "written";
    AnnotationOptions options;
};

/// A catalogue id, or the number of equal steps.
std::unique_ptr<NoteTuning> system_tuning(const std::string& text, const std::string& tonic,
                                          const Pitch& a4) {
    if (!text.empty() && text.find_first_not_of("0123456789") == std::string::npos)
        return tuning_by_division(parse_division(text, {"--system"}), tonic, a4);
    const auto entry = Catalogue::installed().find(text);
    if (!entry) {
        const auto near = Catalogue::installed().similar(text);
        throw error(message::unknown_system, text, {"--system"},
                    near.empty() ? "" : fmt::format(" (near it: {})", fmt::join(near, ", ")));
    }
    return tuning_by_system(*entry, tonic, a4);
}

/// A tuning, and how many digits after the point its figures bear for a reader.
struct ChosenTuning {
    std::unique_ptr<NoteTuning> tuning;
    int borne_digits = default_digits;
};

/// The digits that the least certain degree bears; the default where nothing was measured.
int borne_digits_of(const Scale& scale) {
    int digits = default_digits;
    for (const Degree& degree : scale.degrees)
        digits = std::min(digits, borne_digits(degree.uncertainty, digits));
    return digits;
}

ChosenTuning tuning_of(const Request& request) {
    if (request.scale.empty() == request.system.empty())
        throw error(message::no_tuning_given, "", {});
    if (request.scale.empty()) {
        const Pitch a4 = request.reference ? parse_reference(*request.reference, {"--reference"})
                                           : Pitch::concert_a();
        return {system_tuning(request.system, request.tonic.value_or("C4"), a4)};
    }
    const Scale scale = scale_argument(request.scale);
    const auto reference = request.reference ? request.reference : scale.reference;
    const Pitch a4 = reference ? parse_reference(*reference, {"--reference"}) : Pitch::concert_a();
    return {tuning_by_scale(scale, request.tonic.value_or(scale.tonic.value_or("C4")), a4),
            borne_digits_of(scale)};
}

/// Options whose words CLI11 has checked.
AnnotationOptions options_of(const Request& request) {
    AnnotationOptions options = request.options;
    options.kind = request.as == "lyric" ? TextKind::lyric : TextKind::words;
    if (!request.placement.empty())
        options.placement = request.placement == "below" ? Placement::below : Placement::above;
    options.pitch = request.pitch == "written" ? PitchKind::written : PitchKind::sounding;
    if (request.reading != "auto")
        options.reading.source = request.reading == "sign" ? Source::sign : Source::alter;
    if (request.signs != "auto")
        options.reading.table =
            request.signs == "turkish" ? SignTable::turkish : SignTable::general;
    options.reading.signature =
        request.signature == "practised" ? Signature::practised : Signature::written;
    return options;
}

std::string reading_word(const Reading& reading) {
    return reading.source == Source::sign ? "sign" : "alter";
}

std::string signs_word(const Reading& reading) {
    return reading.table == SignTable::turkish ? "turkish" : "general";
}

Json reading_json(const Reading& reading) {
    const Evidence& evidence = reading.evidence;
    return {{"used", reading_word(reading)},
            {"reason", reading.reason},
            {"signs", signs_word(reading)},
            {"signature", reading.signature == Signature::practised ? "practised" : "written"},
            {"grace_signs_lost", reading.grace_signs_lost},
            {"evidence",
             {{"sign_without_alter", evidence.sign_without_alter},
              {"alter_without_sign", evidence.alter_without_sign},
              {"sign_and_alter", evidence.sign_and_alter},
              {"contradictions", evidence.contradictions},
              {"comma_signs", evidence.comma_signs},
              {"comma_signatures", evidence.comma_signatures},
              {"names_a_makam", evidence.names_a_makam}}}};
}

Json unmatched_json(const Annotation& annotation) {
    Json list = Json::array();
    for (const Unmatched& note : annotation.unmatched)
        list.push_back({{"part", annotation.parts[note.part]},
                        {"measure", annotation.measures[note.measure]},
                        {"pitch", annotation.names[note.pitch]},
                        {"reason", annotation.reasons[note.reason]}});
    return list;
}

Json annotation_json(const Annotation& annotation, int digits) {
    Json json = {{"tuning", annotation.tuning},
                 {"reading", reading_json(annotation.reading)},
                 {"notes", annotation.notes},
                 {"annotated", annotation.annotated},
                 {"skipped", annotation.skipped},
                 {"skipped_because", annotation.skipped_because},
                 {"rests", annotation.rests},
                 {"texts", annotation.texts},
                 {"unmatched", unmatched_json(annotation)},
                 {"unknown_signs", annotation.unknown_signs},
                 {"table", Json::array()}};
    for (const TableRow& row : annotation.table)
        json["table"].push_back({{"written", row.written},
                                 {"count", row.count},
                                 {"from", row.base},
                                 {"deviation_cents", row.deviation.cents(digits)}});
    return json;
}

/// One record a written note (RFC 4180).
std::string annotation_csv(const Annotation& annotation, int digits) {
    std::string text = "written,count,from,deviation_cents\r\n";
    for (const TableRow& row : annotation.table)
        text += fmt::format("{},{},{},{}\r\n", row.written, row.count, row.base,
                            row.deviation.cents(digits));
    return text;
}

/// Notes that lack a pitch, each kind on one line with its first place.
std::string unmatched_text(const Annotation& annotation) {
    struct Kind {
        std::size_t count = 0;
        const Unmatched* first = nullptr;
    };
    std::map<std::pair<std::string, std::string>, Kind> kinds;
    for (const Unmatched& note : annotation.unmatched) {
        Kind& kind = kinds[{annotation.reasons[note.reason], annotation.names[note.pitch]}];
        if (kind.count++ == 0)
            kind.first = &note;
    }
    std::string text;
    for (const auto& [name, kind] : kinds)
        text += fmt::format("  {:>6} x {:<18} {} (first: {}, measure {})\n", kind.count,
                            name.second, name.first, annotation.parts[kind.first->part],
                            annotation.measures[kind.first->measure]);
    return text;
}

std::string annotation_text(const Annotation& annotation, int places) {
    const Reading& reading = annotation.reading;
    std::string text = fmt::format("{}\nread by {}: {}\n", annotation.tuning, reading_word(reading),
                                   reading.reason);
    if (reading.source == Source::sign)
        text += fmt::format("signs: {}\n", signs_word(reading));
    text += fmt::format("notes {}, annotated {}, skipped {}, unmatched {}\n\n", annotation.notes,
                        annotation.annotated, annotation.skipped, annotation.unmatched.size());
    text += fmt::format("  {:<20} {:>8}  {:>10}\n", "written", "count", "cents");
    for (const TableRow& row : annotation.table)
        text += fmt::format("  {:<20} {:>8}  {:>10}{}\n", row.written, row.count,
                            deviation_text(row.deviation, places),
                            row.base == row.written ? "" : " from " + row.base);
    for (const auto& [why, count] : annotation.skipped_because)
        text += fmt::format("\nskipped, {}: {}", why, count);
    for (const auto& [name, count] : annotation.unknown_signs)
        text += fmt::format("\nsign unknown to the standard, {}: {}", name, count);
    if (!annotation.unmatched.empty())
        text += "\nunmatched, marked ? in the score:\n" + unmatched_text(annotation);
    return text;
}

/// "C#", "B -1 comma" with the signs of print.
std::string printed(std::string name) {
    std::string out;
    for (std::size_t i = 0; i < name.size(); ++i)
        out += name[i] == '#'                     ? "♯"
               : name[i] == 'b' && i > 0 && i < 4 ? "♭"
               : name[i] == '-'                   ? "−"
                                                  : std::string(1, name[i]);
    return out;
}

/// The conductor's key: one page, if it fits, of what each written note deviates.
KeySheet key_sheet(const Request& request, const Annotation& annotation, int places) {
    KeySheet sheet{
        std::filesystem::path(request.score).stem().string(), {annotation.tuning}, {}, {}, today()};
    sheet.facts.push_back(
        fmt::format("Deviations in cents from 12 equal steps. Pitches read by {}: {}.",
                    reading_word(annotation.reading), annotation.reading.reason));
    for (const TableRow& row : annotation.table)
        sheet.rows.push_back({printed(row.written), deviation_text(row.deviation, places),
                              row.base == row.written ? "" : printed(row.base),
                              std::to_string(row.count)});
    if (!annotation.unmatched.empty())
        sheet.notes.push_back(
            fmt::format("{} notes are marked ? in the score: the tuning lacks them, or "
                        "their pitch is not in the score.",
                        annotation.unmatched.size()));
    return sheet;
}

/// Digits after the point on the key for the desk.
constexpr int key_digits = 1;

/// `digits` are for readers; .csv and .json have as many as were asked for.
void write_summary(const Request& request, const Annotation& annotation, int digits) {
    const std::string kind = ending(request.summary);
    const auto write = [&](const std::string& text) {
        write_whole(request.summary, text, request.score);
    };
    if (kind == ".csv")
        return write(annotation_csv(annotation, request.common.digits));
    if (kind == ".json")
        return write(annotation_json(annotation, request.common.digits).dump(2) + "\n");
    if (kind == ".txt")
        return write(annotation_text(annotation, digits));
    if (kind == ".pdf")
        return write(
            print_pdf(key_page(key_sheet(request, annotation, std::min(key_digits, digits))),
                      {.paper = parse_paper(request.paper, {"--paper"})}));
    throw error(message::unknown_output_kind, request.summary, {"--summary"},
                ".pdf, .csv, .json or .txt");
}

/// Fails before the work where the output cannot be meant.
void check_out(const std::string& out) {
    const std::string kind = ending(out);
    for (const char* known : {"", ".musicxml", ".xml", ".mxl"})
        if (kind == known)
            return;
    throw error(message::unknown_output_kind, out, {"--out"}, ".musicxml, .xml or .mxl");
}

void run(const Request& request) {
    check_out(request.common.out);
    const ChosenTuning chosen = tuning_of(request);
    const Document document = read_document(request.score);
    const Annotation annotation =
        annotate(read_score(document), *chosen.tuning, options_of(request));
    const int digits = std::min(request.common.digits, chosen.borne_digits);
    if (!request.common.out.empty())
        write_annotated(document, annotation, request.common.out, request.score);
    if (!request.summary.empty())
        write_summary(request, annotation, digits);
    if (request.common.json)
        return print_json(annotation_json(annotation, request.common.digits));
    print(annotation_text(annotation, digits));
}

void add_words(CLI::App& command, const std::string& name, std::string& value,
               const std::vector<std::string>& words, const std::string& help) {
    command.add_option(name, value, help)->check(CLI::IsMember(words));
}

} // namespace

void add_annotate(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command =
        app.add_subcommand("annotate", "a score with each note's deviation from 12 equal steps");
    command->add_option("SCORE", request->score, "a MusicXML file, plain or .mxl")->required();
    command->add_option("--scale", request->scale, scale_help);
    command->add_option("--system", request->system,
                        "a tuning system of the catalogue, or a number of equal steps");
    command->add_option(
        "--tonic", request->tonic,
        "pitch of the scale's first degree, or the note of the system that does not deviate");
    command->add_option("--reference", request->reference, "reference pitch, such as A4=442Hz");
    add_words(*command, "--as", request->as, {"words", "lyric"},
              "texts above notes, or a lyric line");
    add_words(*command, "--placement", request->placement, {"above", "below"},
              "where the texts stand");
    command->add_option("--places", request->options.places, "digits after the point in the score");
    command->add_flag("--changes", request->options.changes,
                      "a text only where it changes in its voice");
    add_words(*command, "--pitch", request->pitch, {"sounding", "written"},
              "which pitch of a transposing part meets the scale");
    add_words(*command, "--reading", request->reading, {"auto", "alter", "sign"},
              "whether alter or the printed sign is the truth");
    add_words(*command, "--signs", request->signs, {"auto", "general", "turkish"},
              "what signs mean: quarter tones, or commas");
    add_words(*command, "--signature", request->signature, {"written", "practised"},
              "a sign's value: of the sign, or of the key signature's own commas");
    command->add_option("--summary", request->summary,
                        "write the table of notes: .pdf for the desk, .csv, .json or .txt");
    command->add_option("--paper", request->paper, "a4 or letter, for the .pdf");
    add_common_options(*command, request->common, ".musicxml, .xml or .mxl");
    command->callback([request] { run(*request); });
}

} // namespace sectio::cli
