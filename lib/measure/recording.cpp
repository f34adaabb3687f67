#include <sectio/base/limits.hpp>
#include <sectio/measure/listener.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/recording.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>

namespace sectio::measure {

namespace {

constexpr std::size_t piece_frames = 1 << 16;
constexpr double silent_db = -70;
/// Parts of a recording at its largest value from which clipping is worth a word.
constexpr double clipped_part = 1e-5;

void add_remarks(Recording& recording, std::int64_t promised) {
    const double promised_s = static_cast<double>(promised) / recording.rate;
    if (promised_s - recording.seconds > 0.001)
        recording.remarks.push_back(fmt::format(
            "The file ends after {:.3f} of the {:.3f} seconds that its header promises.",
            recording.seconds, promised_s));
    if (recording.clipped_s > clipped_part * recording.seconds)
        recording.remarks.push_back(
            fmt::format("The sound is clipped for {:.3f} seconds in all; pitches bear that, but "
                        "record with less gain.",
                        recording.clipped_s));
    const auto several = std::count_if(
        recording.refused.begin(), recording.refused.end(),
        [](const RecordedNote& n) { return n.pitch.trouble == NoteTrouble::several_notes; });
    if (several > 0)
        recording.remarks.push_back(
            fmt::format("At {} place{} several notes sound at once; they were left out.", several,
                        several == 1 ? "" : "s"));
}

/// Sound libraries read what there is of a WAVE file whose header promises more, and say nothing.
void add_header_remark(Recording& recording) {
    std::ifstream file(recording.name, std::ios::binary);
    try {
        read_wave_chunks(file, recording.name);
    } catch (const Error& e) {
        if (e.id() == Message(message::wave_damaged))
            recording.remarks.push_back("What is there was measured, but " + e.message() + ".");
    }
}

/// A recording without a note: why.
Message reason(const Recording& recording) {
    const auto has = [&](NoteTrouble trouble) {
        return std::any_of(recording.refused.begin(), recording.refused.end(),
                           [&](const RecordedNote& n) { return n.pitch.trouble == trouble; });
    };
    if (has(NoteTrouble::several_notes))
        return message::recording_several_notes;
    if (has(NoteTrouble::too_short))
        return message::recording_notes_too_short;
    if (recording.tonal)
        return message::recording_several_notes;
    return message::recording_without_pitch;
}

void check(const Recording& recording) {
    if (20 * std::log10(std::max(recording.peak, 1e-9)) < silent_db)
        throw error(message::recording_silent, "", {recording.name}, silent_db);
    if (recording.notes.empty())
        throw error(reason(recording), "", {recording.name});
}

} // namespace

Recording listen(const std::filesystem::path& file, const Progress& progress) {
    SoundFile sound(file);
    Recording recording;
    recording.name = file.string();
    recording.rate = sound.rate();
    recording.channels = sound.channels();
    Listener listener(recording);
    std::vector<float> piece(piece_frames);
    double done = 0;
    for (;;) {
        const std::size_t got = sound.read(piece);
        listener.feed({piece.data(), got});
        done += static_cast<double>(got);
        if (progress)
            progress(std::min(1.0, done / static_cast<double>(sound.promised_frames())));
        if (got < piece.size())
            break;
    }
    listener.finish();
    if (recording.seconds == 0)
        throw error(message::sound_empty, "", {recording.name});
    add_header_remark(recording);
    add_remarks(recording, sound.promised_frames());
    check(recording);
    return recording;
}

Recording listen(std::span<const float> samples, int rate, const std::string& name) {
    if (rate < limits::least_sound_rate || rate > limits::sound_rate)
        throw error(message::sound_rate, fmt::to_string(rate), {name}, rate);
    if (!std::all_of(samples.begin(), samples.end(), [](float s) { return std::isfinite(s); }))
        throw error(message::sound_not_finite, "", {name});
    Recording recording;
    recording.name = name;
    recording.rate = rate;
    Listener listener(recording);
    listener.feed(samples);
    listener.finish();
    add_remarks(recording, static_cast<std::int64_t>(samples.size()));
    check(recording);
    return recording;
}

} // namespace sectio::measure
