#pragma once
/// @file
/// Playing by pitch bend. Used by perform().

#include <sectio/tuning/channel_pool.hpp>
#include <sectio/tuning/play.hpp>

#include <array>
#include <unordered_map>

namespace sectio::tuning {

/// A pitch as a key and a pitch bend.
struct BentKey {
    int key = 60;
    int bend = 8192;
    Interval error; ///< of what sounds from the pitch
};

class BendPlayer : public Player {
  public:
    BendPlayer(const Performance& music, const PerformOptions& options);
    Performed run();

    void begin(std::size_t note) override;
    void end(std::size_t note) override;
    void say(const PlayedMessage& message) override;

  private:
    /// A source instrument as it stands.
    struct Voice {
        ChannelState state;
        std::size_t version = 1;
        std::int64_t bent = 0; ///< its own pitch bend, in 8192ths of a cent
    };
    /// Where a sounding note went.
    struct Place {
        OutputChannel* channel = nullptr;
        int key = 0;
    };

    int range() const;
    std::vector<int> channel_numbers() const;
    const BentKey& bent_key(std::uint32_t pitch, std::int64_t bent);
    /// Sends the note and notes that it sounds there.
    void sound(std::size_t note, OutputChannel& channel, const BentKey& bent);
    Interval error_at(OutputChannel& channel, const PlayedNote& note, int key) const;
    OutputChannel* placed(const PlayedNote& note, const BentKey& bent);
    void pass_on(const PlayedMessage& message);
    void take_over(OutputChannel& channel, std::uint16_t instrument, midi::Ticks time);
    void set_bend(OutputChannel& channel, int bend, midi::Ticks time);
    void bend_voice(const PlayedMessage& message);
    void press_key(const PlayedMessage& message);
    void pedal(std::uint16_t instrument, midi::Ticks time);
    void count_error(const Interval& error);
    Interval unit() const { return Interval::from_steps(range_, 12 * 8192); }
    void set_up();
    void set_range(int channel, int semitones);

    const Performance& music_;
    bool zone_;
    int range_ = 0;     ///< semitones of a full bend of a note's channel
    int own_reach_ = 1; ///< the same of the manager
    ChannelPool pool_;
    std::vector<Voice> voices_;
    std::vector<Place> places_;                ///< of the notes
    std::vector<std::uint32_t> channel_pitch_; ///< of the last note on each of the 16 channels
    std::vector<std::size_t> active_;          ///< notes that sound, for pressure on single keys
    std::vector<std::unordered_map<std::int64_t, BentKey>> bent_; ///< by pitch, then by own bend
    std::vector<midi::Event> setup_, events_;
    bool percussion_sounds_ = false;
    Performed out_;
};

} // namespace sectio::tuning
