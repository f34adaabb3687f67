// A MIDI file as music that sounds in a tuning.

#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/performance.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <algorithm>
#include <array>
#include <deque>

namespace sectio::tuning {

namespace {

constexpr int channels = 16, keys = 128, percussion_channel = 9;

/// Controllers with a meaning of their own. Source: MIDI 1.0 Detailed Specification, table III.
namespace controller {
constexpr int data = 6, data_fine = 38, data_up = 96, data_down = 97, other_fine = 98, other = 99,
              parameter_fine = 100, parameter = 101, local = 122, omni_off = 124;
} // namespace controller

score::WrittenPitch written(const NoteInOctave& note) {
    return {note.name.letter,
            {Rational(note.name.quarter_tones, 2), score::AlterationUnit::semitone},
            note.octave};
}

/// What the tuning makes of the keys that a file plays.
class KeyPitches {
  public:
    KeyPitches(const score::NoteTuning& tuning, const std::array<bool, keys>& played) {
        std::vector<int> wanted;
        std::vector<score::WrittenPitch> usual;
        for (int key = 0; key < keys; ++key)
            if (played[static_cast<std::size_t>(key)]) {
                wanted.push_back(key);
                usual.push_back(written(usual_note(key)));
            }
        const std::vector<score::Outcome> outcomes = tuning.tune(usual);
        for (std::size_t i = 0; i < wanted.size(); ++i) {
            const bool lacks = std::holds_alternative<score::Lacking>(outcomes[i]);
            outcomes_[static_cast<std::size_t>(wanted[i])] =
                lacks ? respelled(tuning, wanted[i], outcomes[i]) : outcomes[i];
        }
    }

    const score::Outcome& of(std::size_t key) const { return outcomes_[key]; }

  private:
    /// The key by another of its names, if the tuning has one of them.
    static score::Outcome respelled(const score::NoteTuning& tuning, int key,
                                    const score::Outcome& usual) {
        for (const char letter : std::string_view("CDEFGAB"))
            if (const auto note = note_with_letter(key, letter)) {
                score::Outcome outcome = tuning.tune(std::vector{written(*note)}).at(0);
                if (std::holds_alternative<Interval>(outcome))
                    return outcome;
            }
        return usual;
    }

    std::array<score::Outcome, keys> outcomes_;
};

class MidiPerformer {
  public:
    MidiPerformer(const midi::File& file, const score::NoteTuning& tuning, const Pitch& a4)
        : file_(file), tuning_(tuning), a4_(a4) {
        if (file.format == 2)
            throw error(message::perform_pieces, "", {});
        out_.time_base = file.time_base;
        out_.cure = tuning.cure();
        for (int channel = 0; channel < channels; ++channel) {
            out_.instruments.push_back(
                {"channel " + std::to_string(channel + 1), channel, channel == percussion_channel});
            out_.names.parts.push_back(out_.instruments.back().name);
        }
    }

    Performance run() {
        split();
        for (const midi::Event* event : events_)
            take(*event);
        for (auto& open : open_)
            for (const std::size_t note : open)
                out_.notes[note].end = out_.end;
        set_pitches();
        return std::move(out_);
    }

  private:
    /// Channel events of all tracks in one row; the rest stays in its track, but for what tunes.
    void split() {
        for (const midi::Track& track : file_.tracks) {
            midi::Track words{{}, track.end};
            for (const midi::Event& event : track.events)
                if (event.is_channel())
                    events_.push_back(&event);
                else if (event.status == midi::status::system_exclusive
                         && carries_tuning(begin_exclusive + event.data))
                    ++out_.left_out["messages that tune"];
                else
                    words.events.push_back(event);
            out_.words.push_back(std::move(words));
            out_.end = std::max(out_.end, track.end);
        }
        std::stable_sort(
            events_.begin(), events_.end(),
            [](const midi::Event* a, const midi::Event* b) { return a->time < b->time; });
    }

    std::deque<std::size_t>& open(const midi::Event& event) {
        return open_[static_cast<std::size_t>(event.channel() * keys + event.byte(0))];
    }

    void take(const midi::Event& event) {
        if (event.begins_note())
            begin(event);
        else if (event.ends_note())
            end(event);
        else if (event.kind() == midi::status::control)
            control(event);
        else
            keep(event);
    }

    void begin(const midi::Event& event) {
        open(event).push_back(out_.notes.size());
        PlayedNote note;
        note.begin = note.end = event.time;
        note.instrument = static_cast<std::uint16_t>(event.channel());
        note.key = static_cast<std::uint8_t>(event.byte(0));
        note.velocity = static_cast<std::uint8_t>(event.byte(1));
        out_.notes.push_back(note);
        out_.begun_bent += bent_[note.instrument] && note.instrument != percussion_channel ? 1 : 0;
    }

