#include <sectio/tuning/bend_renderer.hpp>
#include <sectio/tuning/key_table.hpp>
#include <sectio/tuning/messages.hpp>

#include <algorithm>

namespace sectio::tuning {

namespace {

constexpr int manager = 0, percussion = 9;

bool percussion_plays(const Performance& music) {
    return std::any_of(music.notes.begin(), music.notes.end(), [&](const PlayedNote& note) {
        return music.instruments[note.instrument].percussion;
    });
}

/// In a zone the members, which stand below channel 10 where percussion sounds.
std::vector<int> channel_numbers(const Performance& music, bool zone) {
    if (!zone)
        return pitched_channels();
    std::vector<int> numbers;
    const int after = percussion_plays(music) ? percussion : 16;
    for (int number = manager + 1; number < after; ++number)
        numbers.push_back(number);
    return numbers;
}

void check_one_instrument(const Performance& music) {
    std::vector<bool> plays(music.instruments.size());
    for (const PlayedNote& note : music.notes)
        plays[note.instrument] = !music.instruments[note.instrument].percussion;
    if (const auto count = std::count(plays.begin(), plays.end(), true); count > 1)
        throw error(message::perform_zone_instruments, "", {}, count);
}

} // namespace

BendRenderer::BendRenderer(const Performance& music, const PerformOptions& options)
    : ChannelRenderer(music, channel_numbers(music, options.channels == ChannelUse::zone)),
      zone_(options.channels == ChannelUse::zone), pool_(options.channels, channels_),
      channel_pitch_(16), bent_(music.pitches.size()) {
    constexpr int usual = 2, most = 96; // semitones; the most that a parameter of MPE says
    const int own = own_reach(music);
    const int wanted = zone_ || own == 0 ? usual : std::min(own + 1, most);
    range_ = options.bend_range.value_or(wanted);
    if (range_ < 1 || range_ > most)
        throw error(message::perform_bend_range, "", {}, range_);
    if (zone_)
        check_one_instrument(music);
}

BentKey& BendRenderer::bent_key(std::uint32_t pitch, std::int64_t bent) {
    const auto [place, added] = bent_[pitch].try_emplace(bent);
    if (!added)
        return place->second;
    BentKey& made = place->second;
    const KeyedPitch keyed = nearest_key(music_.pitches[pitch]);
    const Interval wanted = keyed.deviation + Interval::from_cents(Rational(bent, middle));
    const Integer nearest = whole_periods(wanted + unit() * Rational(1, 2), unit());
    const int steps = static_cast<int>(
        std::clamp<Integer>(nearest, Integer(-middle), Integer(middle - 1)).convert_to<int>());
    made = {keyed.key, middle + steps, Integer(steps) * unit() - wanted, false};
    return made;
}

ChannelRenderer::Place BendRenderer::placed(const PlayedNote& note) {
    BentKey& bent = bent_key(note.pitch, zone_ ? 0 : voices_[note.instrument].bent);
    if (bent.key < 0 || bent.key >= key_count) {
        ++out_.left_out["notes beyond the keys of MIDI"];
        return {};
    }
    OutputChannel* channel = channel_for(note, bent);
    if (channel == nullptr)
        leave_out(note);
    else
        channel_pitch_[static_cast<std::size_t>(channel->number)] = note.pitch;
    return {channel, bent.key};
}

/// The channel for the note, with the instrument and the bend that it needs.
OutputChannel* BendRenderer::channel_for(const PlayedNote& note, BentKey& bent) {
    const auto [channel, crowded] = pool_.choose(note.instrument, bent.bend, bent.key);
    if (channel == nullptr)
        return nullptr;
    const bool taken = crowded && channel->sounding > 0;
    if (!taken) {
        take_over(*channel, note.instrument, note.begin, !zone_); // a zone tells its manager
        set_bend(*channel, bent.bend, note.begin);
        count_error_once(bent);
        if (const Interval& own = voices_[note.instrument].bend_error; !own.is_unison())
            count_error(bent.error + own); // the manager's, in a zone
    }
    if (crowded) {
        const Interval error = taken ? error_at(*channel, note, bent.key) : bent.error;
        count_error(error);
        out_.crowded.push_back({note.instrument, note.begin, bent.key, error});
    }
    return channel;
}

Interval BendRenderer::error_at(OutputChannel& channel, const PlayedNote& note, int key) const {
    return pitch_of_key(key) + Integer(*channel.bend - middle) * unit()
           - music_.pitches[note.pitch];
}

void BendRenderer::pass_on(const PlayedMessage& message) {
    if (zone_)
        events_.push_back(on_channel(message.event, manager));
    else
        ChannelRenderer::pass_on(message);
}

void BendRenderer::bend_voice(const PlayedMessage& message) {
    if (zone_) {
        events_.push_back(midi::pitch_bend(message.event.time, manager, scaled_bend(message)));
        return;
    }
    Voice& voice = voices_[message.instrument];
    voice.bent = std::int64_t{bend_value(message.event) - middle} * message.bend_range;
    for (OutputChannel& channel : channels_)
        if (channel.owner == message.instrument && !channel.idle()) {
            const auto pitch = channel_pitch_[static_cast<std::size_t>(channel.number)];
            BentKey& bent = bent_key(pitch, voice.bent);
            set_bend(channel, bent.bend, message.event.time);
            count_error_once(bent);
        }
}

/// The zone (registered parameter 6), and how far a bend goes (parameter 0).
void BendRenderer::set_up() {
    if (zone_) {
        const auto members = static_cast<int>(channels_.size());
        for (const auto& [controller, value] :
             {std::pair{101, 0}, {100, 6}, {6, members}, {101, 127}, {100, 127}})
            setup_.push_back(midi::control(0, manager, controller, value));
        set_range(manager, own_reach_);
    }
    for (const OutputChannel& channel : channels_)
        if (zone_ || channel.used())
            set_range(channel.number, range_);
}

} // namespace sectio::tuning
