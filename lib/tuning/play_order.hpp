#pragma once
/// @file
/// Private to lib/tuning: a score in time: its bars as all parts have them, and in which order they
/// are played.

#include <sectio/score/score.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace sectio::tuning {

/// Ticks to the quarter note in which all times of the score are whole; where there is no such
/// number within a MIDI file's reach, 20160 (2^6·3^2·5·7), to which times are rounded.
int ticks_for(const score::Score& score);

/// What all parts together say of each bar; `start` is 0 and `end` the longest part's length.
std::vector<score::Bar> common_bars(const score::Score& score);

/// A bar while it is played: its place, and which pass of its repeat it is, from 1.
struct PlayedBar {
    std::uint32_t bar = 0;
    int pass = 1;
    bool operator==(const PlayedBar&) const = default;
};

/// The bars in the order of playing. A repeat without a beginning goes back to the end of
/// the one before, or to the start. Source: MusicXML 4.0, elements repeat and ending.
/// @throws Error performance_too_long beyond limits::performed_notes bars
std::vector<PlayedBar> play_order(const std::vector<score::Bar>& bars);

/// Calls `act` with the place in Score::bars of bar `at` in every part that has it.
template <typename Act>
void in_each_part(const score::Score& score, std::size_t at, Act act) {
    if (score.timewise)
        return act(at);
    for (const score::Part& part : score.parts)
        if (part.first_bar + at < part.end_bar)
            act(part.first_bar + at);
}

/// Refuses what would be long in the making: the notes of `order`, cue notes, the later ones of
/// ties and those of other passes too, the bars of all parts, and what is marked for playing.
/// @throws Error performance_too_long beyond limits::performed_notes of any of these
void check_length(const score::Score& score, const std::vector<PlayedBar>& order);

/// First place of each bar in a list whose entries name their bars in rising order; one more at the
/// end.
template <typename List, typename BarOf>
std::vector<std::size_t> first_of_bars(const List& list, std::size_t bars, BarOf bar_of) {
    std::vector<std::size_t> first(bars + 1, list.size());
    for (std::size_t i = list.size(); i-- > 0;)
        first[bar_of(list[i])] = i;
    for (std::size_t bar = bars; bar-- > 0;)
        first[bar] = std::min(first[bar], first[bar + 1]);
    return first;
}

} // namespace sectio::tuning
