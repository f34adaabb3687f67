#include <sectio/tuning/channel_pool.hpp>

#include <cstdlib>

namespace sectio::tuning {

ChannelPool::Choice ChannelPool::choose(std::uint16_t owner, int bend, int key) {
    const bool share_first = use_ == ChannelUse::plain;
    if (share_first)
        if (OutputChannel* channel = of_bend(owner, bend, key))
            return {channel, false};
    if (OutputChannel* channel = idle())
        return {channel, false};
    if (!share_first)
        if (OutputChannel* channel = of_bend(owner, bend, key))
            return {channel, false};
    if (OutputChannel* channel = pedalled())
        return {channel, true};
    return {nearest(owner, bend, key), true};
}

OutputChannel* ChannelPool::of_bend(std::uint16_t owner, int bend, int key) {
    OutputChannel* best = nullptr;
    for (OutputChannel& channel : channels_)
        if (channel.owner == owner && channel.bend == bend
            && !channel.keys[static_cast<std::size_t>(key)]
            && (best == nullptr || channel.sounding < best->sounding))
            best = &channel;
    return best;
}

/// Channels never used have been released at -1, before all others.
OutputChannel* ChannelPool::idle() {
    OutputChannel* best = nullptr;
    for (OutputChannel& channel : channels_)
        if (channel.idle() && (best == nullptr || channel.released < best->released))
            best = &channel;
    return best;
}

OutputChannel* ChannelPool::pedalled() {
    OutputChannel* best = nullptr;
    for (OutputChannel& channel : channels_)
        if (channel.sounding == 0 && (best == nullptr || channel.released < best->released))
            best = &channel;
    return best;
}

/// Of the owner's own channels: the others sound another instrument.
OutputChannel* ChannelPool::nearest(std::uint16_t owner, int bend, int key) {
    OutputChannel* best = nullptr;
    const auto off = [&](const OutputChannel& channel) {
        return std::abs(channel.bend.value_or(0) - bend);
    };
    for (OutputChannel& channel : channels_)
        if (channel.owner == owner && !channel.keys[static_cast<std::size_t>(key)]
            && (best == nullptr || off(channel) < off(*best)))
            best = &channel;
    return best;
}

} // namespace sectio::tuning
