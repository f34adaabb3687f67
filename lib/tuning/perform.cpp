#include <sectio/tuning/bend_player.hpp>

namespace sectio::tuning {

Performed perform(const Performance& music, const PerformOptions& options) {
    return BendPlayer(music, options).run();
}

} // namespace sectio::tuning
