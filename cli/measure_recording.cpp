// sectio measure recording FILE…: the pitches that recordings hold.

#include "answer.hpp"
#include "drones.hpp"
#include "measure.hpp"
#include "progress_line.hpp"
#include "together.hpp"

#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/sound_endings.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/picture.hpp>
#include <sectio/measure/pitch_track.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/scale_file_text.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/source/source.hpp>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <iostream>
#include <optional>

namespace sectio::cli {

namespace {

struct MeasureRecordingRequest {
    CommonOptions common;
    std::vector<std::string> files;
    std::optional<StatedPitch> tonic;
    std::optional<TuningReference> reference;
    std::string drone;
    std::string period = "none";
    std::string picture;
    double step_s = 0.01;
    bool each = false;
    bool partials = false;
    BatchOptions batch;
};

/// The pitches of --drone, between commas; "none" where there is none to look for.
measure::ListenOptions listen_options(const MeasureRecordingRequest& request, const Pitch& a4) {
    measure::ListenOptions options{.find_drone = request.drone != "none",
                                   .partials = request.partials};
    for (const Pitch& pitch : drones_of(options.find_drone ? request.drone : "", a4))
        options.drone_hz.push_back(pitch.hertz_estimate());
    std::sort(options.drone_hz.begin(), options.drone_hz.end());
    return options;
}

measure::Recording one(const std::string& file, const MeasureRecordingRequest& request,
                       const measure::ListenOptions& options, const Progress& progress) {
    const auto of_table = [&](const std::string& table, const std::string& name) {
        if (options.partials)
            throw error(message::track_without_partials, "", {name});
        return measure::recording_of(measure::read_pitch_track(table, name, request.step_s), name);
    };
    if (file == measure::standard_input) {
        const source::Stream stream = source::take(std::cin);
        return stream.kind == source::FileKind::recording
                   ? measure::listen(file, progress, options)
                   : of_table(plain_text(stream.bytes, "standard input"), "standard input");
    }
    const std::string kind = ending(file);
    if (kind == ".csv" || kind == ".tsv" || kind == ".txt")
        return of_table(read_text(file, limits::table_bytes), file);
    source::check_recording(source::head_of(file), file);
    return measure::listen(file, progress, options);
}

/// What of a folder is measured file by file.
const std::vector<std::string> sound_kinds(sound_endings.begin(), sound_endings.end());

const OutputKinds picture_kinds{{".pdf", "a picture", true}, {".svg", "a picture"}, png_picture};

/// The bytes of --picture, or none; written last, when nothing else can fail any more.
std::string picture_of(const MeasureRecordingRequest& request, const measure::Hearing& hearing,
                       const Pitch& a4) {
    if (request.picture.empty())
        return "";
    const page::Page page = measure::picture_page(hearing, a4);
    const auto format = page::format_of(request.picture);
    return format ? page::print(page, *format)
                  : page::print_png(std::get<page::Drawing>(page.blocks.front()));
}

/// What each file holds; `progress` is told how much of them is done.
std::vector<measure::Recording> recordings_of(const MeasureRecordingRequest& request,
                                              const Pitch& a4, const Progress& progress) {
    const measure::ListenOptions options = listen_options(request, a4);
    std::vector<measure::Recording> recordings;
    const double files = static_cast<double>(request.files.size());
    for (const std::string& file : request.files) {
        const double before = static_cast<double>(recordings.size());
        recordings.push_back(one(file, request, options, [&](double done) {
            if (progress)
                progress((before + done) / files);
        }));
    }
    return recordings;
}

/// The answer, with the period that was asked for.
page::Page page_of(const MeasureRecordingRequest& request, const measure::Hearing& hearing,
                   const Pitch& a4) {
    return measure::hearing_page(hearing, a4, period_option(request.period));
}

/// What the files hold together.
measure::Hearing listened(const MeasureRecordingRequest& request, const Pitch& a4,
                          const Progress& progress) {
    std::vector<measure::Recording> recordings = recordings_of(request, a4, progress);
    std::optional<double> tonic;
    if (request.tonic)
        tonic = request.tonic->at(a4).hertz_estimate();
    return measure::hear(std::move(recordings), tonic);
}

std::string scale_text(const MeasureRecordingRequest& request, const measure::Hearing& hearing) {
    return scale_file_text(
        measure::scale_of(hearing, period_option(request.period), request.reference));
}

/// Measures one file by itself; into the folder --out it goes as what `identify` reads: a scale, or
/// the notes in time of a melody or of one pitch alone.
page::Page measured_alone(const Together& all, const std::string& file,
                          const MeasureRecordingRequest& request, const Pitch& a4) {
    MeasureRecordingRequest alone = request;
    alone.files = {file};
    const measure::Hearing hearing = listened(alone, a4, nullptr);
    page::Page page = page_of(request, hearing, a4);
    std::filesystem::path out = all.out_of(file);
    const bool is_scale = !hearing.is_melody() && hearing.pitches.size() > 1;
    if (!out.empty())
        write_whole(out.replace_extension(is_scale ? scale_file.ending : ".csv"),
                    is_scale ? scale_text(request, hearing) : page::print_csv(page));
    return page;
}

/// The files that are measured each by itself: of one folder, of a list, or as named.
Together each_of(const MeasureRecordingRequest& request) {
    const bool is_folder = request.files.size() == 1 && are_many(request.files[0], request.batch);
    const std::string argument = is_folder ? request.files[0] : "";
    // Which ending is written, this one or .csv, shows when a file is heard.
    const std::string kind(scale_file.ending);
    if (auto all = together_of(argument, request.batch, sound_kinds, request.common.out, kind))
        return *all;
    Together all{measure::with_files_of_folders(request.files), "", request.common.out, kind};
    prepare_outputs(all);
    return all;
}

void run_each(const MeasureRecordingRequest& request, const Pitch& a4, const Command& command) {
    const Together all = each_of(request);
    answer_together(all, request.batch, request.common, command, [&](const std::string& file) {
        return measured_alone(all, file, request, a4);
    });
}

/// The answer, on paper or as a scale, and what another program reads after it.
void answer_hearing(const MeasureRecordingRequest& request, const measure::Hearing& hearing,
                    const page::Page& page, const Command& command) {
    CommonOptions shown = request.common;
    if (ending(shown.out) == scale_file.ending) {
        write_whole(shown.out, scale_text(request, hearing));
        shown.out.clear();
        return shown.json ? answer(page, shown, command) : void();
    }
    answer(page, shown, command);
    if (hearing.pitches.size() > 1) // one alone is no scale
        hand_on(hearing.is_melody() ? page::print_csv(page) : scale_text(request, hearing), shown);
}

void run(MeasureRecordingRequest request, const Command& command) {
    if (request.files.empty() && request.batch.files_from.empty())
        command.lacks("FILE");
    if ((!request.batch.files_from.empty() || request.batch.json_lines) && !request.each)
        command.lacks("--each");
    period_option(request.period); // refused before the work
    const Pitch a4 = reference_of(request.reference);
    if (request.each)
        return run_each(request, a4, command);
    CommonOptions written = request.common;
    if (request.partials)
        written.kinds = page_kinds(); // no scale comes of it
    check_out(written);
    check_output(request.picture, "--picture", picture_kinds, request.common.json);
    request.files = measure::with_files_of_folders(request.files);
    ProgressLine progress;
    const auto tell = [&](double done) { progress(done); };
    if (request.partials)
        return answer(measure::partials_page(recordings_of(request, a4, tell), a4), request.common,
                      command);
    const measure::Hearing hearing = listened(request, a4, tell);
    const std::string picture = picture_of(request, hearing, a4);
    answer_hearing(request, hearing, page_of(request, hearing, a4), command);
    if (!request.picture.empty())
        write_whole(request.picture, picture);
}

} // namespace

void add_measure_recording(Command& measure) {
    const auto request = std::make_shared<MeasureRecordingRequest>();
    Command* command = measure.add_subcommand(
        "recording", "the pitches of one note, a slow scale or a melody, recorded");
    command->add_option(
        "FILE", request->files,
        "sound files (WAV, FLAC, AIFF, OGG, MP3), folders of these, tables of times and "
        "frequencies, or - for one of them on standard input");
    const Option* picture = add_output(*command, "--picture", request->picture,
                                       "draw the pitch over time and its histogram", picture_kinds);
    const Option* each =
        command
            ->add_flag("--each", request->each,
                       "every file by itself, several at once, with a row each; --out is a folder")
            ->excludes(picture);
    const Option* partials =
        command
            ->add_flag("--partials", request->partials,
                       "the partials of each note, or of a bell or gong: ratio, level, decay")
            ->excludes(picture)
            ->excludes(each);
    add_batch_options(*command, request->batch, "FILE");
    command
        ->add_option("--step", request->step_s,
                     "seconds between the values of a table without times")
        ->between(1e-4, 10.0);
    command
        ->add_option("--tonic", request->tonic, "the pitch that cents are counted from, such as D4")
        ->excludes(partials);
    command->add_option("--drone", request->drone,
                        "pitches that sound throughout, such as D3,A3; or none; looked for where "
                        "not given");
    command->add_option("--reference", request->reference, "reference pitch, such as A4=442Hz");
    command->add_option("--period", request->period, period_help)->excludes(partials);
    add_common_options(*command, request->common, page_kinds({scale_file}));
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
