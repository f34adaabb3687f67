#include <sectio/tuning/bend_player.hpp>
#include <sectio/tuning/tuning_player.hpp>

namespace sectio::tuning {

Performed perform(const Performance& music, const PerformOptions& options) {
    if (options.by == PerformBy::tuning)
        return TuningPlayer(music, options).run();
    return BendPlayer(music, options).run();
}

} // namespace sectio::tuning
