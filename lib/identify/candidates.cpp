#include <sectio/identify/candidates.hpp>
#include <sectio/identify/cents.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>

namespace sectio {

namespace {

/// Places of one scale that are looked at closely.
constexpr std::size_t places_per_scale = 8;
/// Places of all scales that are looked at closely, and how far below the best, in the logarithm of
/// the quick score, they may lie: what is left out has e^-12 of the weight of the best.
constexpr std::size_t most_places = 3000;
/// Of a large set fewer places are looked at, so that places times pitches stay below this; the
/// quick score of many pitches errs less.
constexpr std::size_t most_looks = 2'000'000, least_places = 100;
constexpr double range_of_all = 12;

struct Promise {
    const LibraryScale* scale;
    double shift, quick;
};

/// log of the density of the shift before the pitches are looked at, per cent.
double log_shift_prior(const LibraryScale& scale, double shift, const KnownTonic& tonic) {
    const double at = tonic.kind == KnownTonic::Kind::known ? cents_of(tonic.at) : 0;
    double away = std::abs(shift - at);
    if (scale.period > 0)
        away =
            std::min(std::fmod(away, scale.period), scale.period - std::fmod(away, scale.period));
    const double inside = away <= tonic_window ? 1 / (2 * tonic_window) : 0;
    const double anywhere = 1 / scale.circle();
    switch (tonic.kind) {
    case KnownTonic::Kind::known:
        return std::log(inside);
    case KnownTonic::Kind::free:
        return std::log(anywhere);
    case KnownTonic::Kind::likely:
        return std::log((inside + anywhere) / 2);
    }
    return std::log(anywhere);
}

std::vector<Promise> promising(const PitchSet& set, const ScaleLibrary& library,
                               const KnownTonic& tonic) {
    std::vector<Promise> places;
    double best = -std::numeric_limits<double>::infinity();
    for (const LibraryScale& scale : library.scales())
        for (const Placement& p : quick_placements(scale, set.pitches, places_per_scale)) {
            const double quick = p.log_evidence + log_shift_prior(scale, p.shift, tonic);
            if (quick < best - range_of_all)
                continue;
            best = std::max(best, quick);
            places.push_back({&scale, p.shift, quick});
        }
    std::stable_sort(places.begin(), places.end(),
                     [](const Promise& a, const Promise& b) { return a.quick > b.quick; });
    const auto end = std::find_if(places.begin(), places.end(), [&](const Promise& p) {
        return p.quick < best - range_of_all || std::isinf(p.quick);
    });
    places.erase(end, places.end());
    const std::size_t most = std::clamp(most_looks / set.pitches.size(), least_places, most_places);
    places.resize(std::min(places.size(), most), Promise{nullptr, 0, 0});
    return places;
}

/// One scale on one degree is one candidate: of places that come together the better stays.
void keep_best_of_each(std::vector<Weighed>& weighed) {
    std::stable_sort(weighed.begin(), weighed.end(), [](const Weighed& a, const Weighed& b) {
        return a.log_weight > b.log_weight;
    });
    std::vector<Weighed> kept;
    for (Weighed& w : weighed)
        if (std::none_of(kept.begin(), kept.end(), [&](const Weighed& k) {
                return k.candidate.scale == w.candidate.scale
                       && k.candidate.start_degree == w.candidate.start_degree;
            }))
            kept.push_back(std::move(w));
    weighed = std::move(kept);
}

std::size_t start_degree(const LibraryScale& scale, double shift) {
    return scale.nearest(-shift).degree + 1;
}

} // namespace

std::vector<double> spreads_of(const IdentifyOptions& options) {
    if (options.spread)
        return {*options.spread};
    return {std::begin(model::spreads) + model::computed_spreads, std::end(model::spreads)};
}

std::vector<double> all_spreads_of(const IdentifyOptions& options) {
    if (options.spread)
        return {*options.spread};
    return {std::begin(model::spreads), std::end(model::spreads)};
}

CandidateRanking ranked(std::vector<Weighed> weighed, double none_log_weight) {
    std::stable_sort(weighed.begin(), weighed.end(), [](const Weighed& a, const Weighed& b) {
        return a.log_weight > b.log_weight;
    });
    const double highest =
        weighed.empty() ? none_log_weight : std::max(none_log_weight, weighed.front().log_weight);
    double sum = std::exp(none_log_weight - highest);
    for (const Weighed& w : weighed)
        sum += std::exp(w.log_weight - highest);
    CandidateRanking ranking;
    ranking.none_probability = std::exp(none_log_weight - highest) / sum;
    const double least = weighed.empty() ? 0 : weighed.front().log_weight + std::log(least_listed);
    for (Weighed& w : weighed) {
        w.candidate.probability = std::exp(w.log_weight - highest) / sum;
        if (w.log_weight < least)
            ranking.others_probability += w.candidate.probability;
        else
            ranking.candidates.push_back(std::move(w.candidate));
    }
    return ranking;
}

CandidateRanking set_ranking(const PitchSet& set, const ScaleLibrary& library,
                             const IdentifyOptions& options) {
    const auto spreads = all_spreads_of(options);
    const double scale_prior = std::log(
        (1 - none_prior) / static_cast<double>(std::max<std::size_t>(library.scales().size(), 1)));
    std::vector<Weighed> weighed;
    for (const Promise& place : promising(set, library, options.tonic)) {
        const Placement placement = refined(*place.scale, set.pitches, place.shift, spreads);
        const double prior = log_shift_prior(*place.scale, placement.shift, options.tonic);
        if (std::isinf(prior))
            continue;
        Weighed w;
        w.candidate.scale = place.scale;
        w.candidate.tonic_cents = placement.shift;
        w.candidate.start_degree = start_degree(*place.scale, placement.shift);
        w.log_weight = scale_prior + prior + placement.log_evidence;
        weighed.push_back(std::move(w));
    }
    keep_best_of_each(weighed);
    return ranked(std::move(weighed), std::log(none_prior));
}

void describe(std::vector<Candidate>& candidates, const PitchSet& set,
              const IdentifyOptions& options) {
    for (Candidate& candidate : candidates) {
        const LibraryScale& scale = *candidate.scale;
        const Placement placement =
            refined(scale, set.pitches, candidate.tonic_cents, spreads_of(options));
        candidate.offset_cents = -scale.nearest(-placement.shift).above;
        candidate.of = set.pitches.size();
        double squares = 0;
        std::set<std::size_t> degrees;
        for (const PitchFit& fit : pitch_fits(scale, set.pitches, placement)) {
            if (!fit.matched)
                continue;
            ++candidate.matched;
            degrees.insert(fit.degree);
            squares += fit.deviation * fit.deviation;
            if (std::abs(fit.deviation) > std::abs(candidate.worst_cents))
                candidate.worst_cents = fit.deviation;
        }
        candidate.degrees = degrees.size();
        if (candidate.matched > 0)
            candidate.rms_cents = std::sqrt(squares / static_cast<double>(candidate.matched));
    }
}

} // namespace sectio
