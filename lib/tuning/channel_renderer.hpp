#pragma once
/// @file
/// Private to lib/tuning: what playing by pitch bend and by tuning messages have in common: notes
/// go to channels, and what an instrument was told goes with its notes. Used by perform().

#include <sectio/tuning/channel_state.hpp>
#include <sectio/tuning/perform.hpp>
#include <sectio/tuning/play.hpp>

#include <cstdlib>

namespace sectio::tuning {

class ChannelRenderer : public Renderer {
  public:
    Performed run();

    void begin(std::size_t note) override;
    void end(std::size_t note) override;
    void say(const PlayedMessage& message) override;

  protected:
    static constexpr int percussion_channel = 9, middle = 8192;

    /// A source instrument as it stands.
    struct Voice {
        ChannelState state;
        std::size_t version = 1;
        std::int64_t bent = 0; ///< its own pitch bend, in 8192ths of a cent
        Interval bend_error;   ///< of what its channels say of that bend, where it is scaled
    };
    /// Where a sounding note went.
    struct Place {
        OutputChannel* channel = nullptr;
        int key = 0;
    };

    ChannelRenderer(const Performance& music, const std::vector<int>& numbers);

    /// The channel and key for a note that is no percussion, ready to sound it; null with a reason
    /// in `left_out` where there is none.
    virtual Place placed(const PlayedNote& note) = 0;
    virtual void bend_voice(const PlayedMessage& message) = 0;
    /// To the channels on which the instrument is heard; others get it with their next note.
    virtual void pass_on(const PlayedMessage& message);
    /// What receivers are told before all else, into `setup_`.
    virtual void set_up() = 0;

    /// The instrument takes the channel, with all it was told where `state` goes with it.
    void take_over(OutputChannel& channel, std::uint16_t instrument, midi::Ticks time,
                   bool state = true);
    void set_bend(OutputChannel& channel, int bend, midi::Ticks time);
    void set_range(int channel, int semitones);
    void count_error(const Interval& error);
    /// The value of the message's bend where a full one goes `own_reach_` semitones; what it is off
    /// is counted with the errors of the instrument's notes that sound, and of those that follow.
    int scaled_bend(const PlayedMessage& message);
    /// What the pitch of a note of this kind of playing is off without any bend of the music's own.
    virtual Interval unbent_error(const PlayedNote& note) = 0;
    /// Counts a note for which no channel of its instrument can sound.
    void leave_out(const PlayedNote& note);
    /// Counts the error of a pitch as it is keyed, which many notes share, with the first of them.
    template <typename Keyed>
    void count_error_once(Keyed& keyed) {
        if (!keyed.counted)
            count_error(keyed.error);
        keyed.counted = true;
    }

    const Performance& music_;
    int own_reach_ = 1; ///< semitones that the music's own bends reach, at least 1
    std::vector<OutputChannel> channels_;
    std::vector<Voice> voices_;
    std::vector<midi::Event> setup_, events_;
    Performed out_;

  private:
    bool is_percussion(const PlayedNote& note) const {
        return music_.instruments[note.instrument].percussion;
    }
    void press_key(const PlayedMessage& message);
    void lift_pedal(std::uint16_t instrument, midi::Ticks time);
    void count_channels();

    std::vector<Place> places_;       ///< of the notes
    std::vector<std::size_t> active_; ///< notes that sound, for pressure on single keys
    bool percussion_sounds_ = false;
};

/// All channels but 10.
std::vector<int> pitched_channels();
/// A channel message as it is, on another channel.
midi::Event on_channel(midi::Event event, int channel);
/// The value that a pitch bend says, 0 … 16383.
int bend_value(const midi::Event& event);
/// Semitones that the music's own bends reach, 0 where it has none.
int own_reach(const Performance& music);

} // namespace sectio::tuning
