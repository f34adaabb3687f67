#pragma once
/// @file
/// Playing by messages of the MIDI Tuning Standard. Used by perform().

#include <sectio/tuning/channel_player.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <array>

namespace sectio::tuning {

/// A pitch as a key and what the messages say of it.
struct WordedKey {
    int key = 60;
    std::size_t slot = 60; ///< what is tuned: the key, or its note (0 … 11) in octave messages
    int value = 0;         ///< frequency word, or steps of the offset
    Interval error;        ///< of what sounds from the pitch
    bool counted = false;
};

/// Each channel has a tuning of its own, whose keys are tuned before all else as their first notes
/// need them. A note that needs another tuning of its key goes to another channel of the instrument
/// as long as some are free, else the key is retuned while it is silent.
class TuningPlayer : public ChannelPlayer {
  public:
    TuningPlayer(const Performance& music, const PerformOptions& options);

  private:
    using Table = std::array<std::optional<int>, 128>;
    struct ChannelTuning {
        Table first, now;
        bool changes = false; ///< while the music plays
        int program = 0;      ///< of the tuning that it selects
    };
    struct Choice {
        OutputChannel* channel = nullptr;
        bool crowded = false;
    };

    Place placed(const PlayedNote& note) override;
    void bend_voice(const PlayedMessage& message) override;
    void set_up() override;

    bool fits_octave() const;
    WordedKey worded(const Pitch& pitch) const;
    Choice choose(std::uint16_t owner, const WordedKey& wanted);
    /// The channel that serves best by `rank`, a lower one before a higher; none without a rank.
    template <typename Rank>
    OutputChannel* best(Rank rank);
    bool spare() const;
    ChannelTuning& tuning(const OutputChannel& channel) {
        return tunings_[static_cast<std::size_t>(channel.number)];
    }
    bool busy(const OutputChannel& channel, std::size_t slot, bool held) const;
    void tune(OutputChannel& channel, const WordedKey& wanted, midi::Ticks time);
    bool sounds_as(const OutputChannel& channel, const WordedKey& wanted) {
        return tuning(channel).now[wanted.slot] == wanted.value;
    }
    Interval sounding_error(const OutputChannel& channel, const PlayedNote& note,
                            const WordedKey& wanted);
    void share_programs();
    void say_octaves(std::uint16_t channels, const Table& table, midi::Ticks time,
                     std::vector<midi::Event>& out) const;
    void say_keys(int program, const Table& table);

    MessageKind kind_ = MessageKind::note_change;
    bool octave_ = false;
    std::vector<WordedKey> words_; ///< of the performance's pitches
    std::array<ChannelTuning, 16> tunings_;
    std::vector<bool> waits_; ///< instruments that play and have not begun
};

} // namespace sectio::tuning