    /// Of several notes of one key the first ends first.
    void end(const midi::Event& event) {
        std::deque<std::size_t>& notes = open(event);
        if (notes.empty())
            return;
        PlayedNote& note = out_.notes[notes.front()];
        notes.pop_front();
        note.end = event.time;
        if (event.kind() == midi::status::note_off)
            note.release = static_cast<std::uint8_t>(event.byte(1));
    }

    void keep(const midi::Event& event) {
        const auto channel = static_cast<std::size_t>(event.channel());
        if (event.kind() == midi::status::pitch_bend)
            bent_[channel] = event.byte(0) != 0 || event.byte(1) != 0x40;
        out_.messages.push_back(
            {static_cast<std::uint16_t>(channel), event, parameters_[channel].bend_range});
    }

    /// Parameters that tune are taken from here and not passed on, for the tuning is ours now.
    void control(const midi::Event& event) {
        Parameters& now = parameters_[static_cast<std::size_t>(event.channel())];
        const int value = event.byte(1);
        switch (event.byte(0)) {
        case controller::parameter:
            now.registered = true;
            now.number = (now.number & 0x7F) | value << 7;
            break;
        case controller::parameter_fine:
            now.registered = true;
            now.number = (now.number & ~0x7F) | value;
            break;
        case controller::other:
        case controller::other_fine:
            now.registered = false;
            ++out_.left_out["parameters that are not registered"];
            break;
        case controller::data:
            set_parameter(now, value * 100);
            break;
        case controller::data_fine:
            if (now.registered && now.number == 0)
                now.bend_range = now.bend_range / 100 * 100 + std::min(value, 99);
            break;
        case controller::data_up:
        case controller::data_down:
        case controller::local:
            ++out_.left_out["controllers without meaning here"];
            break;
        default:
            if (event.byte(0) >= controller::omni_off)
                ++out_.left_out["channel modes"];
            else
                keep(event);
        }
    }

    struct Parameters {
        bool registered = false;
        int number = 0x3FFF; ///< none
        int bend_range = 200;
    };

    void set_parameter(Parameters& now, int cents) {
        if (now.registered && now.number == 0)
            now.bend_range = cents;
        else if (now.registered && now.number != 0x3FFF)
            ++out_.left_out["registered parameters"];
    }

    /// Pitches of all keys that are played; percussion has its keys alone.
    void set_pitches() {
        std::array<bool, keys> played{};
        for (const PlayedNote& note : out_.notes)
            if (note.instrument != percussion_channel)
                played[note.key] = true;
        const KeyPitches pitches(tuning_, played);
        for (std::size_t key = 0; key < keys; ++key) {
            const Pitch plain = pitch_of_key(static_cast<int>(key), a4_);
            const auto* deviation = std::get_if<Interval>(&pitches.of(key));
            out_.pitches.push_back(deviation != nullptr ? plain + *deviation : plain);
        }
        for (PlayedNote& note : out_.notes) {
            note.pitch = note.key;
            if (note.instrument != percussion_channel)
                count_unmatched(note, pitches.of(note.key));
        }
    }

    void count_unmatched(const PlayedNote& note, const score::Outcome& outcome) {
        const auto* lacking = std::get_if<score::Lacking>(&outcome);
        if (lacking == nullptr)
            return;
        score::UnmatchedNames& names = out_.names;
        const auto [place, added] =
            unmatched_keys_.try_emplace(note.key, static_cast<std::uint32_t>(names.pitches.size()));
        if (added) {
            names.pitches.push_back(usual_note(note.key).text());
            names.reasons.push_back(lacking->reason);
        }
        const auto beat = static_cast<std::uint32_t>(note.begin / file_.time_base.ticks);
        const auto [measure, is_new] =
            beats_.try_emplace(beat, static_cast<std::uint32_t>(names.measures.size()));
        if (is_new)
            names.measures.push_back("at beat " + std::to_string(beat + 1));
        out_.unmatched.push_back({note.instrument, measure->second, place->second, place->second});
    }

    const midi::File& file_;
    const score::NoteTuning& tuning_;
    Pitch a4_;
    Performance out_;
    std::vector<const midi::Event*> events_;
    std::array<std::deque<std::size_t>, channels * keys> open_;
    std::array<Parameters, channels> parameters_;
    std::array<bool, channels> bent_{}; ///< off the middle
    std::map<int, std::uint32_t> unmatched_keys_;
    std::map<std::uint32_t, std::uint32_t> beats_;
};

} // namespace

Performance performance_of(const midi::File& file, const score::NoteTuning& tuning,
                           const Pitch& a4) {
    return MidiPerformer(file, tuning, a4).run();
}

void transpose(Performance& performance, const Interval& by) {
    for (Pitch& pitch : performance.pitches)
        pitch = pitch + by;
}

} // namespace sectio::tuning
