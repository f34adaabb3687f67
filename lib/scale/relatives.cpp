#include <sectio/scale/lookup.hpp>

namespace sectio {

bool same_pitches(const Scale& a, std::size_t shift, const Scale& b) {
    const std::size_t count = a.degrees.size();
    if (shift >= count || count != b.degrees.size() || a.period != b.period
        || (shift > 0 && !a.period))
        return false;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t j = i + shift;
        Interval degree = a.degrees[j % count].interval - a.degrees[shift].interval;
        if (j >= count)
            degree += *a.period;
        if (degree != b.degrees[i].interval)
            return false;
    }
    return true;
}

std::vector<Relative> relatives(const Entry& entry, const Catalogue& catalogue) {
    std::vector<Relative> found;
    if (!entry.scale())
        return found;
    const std::size_t rotations = entry.scale()->period ? entry.scale()->degrees.size() : 1;
    for (const Entry& other : catalogue.all()) {
        if (!other.scale() || other.id == entry.id)
            continue;
        for (std::size_t shift = 0; shift < rotations; ++shift)
            if (same_pitches(*entry.scale(), shift, *other.scale())) {
                found.push_back({&other, shift});
                break;
            }
    }
    return found;
}

} // namespace sectio
