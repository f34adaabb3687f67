#include <sectio/tuning/channel_renderer.hpp>

#include <algorithm>

namespace sectio::tuning {

std::vector<int> pitched_channels() {
    constexpr int percussion = 9;
    std::vector<int> numbers;
    for (int number = 0; number < 16; ++number)
        if (number != percussion)
            numbers.push_back(number);
    return numbers;
}

midi::Event on_channel(midi::Event event, int channel) {
    event.status = static_cast<std::uint8_t>(event.kind() | channel);
    return event;
}

int bend_value(const midi::Event& event) {
    return event.byte(0) | event.byte(1) << 7;
}

int own_reach(const Performance& music) {
    int cents = 0;
    for (const PlayedMessage& message : music.messages)
        if (message.event.kind() == midi::status::pitch_bend && bend_value(message.event) != 8192)
            cents = std::max(cents, message.bend_range);
    return (cents + 99) / 100;
}

ChannelRenderer::ChannelRenderer(const Performance& music, const std::vector<int>& numbers)
    : music_(music), own_reach_(std::max(own_reach(music), 1)), voices_(music.instruments.size()),
      places_(music.notes.size()) {
    for (const int number : numbers)
        channels_.emplace_back().number = number;
    events_.reserve(3 * music.notes.size() + music.messages.size()); // a beginning, an end, a bend
}

Performed ChannelRenderer::run() {
    play(music_, *this);
    set_up();
    count_channels();
    midi::Track track;
    events_.insert(events_.begin(), std::make_move_iterator(setup_.begin()),
                   std::make_move_iterator(setup_.end()));
    track.events = std::move(events_);
    track.end = music_.end;
    if (!track.events.empty())
        track.end = std::max(track.end, track.events.back().time);
    out_.file.time_base = music_.time_base;
    out_.file.tracks = music_.words;
    out_.file.tracks.push_back(std::move(track));
    return std::move(out_);
}

void ChannelRenderer::count_channels() {
    for (const OutputChannel& channel : channels_)
        out_.channels += channel.used() ? 1 : 0;
    out_.channels += percussion_sounds_ ? 1 : 0;
}

void ChannelRenderer::begin(std::size_t index) {
    const PlayedNote& note = music_.notes[index];
    if (is_percussion(note)) {
        events_.push_back(midi::note_on(note.begin, percussion_channel, note.key, note.velocity));
        percussion_sounds_ = true;
        ++out_.notes;
        return;
    }
    const Place place = placed(note);
    if (place.channel == nullptr)
        return;
    events_.push_back(midi::note_on(note.begin, place.channel->number, place.key, note.velocity));
    place.channel->keys.set(static_cast<std::size_t>(place.key));
    ++place.channel->sounding;
    places_[index] = place;
    active_.push_back(index);
    ++out_.notes;
}

void ChannelRenderer::end(std::size_t index) {
    const PlayedNote& note = music_.notes[index];
    if (is_percussion(note)) {
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
    if (voices_[note.instrument].state.pedal_down())
        channel->held.set(static_cast<std::size_t>(key));
    active_.erase(std::find(active_.begin(), active_.end(), index));
}

void ChannelRenderer::take_over(OutputChannel& channel, std::uint16_t instrument, midi::Ticks time,
                                bool state) {
    const Voice& voice = voices_[instrument];
    if (state && (channel.owner != instrument || channel.version != voice.version))
        channel.state.become(voice.state, time, channel.number, events_);
    if (channel.owner != instrument)
        channel.held.reset();
    channel.owner = instrument;
    channel.version = voice.version;
}

void ChannelRenderer::set_bend(OutputChannel& channel, int bend, midi::Ticks time) {
    if (channel.bend == bend)
        return;
    events_.push_back(midi::pitch_bend(time, channel.number, bend));
    channel.bend = bend;
}

void ChannelRenderer::set_range(int channel, int semitones) {
    for (const auto& [controller, value] :
         {std::pair{101, 0}, {100, 0}, {6, semitones}, {38, 0}, {101, 127}, {100, 127}})
        setup_.push_back(midi::control(0, channel, controller, value));
}

void ChannelRenderer::leave_out(const PlayedNote& note) {
    const bool heard =
        std::any_of(channels_.begin(), channels_.end(), [&](const OutputChannel& channel) {
            return channel.owner == note.instrument && !channel.idle();
        });
    ++out_.left_out[heard ? "notes that sound on every channel already"
                          : "notes for which other instruments leave no channel"];
}

void ChannelRenderer::count_error(const Interval& error) {
    out_.worst_error = std::max(out_.worst_error, absolute(error));
}

int ChannelRenderer::scaled_bend(const PlayedMessage& message) {
    Voice& voice = voices_[message.instrument];
    voice.bend_error = {};
    if (message.bend_range == 100 * own_reach_)
        return bend_value(message.event);
    const Rational step(100 * own_reach_, middle); // cents
    const Rational wanted(Integer(bend_value(message.event) - middle) * Integer(message.bend_range),
                          Integer(middle));
    const int nearest = floor(wanted / step + Rational(1, 2)).convert_to<int>();
    const int off = std::clamp(nearest, -middle, middle - 1);
    voice.bend_error = Interval::from_cents(Rational(off) * step - wanted);
    if (!voice.bend_error.is_unison())
        for (const std::size_t note : active_)
            if (music_.notes[note].instrument == message.instrument)
                count_error(unbent_error(music_.notes[note]) + voice.bend_error);
    return middle + off;
}

void ChannelRenderer::say(const PlayedMessage& message) {
    Voice& voice = voices_[message.instrument];
    if (music_.instruments[message.instrument].percussion) {
        events_.push_back(on_channel(message.event, percussion_channel));
        return;
    }
    if (message.event.kind() == midi::status::pitch_bend)
        return bend_voice(message);
    if (message.event.kind() == midi::status::key_pressure)
        return press_key(message);
    const bool pedal_was_down = voice.state.pedal_down();
    voice.version += voice.state.take(message.event) ? 1 : 0;
    pass_on(message);
    if (pedal_was_down && !voice.state.pedal_down())
        lift_pedal(message.instrument, message.event.time);
}

void ChannelRenderer::pass_on(const PlayedMessage& message) {
    const Voice& voice = voices_[message.instrument];
    for (OutputChannel& channel : channels_) {
        if (channel.owner != message.instrument || channel.idle())
            continue;
        if (channel.version == voice.version) // a message that leaves no state
            events_.push_back(on_channel(message.event, channel.number));
        channel.state.become(voice.state, message.event.time, channel.number, events_);
        channel.version = voice.version;
    }
}

void ChannelRenderer::lift_pedal(std::uint16_t instrument, midi::Ticks time) {
    for (OutputChannel& channel : channels_)
        if (channel.owner == instrument && channel.held.any()) {
            channel.held.reset();
            channel.released = time;
        }
}

void ChannelRenderer::press_key(const PlayedMessage& message) {
    for (const std::size_t index : active_) {
        const PlayedNote& note = music_.notes[index];
        if (note.instrument != message.instrument || note.key != message.event.byte(0))
            continue;
        midi::Event event = on_channel(message.event, places_[index].channel->number);
        event.data[0] = static_cast<char>(places_[index].key);
        events_.push_back(event);
    }
}

} // namespace sectio::tuning
