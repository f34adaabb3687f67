#include <sectio/tuning/bend_player.hpp>
#include <sectio/tuning/messages.hpp>

#include <algorithm>

namespace sectio::tuning {

namespace {

constexpr int manager = 0, percussion_channel = 9, middle = 8192, key_count = 128;

/// A channel message as it is, on another channel.
midi::Event on_channel(midi::Event event, int channel) {
    event.status = static_cast<std::uint8_t>(event.kind() | channel);
    return event;
}

bool bends(const PlayedMessage& message) {
    return message.event.kind() == midi::status::pitch_bend;
}

int bend_value(const midi::Event& event) {
    return event.byte(0) | event.byte(1) << 7;
}

bool percussion_plays(const Performance& music) {
    return std::any_of(music.notes.begin(), music.notes.end(), [&](const PlayedNote& note) {
        return music.instruments[note.instrument].percussion;
    });
}

/// Semitones that the music's own bends reach, 0 where it has none.
int own_reach(const Performance& music) {
    int cents = 0;
    for (const PlayedMessage& message : music.messages)
        if (bends(message) && bend_value(message.event) != middle)
            cents = std::max(cents, message.bend_range);
    return (cents + 99) / 100;
}

} // namespace

BendPlayer::BendPlayer(const Performance& music, const PerformOptions& options)
    : music_(music), zone_(options.channels == ChannelUse::zone),
      pool_(options.channels, channel_numbers()), voices_(music.instruments.size()),
      places_(music.notes.size()), channel_pitch_(16), bent_(music.pitches.size()) {
    constexpr int usual = 2, most = 96; // semitones; the most that a parameter of MPE says
    const int own = own_reach(music);
    own_reach_ = std::max(own, 1);
    const int wanted = zone_ || own == 0 ? usual : std::min(own + 1, most);
    range_ = options.bend_range.value_or(wanted);
    if (range_ < 1 || range_ > most)
        throw error(message::perform_bend_range, "", {}, range_);
}

/// All but channel 10; in a zone the members, which stand below it where percussion sounds.
std::vector<int> BendPlayer::channel_numbers() const {
    std::vector<int> numbers;
    const bool percussion = percussion_plays(music_);
    for (int number = zone_ ? manager + 1 : 0; number < 16; ++number) {
        if (zone_ && percussion && number == percussion_channel)
            break;
        if (zone_ || number != percussion_channel)
            numbers.push_back(number);
    }
    return numbers;
}

Performed BendPlayer::run() {
    std::vector<bool> plays(music_.instruments.size());
    for (const PlayedNote& note : music_.notes)
        plays[note.instrument] = !music_.instruments[note.instrument].percussion;
    if (const auto count = std::count(plays.begin(), plays.end(), true); zone_ && count > 1)
        throw error(message::perform_zone_instruments, "", {}, count);
    play(music_, *this);
    set_up();
    midi::Track track;
    track.events = std::move(setup_);
    track.events.insert(track.events.end(), std::make_move_iterator(events_.begin()),
                        std::make_move_iterator(events_.end()));
    track.end = music_.end;
    if (!track.events.empty())
        track.end = std::max(track.end, track.events.back().time);
    out_.file.time_base = music_.time_base;
    out_.file.tracks = music_.words;
    out_.file.tracks.push_back(std::move(track));
    return std::move(out_);
}

const BentKey& BendPlayer::bent_key(std::uint32_t pitch, std::int64_t bent) {
    const auto [place, added] = bent_[pitch].try_emplace(bent);
    if (!added)
        return place->second;
    BentKey& made = place->second;
    const KeyedPitch keyed = nearest_key(music_.pitches[pitch]);
    const Interval wanted = keyed.deviation + Interval::from_cents(Rational(bent, middle));
    const Integer nearest = whole_periods(wanted + unit() * Rational(1, 2), unit());
    const int steps = static_cast<int>(
        std::clamp<Integer>(nearest, Integer(-middle), Integer(middle - 1)).convert_to<int>());
    made = {keyed.key, middle + steps, Integer(steps) * unit() - wanted};
    return made;
}

void BendPlayer::count_error(const Interval& error) {
    out_.worst_error = std::max(out_.worst_error, absolute(error));
}

void BendPlayer::begin(std::size_t index) {
    const PlayedNote& note = music_.notes[index];
    if (music_.instruments[note.instrument].percussion) {
        events_.push_back(midi::note_on(note.begin, percussion_channel, note.key, note.velocity));
        percussion_sounds_ = true;
        ++out_.notes;
        return;
    }
    const BentKey& bent = bent_key(note.pitch, zone_ ? 0 : voices_[note.instrument].bent);
    if (bent.key < 0 || bent.key >= key_count) {
        ++out_.left_out["notes beyond the keys of MIDI"];
        return;
    }
    if (OutputChannel* channel = placed(note, bent))
        sound(index, *channel, bent);
    else
        ++out_.left_out["notes that sound on every channel already"];
}

/// The channel for the note, with the instrument and the bend that it needs.
OutputChannel* BendPlayer::placed(const PlayedNote& note, const BentKey& bent) {
    const auto [channel, crowded] = pool_.choose(note.instrument, bent.bend, bent.key);
    if (channel == nullptr)
        return nullptr;
    const bool taken = crowded && channel->sounding > 0;
    if (!taken) {
        take_over(*channel, note.instrument, note.begin);
        set_bend(*channel, bent.bend, note.begin);
        count_error(bent.error);
    }
    if (crowded) {
        const Interval error = taken ? error_at(*channel, note, bent.key) : bent.error;
        count_error(error);
        out_.crowded.push_back({note.instrument, note.begin, bent.key, error});
    }
    return channel;
}

Interval BendPlayer::error_at(OutputChannel& channel, const PlayedNote& note, int key) const {
    return pitch_of_key(key) + Integer(*channel.bend - middle) * unit()
           - music_.pitches[note.pitch];
}

void BendPlayer::sound(std::size_t index, OutputChannel& channel, const BentKey& bent) {
    const PlayedNote& note = music_.notes[index];
    events_.push_back(midi::note_on(note.begin, channel.number, bent.key, note.velocity));
    channel.keys.set(static_cast<std::size_t>(bent.key));
    ++channel.sounding;
    channel_pitch_[static_cast<std::size_t>(channel.number)] = note.pitch;
    places_[index] = {&channel, bent.key};
    active_.push_back(index);
    ++out_.notes;
}

void BendPlayer::end(std::size_t index) {
    const PlayedNote& note = music_.notes[index];
    if (music_.instruments[note.instrument].percussion) {
        events_.push_back(midi::note_off(note.end, percussion_channel, note.key, note.release));
        return;
    }
    const auto [channel, key] = places_[index];
    if (channel == nullptr)
        return;
    events_.push_back(midi::note_off(note.end, channel->number, key, note.release));
    channel->keys.reset(static_cast<std::size_t>(key));
    --channel->sounding;
    channel->released = note.end;
    channel->held = channel->held || voices_[note.instrument].state.pedal_down();
    active_.erase(std::find(active_.begin(), active_.end(), index));
}

void BendPlayer::take_over(OutputChannel& channel, std::uint16_t instrument, midi::Ticks time) {
    const Voice& voice = voices_[instrument];
    if (channel.owner != instrument || channel.version != voice.version)
        if (!zone_) // a zone's controllers go to its manager
            channel.state.become(voice.state, time, channel.number, events_);
    channel.owner = instrument;
    channel.version = voice.version;
    channel.held = false;
}

void BendPlayer::set_bend(OutputChannel& channel, int bend, midi::Ticks time) {
    if (channel.bend == bend)
        return;
    events_.push_back(midi::pitch_bend(time, channel.number, bend));
    channel.bend = bend;
}

void BendPlayer::say(const PlayedMessage& message) {
    Voice& voice = voices_[message.instrument];
    if (music_.instruments[message.instrument].percussion) {
        events_.push_back(on_channel(message.event, percussion_channel));
        return;
    }
    if (bends(message))
        return bend_voice(message);
    if (message.event.kind() == midi::status::key_pressure)
        return press_key(message);
    const bool pedal_was_down = voice.state.pedal_down();
    voice.version += voice.state.take(message.event) ? 1 : 0;
    pass_on(message);
    if (pedal_was_down && !voice.state.pedal_down())
        pedal(message.instrument, message.event.time);
}

/// To the manager of the zone, or to the channels on which the instrument is heard; others get it
/// with their next note.
void BendPlayer::pass_on(const PlayedMessage& message) {
    if (zone_) {
        events_.push_back(on_channel(message.event, manager));
        return;
    }
    const Voice& voice = voices_[message.instrument];
    for (OutputChannel& channel : pool_.channels()) {
        if (channel.owner != message.instrument || channel.idle())
            continue;
        if (channel.version == voice.version) // a message that leaves no state
            events_.push_back(on_channel(message.event, channel.number));
        channel.state.become(voice.state, message.event.time, channel.number, events_);
        channel.version = voice.version;
    }
}

void BendPlayer::pedal(std::uint16_t instrument, midi::Ticks time) {
    for (OutputChannel& channel : pool_.channels())
        if (channel.owner == instrument && channel.held) {
            channel.held = false;
            channel.released = time;
        }
}

void BendPlayer::bend_voice(const PlayedMessage& message) {
    const int value = bend_value(message.event);
    if (zone_) {
        const int reach = 100 * own_reach_;
        const int scaled = middle + (value - middle) * message.bend_range / reach;
        events_.push_back(
            midi::pitch_bend(message.event.time, manager, std::clamp(scaled, 0, 2 * middle - 1)));
        return;
    }
    Voice& voice = voices_[message.instrument];
    voice.bent = std::int64_t{value - middle} * message.bend_range;
    for (OutputChannel& channel : pool_.channels())
        if (channel.owner == message.instrument && !channel.idle()) {
            const auto pitch = channel_pitch_[static_cast<std::size_t>(channel.number)];
            set_bend(channel, bent_key(pitch, voice.bent).bend, message.event.time);
        }
}

void BendPlayer::press_key(const PlayedMessage& message) {
    for (const std::size_t index : active_) {
        const PlayedNote& note = music_.notes[index];
        if (note.instrument != message.instrument || note.key != message.event.byte(0))
            continue;
        midi::Event event = on_channel(message.event, places_[index].channel->number);
        event.data[0] = static_cast<char>(places_[index].key);
        events_.push_back(event);
    }
}

void BendPlayer::set_range(int channel, int semitones) {
    for (const auto& [controller, value] :
         {std::pair{101, 0}, {100, 0}, {6, semitones}, {38, 0}, {101, 127}, {100, 127}})
        setup_.push_back(midi::control(0, channel, controller, value));
}

/// What receivers are told before all else: the zone (registered parameter 6), and how far a bend
/// goes (parameter 0).
void BendPlayer::set_up() {
    if (zone_) {
        const auto members = static_cast<int>(pool_.channels().size());
        for (const auto& [controller, value] :
             {std::pair{101, 0}, {100, 6}, {6, members}, {101, 127}, {100, 127}})
            setup_.push_back(midi::control(0, manager, controller, value));
        set_range(manager, own_reach_);
    }
    for (const OutputChannel& channel : pool_.channels())
        if (zone_ || channel.used())
            set_range(channel.number, range_);
    for (const OutputChannel& channel : pool_.channels())
        out_.channels += channel.used() ? 1 : 0;
    out_.channels += percussion_sounds_ ? 1 : 0;
}

} // namespace sectio::tuning
