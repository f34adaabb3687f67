// sectio samples FILE…: recorded notes for a sampler, their keys and fractions.

#include "answer.hpp"
#include "progress_line.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/visible.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <fmt/format.h>

#include <cstdio>
#include <filesystem>

namespace sectio::cli {

namespace {

struct Request {
    CommonOptions common;
    std::vector<std::string> files;
    std::string scale;
    std::string tonic;
    std::string reference;
    std::vector<std::string> sets;
};

std::optional<std::string> given(const std::string& text) {
    return text.empty() ? std::nullopt : std::optional(text);
}

std::vector<measure::SampleSet> sets_of(const Request& request) {
    std::vector<measure::SampleSet> sets;
    for (const std::string& name : request.sets) {
        sets.push_back(measure::parse_sample_set(name, {"--set"}));
        if (sets.back() == measure::SampleSet::scale && request.scale.empty())
            throw error(message::sample_set_without_scale, name, {"--set"});
    }
    if (sets.empty())
        sets.push_back(request.scale.empty() ? measure::SampleSet::tempered
                                             : measure::SampleSet::scale);
    return sets;
}

struct Measured {
    std::vector<measure::Sample> samples;
    std::vector<measure::RefusedSample> refused;
};

/// A file without a pitch does not keep the others from being measured; where none has one, that is
/// an error.
Measured measured(const Request& request, const Pitch& a4, const TunedScale* scale) {
    ProgressLine progress;
    Measured result;
    const double files = static_cast<double>(request.files.size());
    for (std::size_t i = 0; i < request.files.size(); ++i) {
        try {
            const auto recording = measure::listen(request.files[i], [&](double done) {
                progress((static_cast<double>(i) + done) / files);
            });
            result.samples.push_back(measure::sample_of(recording, a4, scale));
        } catch (const Error& e) {
            if (request.files.size() == 1 || e.code() != ErrorCode::unusable)
                throw;
            result.refused.push_back({request.files[i], e.what()});
        }
    }
    return result;
}

/// One set goes into the folder itself, several into folders of their own.
void write_sets(const Request& request, const Measured& measured,
                const std::vector<measure::SampleSet>& sets, const TunedScale* scale,
                const Pitch& a4) {
    const std::filesystem::path out = request.common.out;
    if (std::filesystem::exists(out) && !std::filesystem::is_directory(out))
        throw error(message::out_is_no_folder, out.string(), {"--out"});
    for (const measure::SampleSet set : sets) {
        const auto folder = sets.size() == 1 ? out : out / measure::text(set);
        measure::write_samples(measured.samples, set, scale, a4, folder);
        write_whole(
            folder / "samples.csv",
            print_csv(measure::samples_page(measured.samples, measured.refused, {set}, scale, a4)));
    }
}

void run(const Request& request, const CLI::App& command) {
    const std::vector<measure::SampleSet> sets = sets_of(request);
    std::optional<TunedScale> scale;
    if (!request.scale.empty())
        scale =
            tuned(scale_argument(request.scale), {given(request.tonic), given(request.reference)});
    const Pitch a4 = scale ? scale->a4() : reference_of(given(request.reference), std::nullopt);
    const TunedScale* tuned_scale = scale ? &*scale : nullptr;
    const Measured answered = measured(request, a4, tuned_scale);
    for (const measure::RefusedSample& refused : answered.refused)
        fmt::print(stderr, "sectio: {}\n", visible(refused.reason));
    if (answered.samples.empty())
        throw error(message::recording_without_pitch, "", {});
    if (!request.common.out.empty())
        write_sets(request, answered, sets, tuned_scale, a4);
    CommonOptions shown = request.common;
    shown.out.clear();
    answer(measure::samples_page(answered.samples, answered.refused, sets, tuned_scale, a4), shown,
           command);
}

} // namespace

void add_samples(CLI::App& app) {
    const auto request = std::make_shared<Request>();
    CLI::App* command =
        app.add_subcommand("samples", "recorded notes for a sampler: pitch, key, fraction");
    command->add_option("FILE", request->files, "sound files, one note each")->required();
    command->add_option("--scale", request->scale, scale_help);
    command->add_option("--tonic", request->tonic, "the scale's tonic, such as D4");
    command->add_option("--reference", request->reference, "such as 'A4 = 442 Hz'");
    command
        ->add_option(
            "--set", request->sets,
            "what copies store: natural (as recorded), tempered (brought to 12 equal steps), scale")
        ->delimiter(',');
    add_common_options(*command, request->common);
    command->add_option("--out", request->common.out,
                        "a folder for copies of the WAVE files with key and fraction");
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
