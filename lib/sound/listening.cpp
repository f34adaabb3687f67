#include <sectio/base/limits.hpp>
#include <sectio/scale/note_spelling.hpp>
#include <sectio/sound/listening.hpp>
#include <sectio/sound/loudness.hpp>
#include <sectio/sound/messages.hpp>
#include <sectio/sound/tone.hpp>

#include <algorithm>
#include <cmath>
#include <span>

namespace sectio::sound {

namespace {

constexpr double lead_s = 1, gap_s = 0.3;

/// Nearer to its key than the sound is exact, 0.02 cents, a degree is that key.
bool is_its_key(const TunedDegree& degree) {
    static const Interval nothing = Interval::from_steps(1, 60'000);
    return absolute(degree.deviation) < nothing;
}

double checked_hertz(const Pitch& pitch) {
    const double hz = pitch.hertz_estimate();
    if (!(hz >= lowest_hz && hz <= highest_hz))
        throw error(message::sound_pitch_out_of_range, "", {}, pitch.hertz(1), lowest_hz,
                    highest_hz);
    return hz;
}

/// Puts notes one after the other.
class Writer {
  public:
    explicit Writer(const ListeningOptions& options) : options_(options) {}

    void add(const TunedDegree& degree, long number) {
        add_note(degree, number, false);
        if (options_.neighbours && !is_its_key(degree)) {
            add_note(degree, number, true);
            add_note(degree, number, false);
        }
        now_ += gap_s;
        if (now_ + tail_s > limits::sound_seconds)
            throw error(message::listening_too_long, "", {}, limits::sound_seconds);
    }

    Listening finished() {
        listening_.drones = options_.drones;
        listening_.swell_s = options_.swell_s;
        listening_.seconds = now_ + tail_s;
        return std::move(listening_);
    }

  private:
    void add_note(const TunedDegree& degree, long number, bool neighbour) {
        const Pitch pitch = neighbour ? degree.pitch - degree.deviation : degree.pitch;
        checked_hertz(pitch);
        listening_.notes.push_back(
            {now_, options_.note_seconds, pitch, number, degree.note, neighbour});
        now_ += options_.note_seconds;
    }

    const ListeningOptions& options_;
    double now_ = lead_s;
    Listening listening_;
};

std::size_t index_at(double seconds) {
    return static_cast<std::size_t>(std::lround(seconds * sample_rate));
}

/// Its times, and that its notes begin within it.
void check(const Listening& listening) {
    check_seconds(listening.seconds);
    check_seconds(listening.swell_s);
    if (listening.seconds > limits::sound_seconds + tail_s)
        throw error(message::listening_too_long, "", {}, limits::sound_seconds);
    for (const SoundedNote& note : listening.notes) {
        check_seconds(note.start_s);
        check_seconds(listening.seconds - note.start_s);
    }
}

void bring_to_peak(std::span<float> samples) {
    float most = 0;
    for (const float sample : samples)
        most = std::max(most, std::abs(sample));
    for (float& sample : samples)
        sample *= most > 0 ? static_cast<float>(peak) / most : 1;
}

} // namespace

Listening listen_to(const TunedScale& scale, const ListeningOptions& options) {
    check_seconds(options.swell_s);
    check_seconds(options.note_seconds);
    if (options.note_seconds == 0)
        throw error(message::sound_seconds, "", {}, options.note_seconds);
    for (const Pitch& drone : options.drones)
        checked_hertz(drone);
    Writer writer(options);
    for (std::size_t i = 0; i < scale.degrees().size(); ++i)
        writer.add(scale.degrees()[i], scale.number(i));
    if (scale.closing())
        writer.add(*scale.closing(), static_cast<long>(scale.degrees().size()) + 1);
    return writer.finished();
}

TunedScale transposed(const TunedScale& scale, const Interval& by) {
    return {scale.scale(), {scale.tonic().pitch + by, scale.a4()}, scale.a4()};
}

std::vector<float> samples_of(const Listening& listening) {
    check(listening);
    std::vector<float> samples(index_at(listening.seconds));
    for (const SoundedNote& note : listening.notes)
        add_plucked(std::span(samples).subspan(index_at(note.start_s)),
                    {checked_hertz(note.pitch), note.seconds, string_level});
    for (const Pitch& drone : listening.drones)
        add_drone(samples, {checked_hertz(drone), listening.seconds,
                            level_of_each(listening.drones.size())});
    start_quietly(samples, 0, std::min(listening.swell_s, listening.seconds));
    bring_to_peak(samples);
    return samples;
}

} // namespace sectio::sound
