// sectio listen SCALE: the scale as sound. sectio listen SCORE --scale SCALE: the score in it.

#include "answer.hpp"
#include "drones.hpp"
#include "performed.hpp"
#include "progress_line.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/sound/listening_page.hpp>
#include <sectio/sound/messages.hpp>
#include <sectio/sound/music_page.hpp>
#include <sectio/sound/music_sound.hpp>
#include <sectio/sound/wave_file.hpp>

#include <array>

namespace sectio::cli {

namespace {

struct ListenRequest {
    CommonOptions common;
    ScoreOptions heard; ///< its `score` is the scale where nothing tunes it
    std::string drone, tempo;
    double seconds = sound::ListeningOptions().note_seconds;
    double swell = sound::usual_swell_s;
    bool alone = false;
};

/// Answers with the page alone: the sound is in the file.
void answer_sound(const page::Page& page, CommonOptions options, const Command& command) {
    tell_unwritten(options, "the sound");
    options.out.clear();
    answer(page, options, command);
}

/// They move with the music.
std::vector<Pitch> moved_drones(const ListenRequest& request, const Pitch& a4) {
    const Interval by = transposition_of(request.heard);
    std::vector<Pitch> drones = drones_of(request.drone, a4);
    for (Pitch& drone : drones)
        drone = drone + by;
    return drones;
}

void hear_scale(const ListenRequest& request, const Command& command) {
    const std::string& argument = request.heard.score;
    if (command.given("--tempo"))
        throw error(message::tempo_of_score, "--tempo", {"--tempo"});
    command.refuse_idle({"--rest", "--reading", "--signs", "--signature"},
                        "where a scale sounds and no score, which --scale or --system tunes");
    const Interval by = transposition_of(request.heard);
    const TunedScale written = tuned(scale_argument(argument), request.heard.tuning);
    const TunedScale scale = by.is_unison() ? written : sound::transposed(written, by);
    sound::ListeningOptions options;
    options.drones = moved_drones(request, scale.a4());
    options.note_seconds = request.seconds;
    options.neighbours = !request.alone;
    options.swell_s = request.swell;
    const sound::Listening listening = listen_to(scale, options);
    if (!request.common.out.empty())
        write_whole(request.common.out, sound::wave_bytes(samples_of(listening)));
    answer_sound(listening_page(listening, scale.scale().name), request.common, command);
}

void hear_score(const ListenRequest& request, const Command& command) {
    for (const char* const option : {"--seconds", "--alone"})
        if (command.given(option))
            throw error(message::listening_of_scale, option, {option});
    const ChosenTuning chosen = tuning_of(request.heard);
    const tuning::Performance performance = performance_of(request.heard, chosen);
    const Rational tempo =
        request.tempo.empty() ? 1 : sound::parse_tempo(request.tempo, performance, {"--tempo"});
    sound::Music music = sound::music_of(performance, moved_drones(request, chosen.a4), tempo);
    music.swell_s = request.swell;
    if (!request.common.out.empty()) {
        ProgressLine progress;
        write_whole(request.common.out,
                    [&](const Sink& sink) { write_music(music, sink, std::ref(progress)); });
    }
    answer_sound(music_page(performance, music, chosen.tuning->text()), request.common, command);
}

bool is_tuned(const ScoreOptions& options) {
    return !options.scale.empty() || !options.system.empty();
}

void check_no_score(const std::string& argument) {
    for (const char* const kind : {".musicxml", ".mxl", ".mid", ".midi"})
        if (ending(argument) == kind)
            throw error(message::no_tuning_given, argument, {});
}

void run(const ListenRequest& request, const Command& command) {
    check_out(request.common);
    if (is_tuned(request.heard))
        return hear_score(request, command);
    check_no_score(request.heard.score);
    hear_scale(request, command);
}

} // namespace

void add_listen(Command& app) {
    const auto request = std::make_shared<ListenRequest>();
    Command* command = app.add_subcommand(
        "listen", "a scale as sound, or a score in a scale, over drones if wanted");
    command
        ->add_option("SCALE", request->heard.score,
                     std::string(scale_help)
                         + "; with --scale or --system the score that is tuned by them: a MusicXML "
                           "file, plain or .mxl, or a MIDI file")
        ->required();
    add_tuning_choice(*command, request->heard);
    command->add_option("--drone", request->drone,
                        "a pitch that sounds throughout, or several: D3 or D3,A3");
    command->add_option("--seconds", request->seconds, "of each note of a scale")
        ->between(0.2, 30.0);
    command->add_option("--tempo", request->tempo,
                        "of a score: a part of its own, such as 75%, or quarter notes a minute "
                        "where it begins, such as 60");
    add_transpose(*command, request->heard);
    command
        ->add_option("--swell", request->swell,
                     "seconds in which the sound grows from a tenth of its strength")
        ->between(0.2, 30.0);
    command->add_flag("--alone", request->alone,
                      "a scale's degrees alone, without their keys in 12 equal steps");
    add_reading_choice(*command, request->heard);
    add_common_options(*command, request->common, {wave_file});
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
