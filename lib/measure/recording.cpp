#include <sectio/base/limits.hpp>
#include <sectio/measure/decimator.hpp>
#include <sectio/measure/drone.hpp>
#include <sectio/measure/listener.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/recording.hpp>
#include <sectio/measure/sound_file.hpp>
#include <sectio/measure/wave_chunks.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <functional>

namespace sectio::measure {

namespace {

constexpr std::size_t piece_frames = 1 << 16;
constexpr double silent_db = -70;
/// Speech glides for at least so much of the time that its pitches seem to stay.
constexpr double gliding_part = 0.5;
/// Parts of a recording at its largest value from which clipping is worth a word.
constexpr double clipped_part = 1e-5;

/// Adds a remark that names the first few of these.
void add_list(Recording& recording, const std::string& what,
              const std::vector<std::string>& names) {
    constexpr std::size_t most = 6;
    if (names.empty())
        return;
    const auto end = names.begin() + static_cast<std::ptrdiff_t>(std::min(most, names.size()));
    recording.remarks.push_back(fmt::format("{}: {}{}.", what, fmt::join(names.begin(), end, ", "),
                                            names.size() > most ? " and others" : ""));
}

/// What rings on, or sounds so softly that it is no note.
void add_soft_remarks(Recording& recording) {
    if (!recording.drone.empty())
        return;
    std::vector<std::string> soft, below;
    for (const RecordedNote& note : recording.soft)
        soft.push_back(fmt::format("{:.1f} Hz at {:.1f} s", note.pitch.hz, note.start_s));
    for (const RecordedNote& note : recording.notes)
        if (const auto& sound = note.pitch.below)
            below.push_back(fmt::format("{:.1f} Hz at {:.1f} s, {:.0f} dB softer", sound->hz,
                                        note.start_s, sound->softer_db));
    add_list(recording, "Also sounding, 20 dB softer than most notes or more, and left out", soft);
    add_list(recording, "Also sounding below notes", below);
}

void add_remarks(Recording& recording, std::int64_t promised) {
    const double promised_s = static_cast<double>(promised) / recording.rate;
    if (promised_s - recording.seconds > 0.001)
        recording.remarks.push_back(fmt::format(
            "The file ends after {:.3f} of the {:.3f} seconds that its header promises.",
            recording.seconds, promised_s));
    if (recording.clipped_s > clipped_part * recording.seconds)
        recording.remarks.push_back(
            fmt::format("The sound is clipped for {:.3f} seconds in all; the pitches are measured "
                        "all the same, but record with less gain.",
                        recording.clipped_s));
    add_soft_remarks(recording);
    double sounding_s = 0;
    for (const RecordedNote& note : recording.notes)
        sounding_s += note.end_s - note.start_s;
    if (recording.gliding_s > gliding_part * sounding_s && !recording.notes.empty())
        recording.remarks.push_back("The pitch glides for much of the time: this is speech, or no "
                                    "melody of fixed pitches.");
    const auto several = std::count_if(
        recording.refused.begin(), recording.refused.end(),
        [](const RecordedNote& n) { return n.pitch.trouble == NoteTrouble::several_notes; });
    if (several > 0 && !recording.unpitched)
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
    if (recording.notes.empty() && !recording.unpitched)
        throw error(reason(recording), "", {recording.name});
}

/// Where the sound comes from: each call of the function hands on all of it again, piece by piece.
struct Sound {
    int rate = 0;
    std::function<void(const std::function<void(std::span<const float>)>&)> pieces;
};

Drone drone_of(const Sound& sound, const ListenOptions& options) {
    for (const double hz : options.drone_hz)
        if (!(hz > 0 && hz < sound.rate / 2.0))
            throw error(message::drone_frequency, "", {}, hz, sound.rate);
    if (options.drone_hz.empty() && !options.find_drone)
        return {};
    const std::size_t factor = decimation_for(sound.rate);
    const double rate = static_cast<double>(sound.rate) / static_cast<double>(factor);
    Decimator decimator(factor);
    DroneFinder finder(rate, usable_band(factor) * rate);
    std::vector<float> fewer;
    sound.pieces([&](std::span<const float> piece) {
        decimator.feed(piece, fewer);
        finder.feed(fewer);
        fewer.clear();
    });
    return finder.found(options.drone_hz);
}

Recording heard_over(const Sound& sound, Recording recording, const Drone& drone,
                     const ListenOptions& options) {
    Listener listener(recording, drone, options.partials);
    sound.pieces([&](std::span<const float> piece) { listener.feed(piece); });
    listener.finish();
    return recording;
}

/// Whether two of the notes lie a semitone apart or more.
bool is_melody(const std::vector<RecordedNote>& notes) {
    constexpr double least = 1.059; // twelve make an octave
    const auto lower = [](const RecordedNote& a, const RecordedNote& b) {
        return a.pitch.hz < b.pitch.hz;
    };
    const auto [low, high] = std::minmax_element(notes.begin(), notes.end(), lower);
    return !notes.empty() && high->pitch.hz > least * low->pitch.hz;
}

/// What was taken for a drone, and has no melody over it, is the sound itself.
Recording heard(const Sound& sound, const Recording& blank, const ListenOptions& options) {
    const Drone drone = drone_of(sound, options);
    Recording recording = heard_over(sound, blank, drone, options);
    const bool found = options.drone_hz.empty() && !drone.empty();
    return found && !is_melody(recording.notes) ? heard_over(sound, blank, {}, options) : recording;
}

/// Gives a file piece by piece, as often as it is asked.
struct FilePieces {
    const std::filesystem::path& file;
    const Progress& progress;
    std::int64_t promised, done = 0;         ///< frames
    std::optional<int> only{}, cancelling{}; ///< channels

