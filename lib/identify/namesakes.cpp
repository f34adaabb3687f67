#include <sectio/identify/namesakes.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Of scales of the same pitches: on the same tonic, or on a degree that the scale repeats
/// from, as a scale of equal steps does from each.
bool are_one(const Candidate& a, const Candidate& b) {
    const auto near = a.scale->nearest(b.tonic_cents - a.tonic_cents);
    return std::abs(near.above) < same_place && near.degree % a.scale->repeats_after == 0;
}

/// A candidate, and the probability of the best of those that it was made of.
struct Joined {
    Candidate* candidate;
    double best;
    Joined* next = nullptr; ///< of the same pitches
};

bool knows(const Candidate& candidate, const LibraryScale* scale) {
    return candidate.scale == scale
           || std::find(candidate.namesakes.begin(), candidate.namesakes.end(), scale)
                  != candidate.namesakes.end();
}

/// The best place stands for all; of equal ones that with the lowest degree on the first pitch.
void take_in(Joined& joined, const Candidate& other) {
    constexpr double equal = 1 - 1e-6; // equal but for the last digits of doubles
    Candidate& candidate = *joined.candidate;
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
bool lies_off(const PitchFit& fit, const PitchOfSet& pitch, double narrowest) {
    return fit.deviation * fit.deviation
           > usual_spreads * usual_spreads * (narrowest * narrowest + pitch.variance);
}

/// "Maqām Athar Kurd (Arab)", where scales of other traditions have the same pitches.
std::string with_tradition(const Candidate& candidate, const LibraryScale& scale) {
    const auto other = [&](const LibraryScale* s) {
        return s->entry.tradition() != candidate.scale->entry.tradition();
    };
    const std::string& tradition = scale.entry.tradition();
    return tradition.empty() || std::ranges::none_of(candidate.namesakes, other)
               ? scale.entry.name
               : fmt::format("{} ({})", scale.entry.name, tradition);
}

} // namespace

std::string all_names_of(const Candidate& candidate) {
    constexpr const char* numbers[]{"four", "five", "six", "seven", "eight", "nine"};
    constexpr std::size_t first = 4; // of these
    const std::size_t others = candidate.namesakes.size();
    const std::string name = with_tradition(candidate, *candidate.scale)
                             + (candidate.tonic.empty() ? "" : " on " + candidate.tonic);
    if (others >= first)
        return fmt::format("{} or one of {} others of the same pitches", name,
                           others - first < std::size(numbers) ? numbers[others - first]
                                                               : std::to_string(others));
    std::string names = name;
    for (std::size_t i = 0; i < others; ++i)
        names +=
            (i + 1 < others ? ", " : " or ") + with_tradition(candidate, *candidate.namesakes[i]);
    return names;
}

void join_namesakes(std::vector<Candidate>& candidates) {
    std::vector<Joined> joined;
    joined.reserve(candidates.size());
    std::size_t pitches = 0;
    for (const Candidate& candidate : candidates)
        pitches = std::max(pitches, candidate.scale->pitches + 1);
    std::vector<Joined*> with_pitches(pitches);
    for (Candidate& candidate : candidates) {
        Joined** same = &with_pitches[candidate.scale->pitches];
        while (*same && !are_one(*(*same)->candidate, candidate))
            same = &(*same)->next;
        if (*same)
            take_in(**same, candidate);
        else
            *same = &joined.emplace_back(Joined{&candidate, candidate.probability});
    }
    std::stable_sort(joined.begin(), joined.end(), [](const Joined& a, const Joined& b) {
        return a.candidate->probability > b.candidate->probability;
    });
    std::vector<Candidate> kept;
    kept.reserve(joined.size());
    for (const Joined& j : joined)
        kept.push_back(std::move(*j.candidate));
    candidates = std::move(kept);
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
    PitchSetFit fit(set.pitches, spreads);
    const Placement placement = fit.refined(scale, candidate.tonic_cents);
    std::vector<char> used(scale.degrees.size(), 0);
    std::vector<DegreeDifference> found;
    const double narrowest = *std::min_element(spreads.begin(), spreads.end());
    const auto fits = fit.pitch_fits(scale, placement);
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
