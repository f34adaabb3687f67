// sectio annotate SCORE: the score with each note's deviation from 12 equal steps.

#include "answer.hpp"
#include "score_options.hpp"
#include "together.hpp"

#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/score/annotation_page.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/source/file_kind.hpp>

namespace sectio::cli {

namespace {

using namespace sectio::score;

struct AnnotateRequest {
    CommonOptions common;
    ScoreOptions score;
    std::string summary, paper = "a4";
    std::string as = "words", placement, pitch = "sounding";
    bool remove = false;
    AnnotationOptions options;
    BatchOptions batch;
};

/// Options whose words CLI11 has checked.
AnnotationOptions options_of(const AnnotateRequest& request) {
    AnnotationOptions options = request.options;
    options.kind = request.as == "lyric" ? TextKind::lyric : TextKind::words;
    if (!request.placement.empty())
        options.placement = request.placement == "below" ? Placement::below : Placement::above;
    options.pitch = request.pitch == "written" ? PitchKind::written : PitchKind::sounding;
    options.reading = reading_of(request.score);
    return options;
}

/// The common options of what is not the score.
CommonOptions page_options(const AnnotateRequest& request, const std::string& out) {
    CommonOptions options = request.common;
    options.out = out;
    if (!out.empty())
        options.json = false; // which is for standard output
    return options;
}

std::string file_stem(const AnnotateRequest& request) {
    return request.score.score == "-" ? "Score"
                                      : std::filesystem::path(request.score.score).stem().string();
}

Document document_of(const AnnotateRequest& request) {
    Document document = read_document(request.score.score);
    source::check_score(document.bytes, document.source);
    return document;
}

/// Takes the texts of an earlier annotation out of one score, and writes it to --out.
page::Page texts_removed(const AnnotateRequest& request) {
    const Document document = document_of(request);
    read_score(document); // what is none is refused
    write_annotated(document, Annotation(), request.common.out);
    page::Page page;
    page.title = file_stem(request);
    page.kind = "annotation-removed";
    page.blocks = {
        page::Facts{"", "", {{"Texts taken out", page::count(document.earlier_texts), "removed"}}}};
    return page;
}

/// Reads and annotates one score, and writes it where --out says so.
page::Page annotated(const AnnotateRequest& request, const ChosenTuning& chosen) {
    const Document document = document_of(request);
    const Annotation annotation =
        annotate(read_score(document), *chosen.tuning, options_of(request));
    if (!request.common.out.empty())
        write_annotated(document, annotation, request.common.out);
    return annotation_page(annotation, {file_stem(request), today(), chosen.half_width});
}

/// Each score of a folder or a list, into the folder --out.
void run_together(const Together& all, const AnnotateRequest& request, const Command& command) {
    const auto chosen = request.remove ? std::nullopt : std::optional(tuning_of(request.score));
    answer_together(all, request.batch, request.common, command, [&](const std::string& file) {
        AnnotateRequest one = request;
        one.score.score = file;
        one.common.out = all.out_of(file).string();
        return chosen ? annotated(one, *chosen) : texts_removed(one);
    });
}

void run(const AnnotateRequest& request, const Command& command) {
    const std::string& score = request.score.score;
    if (score.empty() && request.batch.files_from.empty())
        command.lacks("SCORE");
    if (request.remove)
        command.refuse_idle({"--scale", "--system", "--rest", "--tonic", "--reference", "--reading",
                             "--signs", "--signature", "--as", "--placement", "--places", "--size",
                             "--changes", "--pitch", "--summary", "--paper"},
                            "beside --remove, which takes texts out and puts none in");
    if (request.remove && request.common.out.empty())
        throw error(message::nowhere_to_write, "", {"--remove"});
    if (!request.summary.empty() && are_many(score, request.batch))
        throw error(message::summary_of_many, request.summary, {"--summary"});
    if (const auto all =
            together_of(score, request.batch, {".musicxml", ".xml", ".mxl"}, request.common.out))
        return run_together(*all, request, command);
    check_out(request.common);
    check_output(request.summary, "--summary", page_kinds(), request.common.json);
    const page::Page page =
        request.remove ? texts_removed(request) : annotated(request, tuning_of(request.score));
    page::PrintOptions print_options;
    print_options.paper = parse_paper(request.paper, {"--paper"});
    if (!request.summary.empty())
        answer(page, page_options(request, request.summary), command, print_options);
    answer(page, page_options(request, ""), command);
}

} // namespace

void add_annotate(Command& app) {
    const auto request = std::make_shared<AnnotateRequest>();
    Command* command =
        app.add_subcommand("annotate", "a score with each note's deviation from 12 equal steps");
    add_score_options(*command, request->score,
                      "a MusicXML file, plain or .mxl, or a folder of them");
    add_batch_options(*command, request->batch, "SCORE");
    add_words(*command, "--as", request->as, {"words", "lyric"},
              "texts above notes, or a lyric line");
    add_words(*command, "--placement", request->placement, {"above", "below"},
              "where the texts stand");
    command->add_option("--places", request->options.places, "digits after the point in the score");
    command->add_option("--size", request->options.points,
                        "size of type of the texts and the legend, in points");
    command->add_flag("--changes", request->options.changes,
                      "a text only where it changes in its voice");
    add_words(*command, "--pitch", request->pitch, {"sounding", "written"},
              "which pitch of a transposing part meets the scale");
    command->add_flag("--remove", request->remove,
                      "take the texts of an earlier annotation out, and put none in");
    add_output(*command, "--summary", request->summary, "write the table of notes", page_kinds());
    command->add_option("--paper", request->paper, "a4 or letter, for .pdf and .svg");
    add_common_options(*command, request->common, {plain_score, plain_xml, packed_score, any_name});
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
