#pragma once
/// @file
/// What an instrument was told, and what a channel has been told of it.

#include <sectio/tuning/midi_file.hpp>

#include <array>
#include <bitset>
#include <optional>
#include <vector>

namespace sectio::tuning {

/// Program, controllers and pressure, as they were last said. -1 is "not said".
class ChannelState {
  public:
    ChannelState() { controllers_.fill(-1); }

    /// Takes what the message says into the state; false for a message that leaves no state.
    bool take(const midi::Event& event);
    bool pedal_down() const { return controllers_[64] >= 64; }
    friend bool operator==(const ChannelState&, const ChannelState&) = default;

    /// The messages that bring a channel of state `*this` to `wanted`, at `time`; takes it on. What
    /// the other does not say is put back to what receivers begin with.
    void become(const ChannelState& wanted, midi::Ticks time, int channel,
                std::vector<midi::Event>& out);

  private:
    void put_back();
    void set_controller(std::size_t number, int value, midi::Ticks time, int channel,
                        std::vector<midi::Event>& out);

    std::array<std::int16_t, 128> controllers_{};
    int program_ = -1, pressure_ = -1;
};

/// One channel that notes are put on.
struct OutputChannel {
    int number = 0; ///< 0 … 15
    std::optional<std::uint16_t> owner;
    std::optional<int> bend; ///< 0 … 16383, as last sent
    std::bitset<128> keys;   ///< that sound
    int sounding = 0;
    std::bitset<128> held; ///< keys that are up, whose notes a pedal holds
    midi::Ticks released = -1;
    std::size_t version = 0; ///< of the owner's state that the channel has
    ChannelState state;

    bool idle() const { return sounding == 0 && held.none(); }
    bool used() const { return owner.has_value(); }
};

} // namespace sectio::tuning
