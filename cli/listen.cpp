// sectio listen SCALE: the scale as sound.

#include "answer.hpp"
#include "command.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/sound/listening_page.hpp>
#include <sectio/sound/wave_file.hpp>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::string scale;
    TuningOptions tuning;
    std::string drone;
    double seconds = sound::ListeningOptions().note_seconds;
    bool alone = false;
};

void run(const Request& request, const CLI::App& command) {
    if (!request.common.out.empty() && ending(request.common.out) != ".wav")
        throw error(message::unknown_output_kind, request.common.out, {"--out"}, ".wav");
    const TunedScale scale = tuned(scale_argument(request.scale), request.tuning);
    sound::ListeningOptions options;
    if (!request.drone.empty())
        options.drone = parse_tonic(request.drone, scale.a4(), {"--drone"}).pitch;
    options.note_seconds = request.seconds;
    options.neighbours = !request.alone;
    const sound::Listening listening = listen_to(scale, options);
    CommonOptions shown = request.common;
    if (!shown.out.empty()) {
        write_whole(shown.out, sound::wave_bytes(samples_of(listening)), request.scale);
        shown.out.clear();
    }
    answer(listening_page(listening, scale.scale().name), shown, command);
}

} // namespace

void add_listen(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command = app.add_subcommand("listen", "a scale as sound, over a drone if wanted");
    command->add_option("SCALE", request->scale, scale_help)->required();
    command->add_option("--tonic", request->tuning.tonic, "pitch of the first degree, such as D4");
    command->add_option("--reference", request->tuning.reference,
                        "reference pitch, such as A4=442Hz");
    command->add_option("--drone", request->drone, "a pitch that sounds throughout, such as D3");
    command->add_option("--seconds", request->seconds, "of each note")
        ->check(CLI::Range(0.2, 30.0));
    command->add_flag("--alone", request->alone,
                      "the degrees alone, without their keys in 12 equal steps");
    add_common_options(*command, request->common, ".wav");
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
