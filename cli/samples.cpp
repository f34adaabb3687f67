// sectio samples FILE…: recorded notes for a sampler, their keys and fractions.

#include "answer.hpp"
#include "progress_line.hpp"

#include <sectio/base/comma_list.hpp>
#include <sectio/base/command_files.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>

namespace sectio::cli {

namespace {

struct SamplesRequest {
    CommonOptions common;
    std::vector<std::string> files;
    std::string scale;
    TuningOptions tuning;
    std::vector<std::string> sets;
};

std::vector<measure::SampleSet> sets_of(const SamplesRequest& request) {
    std::vector<measure::SampleSet> sets;
    for (const std::string& names : request.sets)
        for (const ListItem& item : comma_list(names, "--set")) {
            sets.push_back(measure::parse_sample_set(item.text, item.place));
            if (sets.back() == measure::SampleSet::scale && request.scale.empty())
                throw error(message::sample_set_without_scale, item.text, item.place);
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

/// A file that cannot be measured does not keep the others from being measured; where none can,
/// that is the answer.
Measured measured(const std::vector<std::string>& files, const Pitch& a4, const TunedScale* scale) {
    ProgressLine progress;
    Measured result;
    const double count = static_cast<double>(files.size());
    for (std::size_t i = 0; i < files.size(); ++i) {
        try {
            const auto recording = measure::listen(
                files[i], [&](double done) { progress((static_cast<double>(i) + done) / count); });
            result.samples.push_back(measure::sample_of(recording, a4, scale));
        } catch (const Error& e) {
            result.refused.push_back({files[i], e});
        }
    }
    return result;
}

/// What is written into one folder.
struct Copies {
    measure::SampleSet set;
    std::filesystem::path folder;
};

/// One set goes into the folder itself, several into folders of their own.
std::vector<Copies> copies_of(const SamplesRequest& request,
                              const std::vector<measure::SampleSet>& sets) {
    const std::filesystem::path out = request.common.out;
    std::vector<Copies> copies;
    for (const measure::SampleSet set : sets)
        copies.push_back({set, sets.size() == 1 ? out : out / measure::text(set)});
    return copies;
}

constexpr const char* table_name = "samples.csv";

/// Refuses all before anything is written where a file would be lost.
void announce(const Measured& measured, const std::vector<Copies>& copies) {
    for (const Copies& each : copies) {
        for (const measure::Sample& sample : measured.samples)
            will_write(copy_of(sample, each.folder));
        will_write(each.folder / table_name);
    }
}

/// What cannot be copied joins the refused, and stays measured.
void write_sets(Measured& measured, const std::vector<Copies>& copies, const TunedScale* scale,
                const Pitch& a4) {
    announce(measured, copies);
    for (const Copies& each : copies) {
        const auto refused =
            measure::write_samples(measured.samples, each.set, scale, a4, each.folder);
        measured.refused.insert(measured.refused.end(), refused.begin(), refused.end());
        if (refused.size() < measured.samples.size())
            write_whole(each.folder / table_name,
                        print_csv(measure::samples_page(measured.samples, measured.refused,
                                                        {each.set}, scale, a4)));
    }
}

void check_folder(const std::string& out) {
    std::error_code ignored;
    if (is_standard_output(out))
        throw error(message::standard_output_no_folder, out, {"--out"});
    if (std::filesystem::exists(out, ignored) && !std::filesystem::is_directory(out, ignored))
        throw error(message::out_is_no_folder, out, {"--out"});
}

/// Among others a file without a note is told and no failure; any other ends the command with its
/// code.
void tell_refused(const Measured& measured, bool json) {
    std::vector<Error> failed;
    for (const measure::RefusedSample& refused : measured.refused)
        if (measure::is_without_note(refused.error) && !measured.samples.empty())
            tell(refused.error, json);
        else
            failed.push_back(refused.error);
    end_with(failed, json);
}

void run(const SamplesRequest& request, const Command& command) {
    const std::vector<measure::SampleSet> sets = sets_of(request);
    check_folder(request.common.out);
    if (std::count(request.files.begin(), request.files.end(), measure::standard_input) > 0)
        throw error(message::samples_are_files, measure::standard_input, {"FILE"});
    std::optional<TunedScale> scale;
    if (!request.scale.empty())
        scale = tuned(scale_argument(request.scale), request.tuning);
    const Pitch a4 = scale ? scale->a4() : reference_of(request.tuning.reference);
    const TunedScale* tuned_scale = scale ? &*scale : nullptr;
    Measured answered = measured(measure::with_files_of_folders(request.files), a4, tuned_scale);
    if (!request.common.out.empty() && !answered.samples.empty())
        write_sets(answered, copies_of(request, sets), tuned_scale, a4);
    CommonOptions shown = request.common;
    shown.out.clear();
    if (!answered.samples.empty())
        answer(measure::samples_page(answered.samples, answered.refused, sets, tuned_scale, a4),
               shown, command);
    tell_refused(answered, request.common.json);
}

} // namespace

void add_samples(Command& app) {
    const auto request = std::make_shared<SamplesRequest>();
    Command* command =
        app.add_subcommand("samples", "recorded notes for a sampler: pitch, key, fraction");
    command->add_option("FILE", request->files, "sound files, one note each, or folders of them")
        ->required();
    command->add_option("--scale", request->scale, scale_help);
    command->add_option("--tonic", request->tuning.tonic, "the scale's tonic, such as D4");
    command->add_option("--reference", request->tuning.reference,
                        "reference pitch, such as A4=442Hz");
    command->add_option(
        "--set", request->sets,
        "what copies store: natural (as recorded), tempered (brought to 12 equal steps), scale");
    add_common_options(*command, request->common);
    command->add_option("--out", request->common.out,
                        "a folder for copies of the WAVE files with key and fraction");
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
