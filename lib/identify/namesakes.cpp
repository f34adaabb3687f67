#include <sectio/identify/namesakes.hpp>
#include <sectio/scale/lookup.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Placements of equal pitches differ by the last digits of doubles only.
constexpr double same_place = 1;

bool are_one(const Candidate& a, const Candidate& b) {
    return std::abs(a.tonic_cents - b.tonic_cents) < same_place
           && same_pitches(*a.scale->entry.scale(), 0, *b.scale->entry.scale());
}

} // namespace

void join_namesakes(std::vector<Candidate>& candidates) {
    std::vector<Candidate> joined;
    for (Candidate& candidate : candidates) {
        const auto first = std::find_if(joined.begin(), joined.end(),
                                        [&](const Candidate& j) { return are_one(j, candidate); });
        if (first == joined.end()) {
            joined.push_back(std::move(candidate));
            continue;
        }
        first->probability += candidate.probability;
        first->namesakes.push_back(candidate.scale);
        if (candidate.scale->entry.common() && !first->scale->entry.common())
            std::swap(first->scale, first->namesakes.back());
    }
    std::stable_sort(joined.begin(), joined.end(), [](const Candidate& a, const Candidate& b) {
        return a.probability > b.probability;
    });
    candidates = std::move(joined);
}

std::vector<Candidate> with_namesakes(const std::vector<Candidate>& candidates) {
    std::vector<Candidate> all;
    for (const Candidate& candidate : candidates) {
        all.push_back(candidate);
        for (const LibraryScale* namesake : candidate.namesakes) {
            all.push_back(candidate);
            all.back().scale = namesake;
        }
    }
    return all;
}

std::vector<Difference> differences(const Candidate& candidate, const PitchSet& set,
                                    const std::vector<double>& spreads) {
    const LibraryScale& scale = *candidate.scale;
    const Placement placement = refined(scale, set.pitches, candidate.tonic_cents, spreads);
    std::vector<char> used(scale.degrees.size(), 0);
    std::vector<Difference> found;
    const auto fits = pitch_fits(scale, set.pitches, placement);
    for (std::size_t i = 0; i < fits.size(); ++i) {
        if (fits[i].matched)
            used[fits[i].degree] = 1;
        else
            found.push_back({fits[i].degree + 1, set.intervals[i], fits[i].deviation});
    }
    for (std::size_t degree = 0; degree < used.size(); ++degree)
        if (!used[degree])
            found.push_back({degree + 1, std::nullopt, 0});
    return found;
}

} // namespace sectio
