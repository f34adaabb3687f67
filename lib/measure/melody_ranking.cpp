#include <sectio/measure/candidates.hpp>

namespace sectio {

Ranking melody_ranking(const Melody& melody, const ScaleLibrary& library,
                       const IdentifyOptions& options) {
    return set_ranking(pitch_set(melody, options.uncertainty), library, options);
}

} // namespace sectio
