#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/tuning_file.hpp>
#include <sectio/tuning/tuning_player.hpp>

#include <algorithm>
#include <set>

namespace sectio::tuning {

namespace {

constexpr int key_count = 128, beyond = -1;

} // namespace

TuningPlayer::TuningPlayer(const Performance& music, const PerformOptions& options)
    : ChannelPlayer(music, pitched_channels()), waits_(music.instruments.size()) {
    if (options.channels == ChannelUse::zone || options.bend_range)
        throw error(message::perform_bend_only, "", {});
    octave_ = options.message ? row_of(*options.message).octave : fits_octave();
    kind_ = options.message.value_or(octave_ ? MessageKind::octave_2 : MessageKind::note_change);
    for (const Pitch& pitch : music.pitches)
        words_.push_back(worded(pitch));
    for (const PlayedNote& note : music.notes)
        waits_[note.instrument] = !music.instruments[note.instrument].percussion;
    out_.message = kind_;
}

/// Whether octave messages need no more tunings than others would: no note of the twelve has more
/// offsets than one of its keys.
bool TuningPlayer::fits_octave() const {
    std::array<std::set<int>, 12> of_note;
    std::array<std::set<int>, key_count> of_key;
    std::vector<bool> sounds(music_.pitches.size());
    for (const PlayedNote& note : music_.notes)
        sounds[note.pitch] = sounds[note.pitch] || !music_.instruments[note.instrument].percussion;
    for (std::size_t pitch = 0; pitch < sounds.size(); ++pitch) {
        if (!sounds[pitch])
            continue;
        const KeyedPitch keyed = nearest_key(music_.pitches[pitch]);
        const auto step = nearest_offset(keyed.deviation, two_byte_offset);
        if (keyed.key < 0 || keyed.key >= key_count || !step)
            continue;
        of_note[static_cast<std::size_t>(keyed.key % 12)].insert(*step);
        of_key[static_cast<std::size_t>(keyed.key)].insert(*step);
    }
    for (std::size_t note = 0; note < 12; ++note) {
        std::size_t most = 0;
        for (std::size_t key = note; key < key_count; key += 12)
            most = std::max(most, of_key[key].size());
        if (of_note[note].size() > most)
            return false;
    }
    return true;
}

WordedKey TuningPlayer::worded(const Pitch& pitch) const {
    const KeyedPitch keyed = nearest_key(pitch);
    WordedKey made;
    made.key = keyed.key;
    if (keyed.key < 0 || keyed.key >= key_count) {
        made.key = beyond;
        return made;
    }
    if (octave_) {
        made.slot = static_cast<std::size_t>(keyed.key % 12);
        made.value = nearest_offset(keyed.deviation, form_of(kind_)).value(); // within 50 cents
        made.error = offset_of(made.value, form_of(kind_)) - keyed.deviation;
        return made;
    }
    made.slot = static_cast<std::size_t>(keyed.key);
    const auto word = FrequencyWord::nearest(pitch);
    if (!word) {
        made.key = beyond;
        return made;
    }
    made.value = static_cast<int>(word->value());
    made.error = word->pitch() - pitch;
    return made;
}

bool TuningPlayer::busy(const OutputChannel& channel, std::size_t slot, bool held) const {
    const auto& keys = held ? channel.held : channel.keys;
    for (std::size_t key = slot; key < key_count; key += octave_ ? 12 : key_count)
        if (keys[key])
            return true;
    return false;
}

/// Whether a channel is free that no instrument still to come needs.
bool TuningPlayer::spare() const {
    const auto unused = std::count_if(channels_.begin(), channels_.end(),
                                      [](const OutputChannel& c) { return !c.used(); });
    return unused > std::count(waits_.begin(), waits_.end(), true);
}

template <typename Rank>
OutputChannel* TuningPlayer::best(Rank rank) {
    OutputChannel* found = nullptr;
    std::optional<std::int64_t> least;
    for (OutputChannel& channel : channels_)
        if (const std::optional<std::int64_t> now = rank(channel);
            now && (!least || *now < *least)) {
            found = &channel;
            least = now;
        }
    return found;
}

/// In this order: a channel of the instrument that has the key so tuned or not yet tuned; an unused
/// one; one of the instrument where the key is silent, then any idle one, each that has been silent
/// longest; one where only a pedal holds it; and where all sound it, the nearest in pitch.
TuningPlayer::Choice TuningPlayer::choose(std::uint16_t owner, const WordedKey& wanted) {
    using Rank = std::optional<std::int64_t>;
    const auto key = static_cast<std::size_t>(wanted.key);
    const auto free = [&](const OutputChannel& c) { return !c.keys[key]; };
    const auto silent = [&](const OutputChannel& c) { return !busy(c, wanted.slot, false); };
    const auto held = [&](const OutputChannel& c) { return busy(c, wanted.slot, true); };
    const auto fits = [&](const OutputChannel& c) {
        return tuning(c).now[wanted.slot].value_or(wanted.value) == wanted.value;
    };
    const bool may_begin = waits_[owner] || spare();
    if (auto* found = best([&](OutputChannel& c) {
            return c.owner == owner && free(c) && fits(c) ? Rank(c.sounding) : Rank();
        }))
        return {found, false};
    if (auto* found =
            best([&](OutputChannel& c) { return may_begin && !c.used() ? Rank(0) : Rank(); }))
        return {found, false};
    if (auto* found = best([&](OutputChannel& c) {
            return c.owner == owner && silent(c) && !held(c) ? Rank(c.released) : Rank();
        }))
        return {found, false};
    if (auto* found = best([](OutputChannel& c) { return c.idle() ? Rank(c.released) : Rank(); }))
        return {found, false};
    if (auto* found = best([&](OutputChannel& c) {
            const bool ours = c.owner == owner || c.sounding == 0;
            return ours && silent(c) ? Rank(c.released) : Rank();
        }))
        return {found, true};
    return {best([&](OutputChannel& c) {
                constexpr std::int64_t other = std::int64_t{1} << 40; // sounds another instrument
                const int far = std::abs(tuning(c).now[wanted.slot].value_or(0) - wanted.value);
                return free(c) ? Rank(far + (c.owner == owner ? 0 : other)) : Rank();
            }),
            true};
}

ChannelPlayer::Place TuningPlayer::placed(const PlayedNote& note) {
    WordedKey& wanted = words_[note.pitch];
    if (wanted.key == beyond) {
        ++out_.left_out["notes beyond the keys of MIDI"];
        return {};
    }
    const auto [channel, crowded] = choose(note.instrument, wanted);
    if (channel == nullptr) {
        ++out_.left_out["notes that sound on every channel already"];
        return {};
    }
    waits_[note.instrument] = false;
    const bool ours = channel->owner == note.instrument || channel->sounding == 0;
    if (ours) {
        take_over(*channel, note.instrument, note.begin);
        const auto bend = static_cast<int>(voices_[note.instrument].bent);
        if (channel->bend.value_or(middle) != middle + bend)
            set_bend(*channel, middle + bend, note.begin);
    }
    if (!busy(*channel, wanted.slot, false))
        tune(*channel, wanted, note.begin);
    if (sounds_as(*channel, wanted))
        count_error_once(wanted);
    if (crowded) {
        const Interval error = sounding_error(*channel, note, wanted);
        count_error(error);
        out_.crowded.push_back({note.instrument, note.begin, wanted.key, error});
    }
    return {channel, wanted.key};
}

Interval TuningPlayer::sounding_error(const OutputChannel& channel, const PlayedNote& note,
                                      const WordedKey& wanted) {
    if (sounds_as(channel, wanted))
        return wanted.error;
    const int value = tuning(channel).now[wanted.slot].value(); // it sounds
    const Pitch sounds = octave_ ? pitch_of_key(wanted.key) + offset_of(value, form_of(kind_))
                                 : FrequencyWord(static_cast<std::uint32_t>(value)).pitch();
    return sounds - music_.pitches[note.pitch];
}

/// The channel's key as the note needs it: from the start where nothing came before.
void TuningPlayer::tune(OutputChannel& channel, const WordedKey& wanted, midi::Ticks time) {
    ChannelTuning& own = tuning(channel);
    auto& now = own.now[wanted.slot];
    if (now == wanted.value)
        return;
    if (!now)
        own.first[wanted.slot] = wanted.value;
    const bool changes = now.has_value() || (octave_ && own.changes);
    now = wanted.value;
    if (!changes)
        return;
    own.changes = true;
    ++out_.retunings;
    if (octave_) {
        say_octaves(static_cast<std::uint16_t>(1 << channel.number), own.now, time, events_);
        return;
    }
    TuningMessage change;
    change.kind = MessageKind::note_change;
    change.program = channel.number;
    change.keys = {{wanted.key, FrequencyWord(static_cast<std::uint32_t>(wanted.value))}};
    events_.push_back(midi::system_exclusive(time, bytes_of(change)));
}

void TuningPlayer::bend_voice(const PlayedMessage& message) {
    Voice& voice = voices_[message.instrument];
    const int value = scaled_bend(message, own_reach_);
    voice.bent = value - middle;
    for (OutputChannel& channel : channels_)
        if (channel.owner == message.instrument && !channel.idle())
            set_bend(channel, value, message.event.time);
}

/// Octave messages count from 12 equal steps each time, so a change says all notes again; those
/// that are tuned later need a message of their own then.
void TuningPlayer::say_octaves(std::uint16_t channels, const Table& table, midi::Ticks time,
                               std::vector<midi::Event>& out) const {
    TuningMessage message;
    message.kind = kind_;
    message.real_time = true;
    message.channels = channels;
    for (std::size_t note = 0; note < 12; ++note)
        message.offsets[note] = table[note].value_or(0);
    out.push_back(midi::system_exclusive(time, bytes_of(message)));
}

void TuningPlayer::say_keys(int program, const Table& table) {
    constexpr std::size_t changes_in_message = 64; // as retune() has it
    TuningMessage message;
    message.kind = kind_;
    message.program = program;
    message.name = "perform";
    const bool all = row_of(kind_).named;
    const auto send = [&] {
        if (!message.keys.empty())
            setup_.push_back(midi::system_exclusive(0, bytes_of(message)));
        message.keys.clear();
    };
    for (int key = 0; key < key_count; ++key) {
        const auto& value = table[static_cast<std::size_t>(key)];
        const auto word = value ? FrequencyWord(static_cast<std::uint32_t>(*value)) : no_change;
        if (value || all)
            message.keys.push_back({key, word});
        if (!all && message.keys.size() == changes_in_message)
            send();
    }
    send();
}

/// Channels whose tunings never change and do not contradict one another select one program, that
/// of the first of them; the others have the program of their own number.
void TuningPlayer::share_programs() {
    for (const OutputChannel& channel : channels_) {
        ChannelTuning& own = tuning(channel);
        own.program = channel.number;
        for (const OutputChannel& before : channels_) {
            ChannelTuning& other = tuning(before);
            if (before.number >= channel.number || own.changes)
                break;
            bool agree = before.used() && !other.changes && other.program == before.number;
            for (std::size_t i = 0; i < key_count && agree; ++i)
                agree = !own.first[i] || other.first[i].value_or(*own.first[i]) == *own.first[i];
            if (!agree)
                continue;
            for (std::size_t i = 0; i < key_count; ++i)
                if (own.first[i])
                    other.first[i] = own.first[i];
            own.program = before.number;
            break;
        }
    }
}

void TuningPlayer::set_up() {
    share_programs();
    for (const OutputChannel& channel : channels_) {
        if (!channel.used() || tuning(channel).program != channel.number)
            continue;
        std::uint16_t sharing = 0;
        for (const OutputChannel& other : channels_)
            if (other.used() && tuning(other).program == channel.number)
                sharing = static_cast<std::uint16_t>(sharing | 1 << other.number);
        if (octave_)
            say_octaves(sharing, tuning(channel).first, 0, setup_);
        else
            say_keys(channel.number, tuning(channel).first);
    }
    for (const OutputChannel& channel : channels_) {
        if (channel.used() && !octave_)
            select_tuning(setup_, 0, channel.number, 0, tuning(channel).program);
        if (channel.used() && own_reach(music_) > 0)
            set_range(channel.number, own_reach_);
    }
}

} // namespace sectio::tuning
