#include <sectio/identify/namesakes.hpp>
#include <sectio/scale/lookup.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// The same pitches from the same tonic, or from a degree that the scale begins anew from, as a
/// scale of equal steps does from each.
bool are_one(const Candidate& a, const Candidate& b) {
    const auto near = a.scale->nearest(b.tonic_cents - a.tonic_cents);
    return std::abs(near.above) < same_place && same_pitches(scale_of(a), 0, scale_of(b))
           && (near.degree == 0 || same_pitches(scale_of(a), near.degree, scale_of(a)));
}

/// A candidate, and the probability of the best of those that it was made of.
struct Joined {
    Candidate candidate;
    double best;
};

bool knows(const Candidate& candidate, const LibraryScale* scale) {
    return candidate.scale == scale
           || std::find(candidate.namesakes.begin(), candidate.namesakes.end(), scale)
                  != candidate.namesakes.end();
}

/// The best place stands for all; of equal ones that with the lowest degree on the first pitch.
void take_in(Joined& joined, const Candidate& other) {
    constexpr double equal = 1 - 1e-6; // equal but for the last digits of doubles
    Candidate& candidate = joined.candidate;
    candidate.probability += other.probability;
    if (other.probability > joined.best * equal && other.start_degree < candidate.start_degree) {
        candidate.start_degree = other.start_degree;
        candidate.tonic_cents = other.tonic_cents;
    }
    if (knows(candidate, other.scale))
        return;
    candidate.namesakes.push_back(other.scale);
    if (other.scale->entry.common() && !candidate.scale->entry.common())
        std::swap(candidate.scale, candidate.namesakes.back());
}

/// Deviations up to this many spreads are what practice does.
constexpr double usual_spreads = 2;

/// Farther from its degree than the narrowest practice and its own measurement account for.
bool lies_off(const PitchFit& fit, const SetPitch& pitch, double narrowest) {
    return fit.deviation * fit.deviation
           > usual_spreads * usual_spreads * (narrowest * narrowest + pitch.variance);
}

} // namespace

std::size_t equal_rotations(const Scale& scale) {
    std::size_t count = 1;
    for (std::size_t shift = 1; shift < scale.degrees.size(); ++shift)
        count += same_pitches(scale, shift, scale) ? 1 : 0;
    return count;
}

void join_namesakes(std::vector<Candidate>& candidates) {
    std::vector<Joined> joined;
    for (Candidate& candidate : candidates) {
        const auto first = std::find_if(joined.begin(), joined.end(), [&](const Joined& j) {
            return are_one(j.candidate, candidate);
        });
        if (first != joined.end())
            take_in(*first, candidate);
        else
            joined.push_back({candidate, candidate.probability});
    }
    std::stable_sort(joined.begin(), joined.end(), [](const Joined& a, const Joined& b) {
        return a.candidate.probability > b.candidate.probability;
    });
    candidates.clear();
    for (Joined& j : joined)
        candidates.push_back(std::move(j.candidate));
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

std::vector<DegreeDifference> differences(const Candidate& candidate, const PitchSet& set,
                                          const std::vector<double>& spreads) {
    const LibraryScale& scale = *candidate.scale;
    const Placement placement = refined(scale, set.pitches, candidate.tonic_cents, spreads);
    std::vector<char> used(scale.degrees.size(), 0);
    std::vector<DegreeDifference> found;
    const double narrowest = *std::min_element(spreads.begin(), spreads.end());
    const auto fits = pitch_fits(scale, set.pitches, placement);
    for (std::size_t i = 0; i < fits.size(); ++i) {
        if (fits[i].matched)
            used[fits[i].degree] = 1;
        if (!fits[i].matched || lies_off(fits[i], set.pitches[i], narrowest))
            found.push_back(
                {fits[i].degree + 1, set.intervals[i], fits[i].deviation, fits[i].matched});
    }
    for (std::size_t degree = 0; degree < used.size(); ++degree)
        if (!used[degree])
            found.push_back({degree + 1, std::nullopt, 0, false});
    return found;
}

} // namespace sectio
