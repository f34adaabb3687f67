// sectio perform SCORE: a MIDI file that sounds in a scale or a tuning system.

#include "answer.hpp"
#include "performed.hpp"
#include "together.hpp"

#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/tuning/performance_page.hpp>

namespace sectio::cli {

namespace {

using namespace sectio::tuning;

struct PerformRequest {
    CommonOptions common;
    ScoreOptions score;
    std::string by = "bend", message = "auto", channels = "plain";
    PerformOptions options;
    BatchOptions batch;
};

/// Performs one score or MIDI file, and writes it where --out says so.
page::Page performed_page(const PerformRequest& request, const ChosenTuning& chosen) {
    const Performance music = performance_of(request.score, chosen);
    Performed performed = perform(music, request.options);
    performed.left_out.insert(music.left_out.begin(), music.left_out.end());
    if (!request.common.out.empty())
        write_whole(request.common.out, midi::file_bytes(performed.file));
    return performance_page(music, performed, request.options, chosen.tuning->text());
}

/// Each of a folder or a list, into the folder --out.
void run_together(const Together& all, const PerformRequest& request, const Command& command) {
    const ChosenTuning chosen = tuning_of(request.score);
    answer_together(all, request.batch, request.common, command, [&](const std::string& file) {
        PerformRequest one = request;
        one.score.score = file;
        one.common.out = all.out_of(file).string();
        return performed_page(one, chosen);
    });
}

void run(PerformRequest request, const Command& command) {
    request.options.channels = request.channels == "mpe" ? ChannelUse::zone : ChannelUse::plain;
    request.options.by = request.by == "tuning" ? PerformBy::tuning : PerformBy::bend;
    if (request.message != "auto")
        request.options.message = parse_message_kind(request.message, {"--message"});
    if (request.options.by == PerformBy::bend)
        command.refuse_idle({"--message"}, "where pitch is bent; add --by tuning");
    const std::string& score = request.score.score;
    if (score.empty() && request.batch.files_from.empty())
        command.lacks("SCORE");
    if (const auto all =
            together_of(score, request.batch, {".musicxml", ".xml", ".mxl", ".mid", ".midi"},
                        request.common.out, ".mid"))
        return run_together(*all, request, command);
    check_out(request.common);
    const page::Page page = performed_page(request, tuning_of(request.score));
    tell_unwritten(request.common, "the MIDI file");
    CommonOptions page_options = request.common;
    page_options.out.clear();
    answer(page, page_options, command);
}

} // namespace

void add_perform(Command& app) {
    const auto request = std::make_shared<PerformRequest>();
    Command* command = app.add_subcommand(
        "perform", "a score or MIDI file as a MIDI file in a scale, for ordinary instruments");
    add_score_options(*command, request->score,
                      "a MusicXML file, plain or .mxl, a MIDI file, or a folder of them");
    add_batch_options(*command, request->batch, "SCORE");
    add_transpose(*command, request->score);
    add_words(*command, "--by", request->by, {"bend", "tuning"},
              "pitch bend, or messages of the MIDI Tuning Standard");
    add_words(*command, "--message", request->message,
              {"auto", "octave-1", "octave-2", "note-change", "bulk-dump"},
              "the kind of tuning messages");
    add_words(*command, "--channels", request->channels, {"plain", "mpe"},
              "which channels bent notes get: all but 10, or those of an MPE zone");
    command->add_option("--bend-range", request->options.bend_range,
                        "semitones of a full pitch bend, of which the file tells the receiver");
    add_common_options(*command, request->common, {midi_file, midi_long});
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
