#include "aubio_pitch.hpp"

#include "scenes.hpp"

#ifdef SECTIO_AUBIO
#include <aubio/aubio.h>
#endif

#include <algorithm>

namespace pitch_study {

double quantile(std::vector<double> values, double part) {
    if (values.empty())
        return 0;
    std::sort(values.begin(), values.end());
    return values[std::min(values.size() - 1,
                           static_cast<std::size_t>(part * static_cast<double>(values.size())))];
}

#ifdef SECTIO_AUBIO
double median_by_aubio(const char* method, std::span<const float> sound) {
    constexpr uint_t frame = 4096, hop = 1024;
    aubio_pitch_t* pitch = new_aubio_pitch(method, frame, hop, scene_rate);
    fvec_t *input = new_fvec(hop), *output = new_fvec(1);
    std::vector<double> found;
    for (std::size_t at = 0; at + hop <= sound.size(); at += hop) {
        std::copy_n(sound.begin() + static_cast<std::ptrdiff_t>(at), hop, input->data);
        aubio_pitch_do(pitch, input, output);
        if (at >= frame && output->data[0] > 0)
            found.push_back(static_cast<double>(output->data[0]));
    }
    del_fvec(input), del_fvec(output), del_aubio_pitch(pitch);
    return quantile(found, 0.5);
}
#endif

} // namespace pitch_study
