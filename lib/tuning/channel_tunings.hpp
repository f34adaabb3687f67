#pragma once
/// @file
/// Private to lib/tuning: the tuning of each channel, and the messages that say it. Used by
/// TuningRenderer.

#include <sectio/tuning/channel_state.hpp>
#include <sectio/tuning/key_table.hpp>
#include <sectio/tuning/worded_keys.hpp>

#include <array>

namespace sectio::tuning {

class ChannelTunings {
  public:
    explicit ChannelTunings(MessageKind kind) : kind_(kind) {}

    MessageKind kind() const { return kind_; }
    /// Whether the messages tune the twelve notes of all octaves at once.
    bool octave() const { return row_of(kind_).octave; }
    /// What the channel's key or note is tuned to, if it is.
    std::optional<int> value(const OutputChannel& channel, std::size_t slot) const {
        return of(channel).now[slot];
    }
    /// The pitch that the key has so.
    Pitch pitch(const OutputChannel& channel, const WordedKey& key) const;

    /// Tunes the channel's key as the note needs it: from the start where nothing came before, else
    /// by a message into `events`, which it says by true.
    bool tune(const OutputChannel& channel, const WordedKey& wanted, midi::Ticks time,
              std::vector<midi::Event>& events);

    /// What receivers are told before all else of the channels that are used.
    void set_up(const std::vector<OutputChannel>& channels, std::vector<midi::Event>& events);

  private:
    using Table = std::array<std::optional<int>, key_count>;
    struct Tuning {
        Table first, now;
        bool changes = false; ///< while the music plays
        int program = 0;      ///< of the tuning that the channel selects
    };

    Tuning& of(const OutputChannel& channel) {
        return tunings_[static_cast<std::size_t>(channel.number)];
    }
    const Tuning& of(const OutputChannel& channel) const {
        return tunings_[static_cast<std::size_t>(channel.number)];
    }
    void share_programs(const std::vector<OutputChannel>& channels);
    std::uint16_t sharing(const std::vector<OutputChannel>& channels, int program) const;
    midi::Event octaves(std::uint16_t channels, const Table& table, midi::Ticks time) const;
    void say_keys(int program, const Table& table, std::vector<midi::Event>& events) const;

    MessageKind kind_;
    std::array<Tuning, 16> tunings_;
};

} // namespace sectio::tuning
