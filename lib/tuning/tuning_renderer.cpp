#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/tuning_renderer.hpp>

#include <algorithm>

namespace sectio::tuning {

namespace {

MessageKind kind_for(const Performance& music, const PerformOptions& options) {
    if (options.message)
        return *options.message;
    return fits_octave(music) ? MessageKind::octave_2 : MessageKind::note_change;
}

} // namespace

TuningRenderer::TuningRenderer(const Performance& music, const PerformOptions& options)
    : ChannelRenderer(music, pitched_channels()), tunings_(kind_for(music, options)),
      waits_(music.instruments.size()) {
    if (options.channels == ChannelUse::zone || options.bend_range)
        throw error(message::perform_bend_only, "", {});
    for (const Pitch& pitch : music.pitches)
        words_.push_back(worded(pitch, tunings_.kind()));
    for (const PlayedNote& note : music.notes)
        waits_[note.instrument] = !music.instruments[note.instrument].percussion;
    out_.message = tunings_.kind();
}

bool TuningRenderer::busy(const OutputChannel& channel, std::size_t slot, bool held) const {
    const auto& keys = held ? channel.held : channel.keys;
    for (std::size_t key = slot; key < key_count; key += tunings_.octave() ? 12 : key_count)
        if (keys[key])
            return true;
    return false;
}

/// Whether a channel is free that no instrument still to come needs.
bool TuningRenderer::spare() const {
    const auto unused = std::count_if(channels_.begin(), channels_.end(),
                                      [](const OutputChannel& c) { return !c.used(); });
    return unused > std::count(waits_.begin(), waits_.end(), true);
}

template <typename Rank>
OutputChannel* TuningRenderer::best(Rank rank) {
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
/// longest, but none that an instrument still to come needs; one where only a pedal holds it; and
/// where all of the instrument sound it, the nearest in pitch.
TuningRenderer::Choice TuningRenderer::choose(std::uint16_t owner, const WordedKey& wanted) {
    using Rank = std::optional<std::int64_t>;
    const auto key = static_cast<std::size_t>(wanted.key);
    const auto free = [&](const OutputChannel& c) { return !c.keys[key]; };
    const auto silent = [&](const OutputChannel& c) { return !busy(c, wanted.slot, false); };
    const auto held = [&](const OutputChannel& c) { return busy(c, wanted.slot, true); };
    const auto fits = [&](const OutputChannel& c) {
        return tunings_.value(c, wanted.slot).value_or(wanted.value) == wanted.value;
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
    if (auto* found = best([&](OutputChannel& c) {
            return c.idle() && (c.used() || may_begin) ? Rank(c.released) : Rank();
        }))
        return {found, false};
    if (auto* found = best([&](OutputChannel& c) {
            const bool ours = c.owner == owner || (c.used() && c.sounding == 0);
            return ours && silent(c) ? Rank(c.released) : Rank();
        }))
        return {found, true};
    return {best([&](OutputChannel& c) {
                const int far = std::abs(tunings_.value(c, wanted.slot).value_or(0) - wanted.value);
                return free(c) && c.owner == owner ? Rank(far) : Rank();
            }),
            true};
}

ChannelRenderer::Place TuningRenderer::placed(const PlayedNote& note) {
    WordedKey& wanted = words_[note.pitch];
    if (wanted.key == WordedKey::beyond) {
        ++out_.left_out["notes beyond the keys of MIDI"];
        return {};
    }
    const auto [channel, crowded] = choose(note.instrument, wanted);
    if (channel == nullptr) {
        leave_out(note);
        return {};
    }
    waits_[note.instrument] = false;
    take_over(*channel, note.instrument, note.begin);
    const auto bend = static_cast<int>(voices_[note.instrument].bent);
    if (channel->bend.value_or(middle) != middle + bend)
        set_bend(*channel, middle + bend, note.begin);
    if (!busy(*channel, wanted.slot, false) && tunings_.tune(*channel, wanted, note.begin, events_))
        ++out_.retunings;
    const Interval& bend_error = voices_[note.instrument].bend_error;
    if (crowded) {
        const Interval error = sounding_error(*channel, note, wanted) + bend_error;
        count_error(error);
        out_.crowded.push_back({note.instrument, note.begin, wanted.key, error});
    } else if (bend_error.is_unison()) {
        count_error_once(wanted);
    } else {
        count_error(wanted.error + bend_error);
    }
    return {channel, wanted.key};
}

Interval TuningRenderer::sounding_error(const OutputChannel& channel, const PlayedNote& note,
                                        const WordedKey& wanted) {
    if (sounds_as(channel, wanted))
        return wanted.error;
    return tunings_.pitch(channel, wanted) - music_.pitches[note.pitch];
}

void TuningRenderer::bend_voice(const PlayedMessage& message) {
    Voice& voice = voices_[message.instrument];
    const int value = scaled_bend(message);
    voice.bent = value - middle;
    for (OutputChannel& channel : channels_)
        if (channel.owner == message.instrument && !channel.idle())
            set_bend(channel, value, message.event.time);
}

void TuningRenderer::set_up() {
    tunings_.set_up(channels_, setup_);
    if (own_reach(music_) == 0)
        return;
    for (const OutputChannel& channel : channels_)
        if (channel.used())
            set_range(channel.number, own_reach_);
}

} // namespace sectio::tuning
