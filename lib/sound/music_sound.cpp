#include <sectio/base/argument.hpp>
#include <sectio/sound/loudness.hpp>
#include <sectio/sound/music_sound.hpp>
#include <sectio/sound/wave_file.hpp>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <queue>

namespace sectio::sound {

namespace {

double seconds_of(std::int64_t frames) {
    return static_cast<double>(frames) / sample_rate;
}

double bent(double hz, std::int32_t bend) {
    return bend == 0 ? hz : hz * std::exp2(bend / (8192.0 * 1200));
}

/// What a string of this level can still reach after `frames`.
double decayed(double level, std::int64_t frames) {
    return level * std::exp(-slowest_decay * seconds_of(frames));
}

} // namespace

// Between beginnings the sum only falls: all levels decay alike, and ends take theirs away. So it
// is greatest at a beginning.
double greatest_level(const Music& music) {
    struct Ending {
        std::int64_t begin, end;
        double level;
        bool operator>(const Ending& other) const { return end > other.end; }
    };
    std::priority_queue<Ending, std::vector<Ending>, std::greater<>> sounding;
    double sum = 0, greatest = 0;
    std::int64_t at = 0;
    const auto go_to = [&](std::int64_t frame) {
        sum = decayed(sum, frame - at);
        at = frame;
    };
    for (const MusicNote& note : music.notes) {
        const std::int64_t begin = music.frame(note.begin);
        for (; !sounding.empty() && sounding.top().end <= begin; sounding.pop()) {
            go_to(sounding.top().end);
            sum -= decayed(sounding.top().level, sounding.top().end - sounding.top().begin);
        }
        go_to(begin);
        sum = std::max(sum, 0.0) + string_level * note.level;
        greatest = std::max(greatest, sum);
        sounding.push({begin, music.frame(note.end), string_level * note.level});
    }
    const std::size_t drones = music.drones.size();
    return greatest + (drones > 0 ? static_cast<double>(drones) * level_of_each(drones) : 0);
}

MusicSound::MusicSound(const Music& music)
    : music_(music), frames_(music.frames()), gain_(peak / greatest_level(music)) {
    for (const Pitch& pitch : music.pitches)
        hertz_.push_back(pitch.hertz_estimate());
    for (const Pitch& drone : music.drones)
        drones_.push_back(SoundingTone::drone({drone.hertz_estimate(), seconds_of(frames_),
                                               gain_ * level_of_each(music.drones.size())}));
    next_ = next_frame();
}

bool MusicSound::next_is_bend() const {
    return bend_ < music_.bends.size() && music_.bends[bend_].before <= note_;
}

std::int64_t MusicSound::next_frame() const {
    if (next_is_bend())
        return music_.frame(music_.bends[bend_].at);
    return note_ < music_.notes.size() ? music_.frame(music_.notes[note_].begin)
                                       : std::numeric_limits<std::int64_t>::max();
}

void MusicSound::take_next() {
    if (next_is_bend()) {
        const MusicBend& bend = music_.bends[bend_++];
        for (String& string : sounding_)
            if (string.instrument == bend.instrument)
                string.tone.set_hz(bent(string.hz, bend.bend));
        return;
    }
    const MusicNote& note = music_.notes[note_++];
    const double hz = hertz_[note.pitch];
    const double seconds = seconds_of(music_.frame(note.end) - music_.frame(note.begin));
    sounding_.push_back(
        {note.instrument, hz,
         SoundingTone::plucked({bent(hz, note.bend), seconds, gain_ * string_level * note.level})});
}

void MusicSound::sound_to(std::span<float> samples, std::int64_t frame) {
    const std::span<float> now = samples.first(static_cast<std::size_t>(frame - at_));
    for (String& string : sounding_)
        string.tone.add_to(now);
    for (SoundingTone& drone : drones_)
        drone.add_to(now);
    std::erase_if(sounding_, [](const String& string) { return string.tone.ended(); });
    at_ = frame;
}

void MusicSound::next(std::span<float> samples) {
    std::fill(samples.begin(), samples.end(), 0.0F);
    const std::int64_t first = at_, end = at_ + std::ssize(samples);
    while (at_ < end) {
        sound_to(samples.subspan(static_cast<std::size_t>(at_ - first)), std::min(next_, end));
        for (; next_ <= at_; next_ = next_frame())
            take_next();
    }
    start_quietly(samples, first, std::min(music_.swell_s, seconds_of(frames_)));
}

void write_music(const Music& music, const std::function<void(std::string_view)>& sink,
                 const Progress& progress) {
    check_function(sink, "what takes the sound");
    MusicSound sound(music);
    sink(wave_header(sound.frames()));
    std::array<float, 8192> block{};
    for (std::int64_t at = 0; at < sound.frames();) {
        const auto count = std::min<std::int64_t>(std::ssize(block), sound.frames() - at);
        const auto samples = std::span(block).first(static_cast<std::size_t>(count));
        sound.next(samples);
        sink(wave_samples(samples));
        at += count;
        if (progress)
            progress(static_cast<double>(at) / static_cast<double>(sound.frames()));
    }
    sink(wave_end(sound.frames()));
}

} // namespace sectio::sound
