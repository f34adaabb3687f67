#pragma once
/// @file
/// Private to lib/tuning: playing by messages of the MIDI Tuning Standard. Used by perform().

#include <sectio/tuning/channel_renderer.hpp>
#include <sectio/tuning/channel_tunings.hpp>

namespace sectio::tuning {

/// Each channel has a tuning of its own, whose keys are tuned before all else as their first notes
/// need them. A note that needs another tuning of its key goes to another channel of the instrument
/// as long as some are free, else the key is retuned while it is silent.
class TuningRenderer : public ChannelRenderer {
  public:
    TuningRenderer(const Performance& music, const PerformOptions& options);

  private:
    struct Choice {
        OutputChannel* channel = nullptr;
        bool crowded = false;
    };

    Place placed(const PlayedNote& note) override;
    void bend_voice(const PlayedMessage& message) override;
    void set_up() override;
    Interval unbent_error(const PlayedNote& note) override { return words_[note.pitch].error; }

    Choice choose(std::uint16_t owner, const WordedKey& wanted);
    /// The channel that serves best by `rank`, a lower one before a higher; none without a rank.
    template <typename Rank>
    OutputChannel* best(Rank rank);
    bool spare() const;
    bool busy(const OutputChannel& channel, std::size_t slot, bool held) const;
    bool sounds_as(const OutputChannel& channel, const WordedKey& wanted) {
        return tunings_.value(channel, wanted.slot) == wanted.value;
    }
    Interval sounding_error(const OutputChannel& channel, const PlayedNote& note,
                            const WordedKey& wanted);

    ChannelTunings tunings_;
    std::vector<WordedKey> words_; ///< of the performance's pitches
    std::vector<bool> waits_;      ///< instruments that play and have not begun
};

} // namespace sectio::tuning
