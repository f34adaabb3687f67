#pragma once
/// @file
/// Private to lib/tuning: the choice of a channel for a note that pitch bend tunes.

#include <sectio/tuning/channel_state.hpp>
#include <sectio/tuning/perform.hpp>

#include <vector>

namespace sectio::tuning {

class ChannelPool {
  public:
    ChannelPool(ChannelUse use, std::vector<OutputChannel>& channels)
        : use_(use), channels_(channels) {}

    struct Choice {
        OutputChannel* channel = nullptr; ///< null where every one sounds the very key or
                                          ///< another instrument
        bool crowded = false;             ///< the note must take the bend that the channel has, or
                                          ///< bends what a pedal holds
    };

    /// A channel for a note of `owner` with this bend and key.
    ///
    /// Plain: one that has the owner and the bend already and does not sound the key; else one
    /// never used; else the idle one that was released first, whose last note has had the longest
    /// time to die away. In a zone each note goes to an idle channel as long as there is one, and
    /// shares one of its bend only then. Where all channels are taken by other bends, the one whose
    /// notes only a pedal holds is taken, else the owner's of the nearest bend.
    Choice choose(std::uint16_t owner, int bend, int key);

  private:
    OutputChannel* of_bend(std::uint16_t owner, int bend, int key);
    OutputChannel* idle();
    OutputChannel* pedalled();
    OutputChannel* nearest(std::uint16_t owner, int bend, int key);

    ChannelUse use_;
    std::vector<OutputChannel>& channels_;
};

} // namespace sectio::tuning
