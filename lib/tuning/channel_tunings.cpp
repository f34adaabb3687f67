#include <sectio/tuning/channel_tunings.hpp>
#include <sectio/tuning/tuning_file.hpp>

namespace sectio::tuning {

namespace {

FrequencyWord word_of(int value) {
    return FrequencyWord(static_cast<std::uint32_t>(value));
}

/// Whether one table says all that `other` says, or could.
template <typename Table>
bool agree(const Table& table, const Table& other) {
    for (std::size_t i = 0; i < table.size(); ++i)
        if (table[i] && other[i] && *table[i] != *other[i])
            return false;
    return true;
}

} // namespace

Pitch ChannelTunings::pitch(const OutputChannel& channel, const WordedKey& key) const {
    const int value = of(channel).now[key.slot].value();
    return octave() ? pitch_of_key(key.key) + offset_of(value, form_of(kind_))
                    : word_of(value).pitch();
}

bool ChannelTunings::tune(const OutputChannel& channel, const WordedKey& wanted, midi::Ticks time,
                          std::vector<midi::Event>& events) {
    Tuning& own = of(channel);
    auto& now = own.now[wanted.slot];
    if (now == wanted.value)
        return false;
    if (!now)
        own.first[wanted.slot] = wanted.value;
    const bool changes = now.has_value() || (octave() && own.changes);
    now = wanted.value;
    if (!changes)
        return false;
    own.changes = true;
    if (octave()) {
        events.push_back(octaves(static_cast<std::uint16_t>(1 << channel.number), own.now, time));
        return true;
    }
    TuningMessage change;
    change.kind = MessageKind::note_change;
    change.program = channel.number;
    change.keys = {{wanted.key, word_of(wanted.value)}};
    events.push_back(midi::system_exclusive(time, bytes_of(change)));
    return true;
}

/// Octave messages count from 12 equal steps each time, so a change says all notes again; those
/// that are tuned later need a message of their own then.
midi::Event ChannelTunings::octaves(std::uint16_t channels, const Table& table,
                                    midi::Ticks time) const {
    TuningMessage message;
    message.kind = kind_;
    message.real_time = true;
    message.channels = channels;
    for (std::size_t note = 0; note < 12; ++note)
        message.offsets[note] = table[note].value_or(0);
    return midi::system_exclusive(time, bytes_of(message));
}

void ChannelTunings::say_keys(int program, const Table& table,
                              std::vector<midi::Event>& events) const {
    constexpr std::size_t changes_in_message = 64; // as retune() has it
    TuningMessage message;
    message.kind = kind_;
    message.program = program;
    message.name = "perform";
    const bool all = row_of(kind_).named;
    const auto send = [&] {
        if (!message.keys.empty())
            events.push_back(midi::system_exclusive(0, bytes_of(message)));
        message.keys.clear();
    };
    for (int key = 0; key < key_count; ++key) {
        const auto& value = table[static_cast<std::size_t>(key)];
        if (value || all)
            message.keys.push_back({key, value ? word_of(*value) : no_change});
        if (!all && message.keys.size() == changes_in_message)
            send();
    }
    send();
}

/// Channels whose tunings never change and do not contradict one another select one program, that
/// of the first of them; the others have the program of their own number.
void ChannelTunings::share_programs(const std::vector<OutputChannel>& channels) {
    for (const OutputChannel& channel : channels) {
        Tuning& own = of(channel);
        own.program = channel.number;
        for (const OutputChannel& before : channels) {
            Tuning& other = of(before);
            if (before.number >= channel.number || own.changes)
                break;
            if (!before.used() || other.changes || other.program != before.number
                || !agree(own.first, other.first))
                continue;
            for (std::size_t i = 0; i < key_count; ++i)
                if (own.first[i])
                    other.first[i] = own.first[i];
            own.program = before.number;
            break;
        }
    }
}

std::uint16_t ChannelTunings::sharing(const std::vector<OutputChannel>& channels,
                                      int program) const {
    std::uint16_t bits = 0;
    for (const OutputChannel& channel : channels)
        if (channel.used() && of(channel).program == program)
            bits = static_cast<std::uint16_t>(bits | 1 << channel.number);
    return bits;
}

void ChannelTunings::set_up(const std::vector<OutputChannel>& channels,
                            std::vector<midi::Event>& events) {
    share_programs(channels);
    for (const OutputChannel& channel : channels) {
        if (!channel.used() || of(channel).program != channel.number)
            continue;
        if (octave())
            events.push_back(octaves(sharing(channels, channel.number), of(channel).first, 0));
        else
            say_keys(channel.number, of(channel).first, events);
    }
    if (octave())
        return;
    for (const OutputChannel& channel : channels)
        if (channel.used())
            select_tuning(events, 0, channel.number, 0, of(channel).program);
}

} // namespace sectio::tuning
