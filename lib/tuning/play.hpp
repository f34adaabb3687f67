#pragma once
/// @file
/// The order of playing: what ends, what is said, what begins. Used by the renderers.

#include <sectio/tuning/performance.hpp>

#include <functional>
#include <queue>

namespace sectio::tuning {

/// What is done with the notes and messages of a performance, in the order of time.
class Renderer {
  public:
    virtual ~Renderer() = default;
    virtual void begin(std::size_t note) = 0;
    virtual void end(std::size_t note) = 0;
    virtual void say(const PlayedMessage& message) = 0;
};

/// @throws Error performance_index where a note or message has a pitch or an instrument that the
/// performance lacks, or a key or velocity that MIDI lacks
void check(const Performance& music);

/// Plays. At one time notes end first, then messages come, then notes begin; a note of no length
/// ends at once.
inline void play(const Performance& music, Renderer& renderer) {
    using Ending = std::pair<midi::Ticks, std::size_t>;
    std::priority_queue<Ending, std::vector<Ending>, std::greater<>> sounding;
    std::size_t message = 0;
    const auto go_to = [&](midi::Ticks time) {
        while (true) {
            const bool ends = !sounding.empty() && sounding.top().first <= time;
            const bool says =
                message < music.messages.size() && music.messages[message].event.time <= time;
            if (ends && (!says || sounding.top().first <= music.messages[message].event.time)) {
                renderer.end(sounding.top().second);
                sounding.pop();
            } else if (says)
                renderer.say(music.messages[message++]);
            else
                return;
        }
    };
    for (std::size_t note = 0; note < music.notes.size(); ++note) {
        go_to(music.notes[note].begin);
        renderer.begin(note);
        sounding.emplace(music.notes[note].end, note);
    }
    go_to(std::numeric_limits<midi::Ticks>::max());
}

} // namespace sectio::tuning
