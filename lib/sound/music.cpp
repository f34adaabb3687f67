#include <sectio/base/limits.hpp>
#include <sectio/sound/loudness.hpp>
#include <sectio/sound/messages.hpp>
#include <sectio/sound/music.hpp>
#include <sectio/sound/tone.hpp>
#include <sectio/tuning/channel_state.hpp>
#include <sectio/tuning/play.hpp>

#include <algorithm>

namespace sectio::sound {

namespace {

using tuning::Performance;
using tuning::PlayedMessage;
using tuning::PlayedNote;

bool can_sound(const Pitch& pitch) {
    const double hz = pitch.hertz_estimate();
    return hz >= lowest_hz && hz <= highest_hz;
}

Interval cents_of_bend(std::int32_t bend) {
    return Interval::from_cents(Rational(bend, 8192));
}

/// Goes through the performance and keeps what strings can do.
class Strings : public tuning::Renderer {
  public:
    Strings(const Performance& performance, Music& music)
        : performance_(performance), music_(music), states_(performance.instruments.size()),
          bends_(performance.instruments.size()), held_(performance.instruments.size()),
          place_(performance.notes.size(), none) {
        for (const Pitch& pitch : music.pitches)
            sounds_.push_back(can_sound(pitch));
    }

    void begin(std::size_t index) override {
        const PlayedNote& note = performance_.notes[index];
        if (const char* reason = refusal(note)) {
            ++music_.left_out[reason];
            return;
        }
        const double strength = note.velocity / 127.0;
        place_[index] = music_.notes.size();
        music_.notes.push_back({note.begin, note.end, note.pitch, bends_[note.instrument],
                                note.instrument, strength * strength});
    }

    void end(std::size_t index) override {
        const std::uint16_t instrument = performance_.notes[index].instrument;
        if (place_[index] != none && states_[instrument].pedal_down())
            held_[instrument].push_back(place_[index]);
    }

    void say(const PlayedMessage& message) override {
        if (performance_.instruments[message.instrument].percussion)
            return;
        switch (message.event.kind()) {
        case midi::status::pitch_bend:
            return bend(message);
        case midi::status::control:
            return control(message);
        case midi::status::program: // all is strings here
            return;
        default:
            ++music_.left_out["messages of pressure"];
        }
    }

    /// A pedal that stays down holds its notes to the end.
    void finish() {
        for (auto& held : held_)
            lift(held, performance_.end);
    }

  private:
    static constexpr std::size_t none = std::size_t(-1);

    const char* refusal(const PlayedNote& note) const {
        if (performance_.instruments[note.instrument].percussion)
            return "percussion";
        if (note.begin == note.end && !states_[note.instrument].pedal_down())
            return "notes of no length";
        const std::int32_t bend = bends_[note.instrument];
        const bool sounds = bend == 0 ? sounds_[note.pitch]
                                      : can_sound(music_.pitches[note.pitch] + cents_of_bend(bend));
        return sounds ? nullptr : "notes too low or too high for a string";
    }

    void bend(const PlayedMessage& message) {
        constexpr std::int32_t middle = 8192;
        const std::int32_t value = message.event.byte(0) | message.event.byte(1) << 7;
        std::int32_t& now = bends_[message.instrument];
        now = (value - middle) * message.bend_range;
        music_.bends.push_back({message.event.time, now, message.instrument, music_.notes.size()});
    }

    void control(const PlayedMessage& message) {
        constexpr int pedal = 64;
        tuning::ChannelState& state = states_[message.instrument];
        const bool was_down = state.pedal_down();
        state.take(message.event);
        if (was_down && !state.pedal_down())
            lift(held_[message.instrument], message.event.time);
        if (message.event.byte(0) != pedal)
            ++music_.left_out["controllers other than the damper pedal"];
    }

    void lift(std::vector<std::size_t>& held, midi::Ticks time) {
        for (const std::size_t note : held)
            music_.notes[note].end = time;
        held.clear();
    }

    const Performance& performance_;
    Music& music_;
    std::vector<tuning::ChannelState> states_;   ///< of each instrument, and so the next two
    std::vector<std::int32_t> bends_;            ///< 8192ths of a cent
    std::vector<std::vector<std::size_t>> held_; ///< notes that the pedal holds
    std::vector<std::size_t> place_;             ///< of each performed note among the strings
    std::vector<bool> sounds_;                   ///< of each pitch
};

void check_drone(const Pitch& drone) {
    if (!can_sound(drone))
        throw error(message::sound_pitch_out_of_range, "", {}, drone.hertz(1), lowest_hz,
                    highest_hz);
}

midi::TempoMap times_of(const Performance& performance) {
    return midi::TempoMap({1, performance.time_base, performance.words, {}});
}

/// The number in `text`, which is without its sign of percent.
Rational tempo_number(std::string_view number, const std::string& text, const Place& place) {
    constexpr std::size_t most_digits = 12;
    const bool is_number = !number.empty() && number.size() <= most_digits
                           && number.find_first_not_of("0123456789.") == number.npos
                           && number.find('.') == number.rfind('.') && number.front() != '.'
                           && number.back() != '.';
    if (!is_number)
        throw error(message::tempo_unreadable, text, place);
    return parse_decimal(number);
}

void check_tempo(const Rational& tempo, const std::string& text, const Place& place) {
    if (tempo < Rational(1, 10) || tempo > Rational(10))
        throw error(message::tempo_unreadable, text, place);
}

/// Nearest whole number to `value` >= 0; half way, the greater one.
std::int64_t nearest(const Rational& value) {
    return static_cast<std::int64_t>(floor(value + Rational(1, 2)));
}

} // namespace

Pitch Music::pitch_of(const MusicNote& note) const {
    return note.bend == 0 ? pitches[note.pitch] : pitches[note.pitch] + cents_of_bend(note.bend);
}

Rational Music::seconds() const {
    midi::Ticks end = 0;
    for (const MusicNote& note : notes)
        end = std::max(end, note.end);
    return seconds_at(end) + Rational(Integer(std::llround(tail_s * 1000)), 1000);
}

std::int64_t Music::frame(midi::Ticks time) const {
    return nearest(seconds_at(time) * Integer(sample_rate));
}

std::int64_t Music::frames() const {
    return nearest(seconds() * Integer(sample_rate));
}

Rational parse_tempo(const std::string& text, const Performance& performance, const Place& place) {
    const bool is_part = text.ends_with('%');
    Rational tempo = tempo_number({text.data(), text.size() - (is_part ? 1 : 0)}, text, place);
    if (is_part)
        tempo /= 100;
    else if (performance.time_base.frames != 0)
        throw error(message::tempo_without_quarters, text, place);
    else
        tempo *= times_of(performance).seconds(1) * performance.time_base.ticks / 60;
    check_tempo(tempo, text, place);
    return tempo;
}

Music music_of(const Performance& performance, const std::vector<Pitch>& drones,
               const Rational& tempo) {
    for (const Pitch& drone : drones)
        check_drone(drone);
    check(performance);
    check_tempo(tempo, "", {});
    Music music{times_of(performance), {},   {}, performance.pitches, drones, performance.left_out,
                usual_swell_s,         tempo};
    Strings strings(performance, music);
    play(performance, strings);
    strings.finish();
    if (music.notes.empty())
        throw error(message::music_without_notes, "", {}, lowest_hz, highest_hz);
    if (const Rational seconds = music.seconds(); seconds > Rational(limits::music_seconds))
        throw error(message::music_too_long, "", {}, decimal(seconds, 0), limits::music_seconds);
    return music;
}

} // namespace sectio::sound