    void give(const std::function<void(std::span<const float>)>& take) {
        std::vector<float> piece(piece_frames);
        SoundFile sound(file);
        if (only)
            sound.read_only(*only);
        for (std::size_t got = piece.size(); got == piece.size();) {
            got = sound.read(piece);
            take({piece.data(), got});
            done += static_cast<std::int64_t>(got);
            if (progress)
                progress(
                    std::min(1.0, static_cast<double>(done) / 2 / static_cast<double>(promised)));
        }
        cancelling = sound.cancelling();
    }
};

} // namespace

Recording listen(const std::filesystem::path& file, const Progress& progress,
                 const ListenOptions& options) {
    const bool piped = file == standard_input;
    Recording blank;
    std::int64_t promised = 0;
    {
        const SoundFile sound(file);
        blank.name = piped ? "standard input" : file.string();
        blank.rate = sound.rate();
        blank.channels = sound.channels();
        promised = sound.promised_frames();
    }
    FilePieces pieces{file, progress, promised};
    const auto sound = [&] {
        return heard({blank.rate, [&](const auto& take) { pieces.give(take); }}, blank, options);
    };
    Recording recording = sound();
    if (pieces.cancelling) {
        pieces.only = pieces.cancelling;
        recording = sound();
        recording.remarks.push_back(fmt::format(
            "The channels cancel each other where they are put together, as when one is turned "
            "over: channel {} was measured alone.",
            *pieces.only + 1));
    }
    if (recording.seconds == 0)
        throw error(message::sound_empty, "", {recording.name});
    if (!piped) // what writes to a pipe cannot know its length, and says none
        add_header_remark(recording);
    add_remarks(recording, promised);
    check(recording);
    return recording;
}

Recording listen(std::span<const float> samples, int rate, const std::string& name,
                 const ListenOptions& options) {
    if (rate < limits::least_sound_rate || rate > limits::sound_rate)
        throw error(message::sound_rate, fmt::to_string(rate), {name}, rate);
    if (!std::all_of(samples.begin(), samples.end(), [](float s) { return std::isfinite(s); }))
        throw error(message::sound_not_finite, "", {name});
    Recording blank;
    blank.name = name;
    blank.rate = rate;
    const auto pieces = [&](const std::function<void(std::span<const float>)>& take) {
        for (std::size_t at = 0; at < samples.size(); at += piece_frames)
            take(samples.subspan(at, std::min(piece_frames, samples.size() - at)));
    };
    Recording recording = heard({rate, pieces}, blank, options);
    add_remarks(recording, static_cast<std::int64_t>(samples.size()));
    check(recording);
    return recording;
}

} // namespace sectio::measure
