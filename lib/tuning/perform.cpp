#include <sectio/base/argument.hpp>
#include <sectio/tuning/bend_renderer.hpp>
#include <sectio/tuning/messages.hpp>
#include <sectio/tuning/play.hpp>
#include <sectio/tuning/tuning_renderer.hpp>

namespace sectio::tuning {

void check(const Performance& music) {
    constexpr int most = 127;
    const auto played = [&](std::size_t instrument) {
        return instrument < music.instruments.size();
    };
    for (const PlayedNote& note : music.notes)
        if (!played(note.instrument) || note.pitch >= music.pitches.size() || note.key > most
            || note.velocity > most || note.release > most)
            throw error(message::performance_index, "", {});
        else
            check_argument(note.begin >= 0 && note.end >= note.begin, "a note's times",
                           "from 0 on, its end not before its beginning");
    for (const PlayedMessage& message : music.messages)
        if (!played(message.instrument))
            throw error(message::performance_index, "", {});
}

Performed perform(const Performance& music, const PerformOptions& options) {
    check(music);
    if (options.by == PerformBy::tuning)
        return TuningRenderer(music, options).run();
    return BendRenderer(music, options).run();
}

} // namespace sectio::tuning
