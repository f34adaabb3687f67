#include <sectio/identify/candidates.hpp>
#include <sectio/identify/cents.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <tuple>
#include <utility>

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

/// A place of all scales of the same pitches; refined when it is first asked for.
struct Proposal {
    double shift, quick;
    std::optional<Weighed> weighed; ///< but for the scale
};

struct Promise {
    const LibraryScale* scale;
    std::size_t place;
    double quick;
};

/// log of the density of the shift before the pitches are looked at, per cent.
class ShiftPrior {
  public:
    ShiftPrior(const LibraryScale& scale, const KnownTonic& tonic, double at)
        : at_(at), period_(scale.period), circle_(scale.circle()) {
        const double within = 1 / (2 * tonic_window), anywhere = 1 / circle_;
        const auto log_of = [&](double inside) {
            return std::log(tonic.kind == KnownTonic::Kind::known  ? inside
                            : tonic.kind == KnownTonic::Kind::free ? anywhere
                                                                   : (inside + anywhere) / 2);
        };
        inside_ = log_of(within);
        outside_ = log_of(0);
    }

    double operator()(double shift) const {
        double away = std::abs(shift - at_);
        if (period_ > 0)
            away = std::min(std::fmod(away, period_), period_ - std::fmod(away, period_));
        return away <= tonic_window ? inside_ : outside_;
    }

    double highest() const { return inside_; }
    bool serves(const LibraryScale& scale) const {
        return scale.period == period_ && scale.circle() == circle_;
    }

  private:
    double at_, period_, circle_, inside_ = 0, outside_ = 0;
};

/// Lays a set on the scales of a library.
class PlacementRanking {
  public:
    PlacementRanking(const PitchSet& set, const ScaleLibrary& library,
                     const IdentifyOptions& options)
        : library_(library), tonic_(options.tonic),
          at_(tonic_.kind == KnownTonic::Kind::known ? cents_of(tonic_.at) : 0),
          scale_prior_(
              std::log((1 - none_prior_of(set.pitches.size()))
                       / static_cast<double>(std::max<std::size_t>(library.scales().size(), 1)))),
          fit_(set.pitches, all_spreads_of(options)),
          most_(std::clamp(most_looks / set.pitches.size(), least_places, most_places)) {}

    std::vector<Weighed> weighed() {
        std::vector<Weighed> all;
        for (const Promise& promise : promising()) {
            Proposal& place = places_[promise.place];
            if (!place.weighed)
                place.weighed = looked_at(*promise.scale, place.shift);
            if (std::isinf(place.weighed->log_weight))
                continue;
            all.push_back(*place.weighed);
            all.back().scale = promise.scale;
        }
        return all;
    }

  private:
    /// By the pitches of scales, from which of the places on, and up to which, they lie.
    using Proposals = std::vector<std::pair<std::size_t, std::size_t>>;

    Proposals proposals();
    const ShiftPrior& prior_of(const LibraryScale& scale);
    void propose(const LibraryScale& scale);
    std::vector<Promise> promising();
    Weighed looked_at(const LibraryScale& scale, double shift);

    const ScaleLibrary& library_;
    const KnownTonic& tonic_;
    double at_;          ///< the known tonic
    double scale_prior_; ///< its logarithm
    PitchSetFit fit_;
    std::size_t most_;
    std::vector<Proposal> places_;
    std::optional<ShiftPrior> prior_;                        ///< of the last scale
    double best_ = -std::numeric_limits<double>::infinity(); ///< of the quick scores
};

const ShiftPrior& PlacementRanking::prior_of(const LibraryScale& scale) {
    return prior_ && prior_->serves(scale) ? *prior_ : prior_.emplace(scale, tonic_, at_);
}

/// Adds the places of one scale. A quick score farther below the best than the range says nothing;
/// the limit is a little lower, for the last digits.
void PlacementRanking::propose(const LibraryScale& scale) {
    constexpr double last_digits = 1e-6;
    const ShiftPrior& prior = prior_of(scale);
    const double least = best_ - range_of_all - prior.highest() - last_digits;
    if (fit_.best_quick(scale) < least)
        return;
    for (const Placement& p : fit_.quick_placements(scale, places_per_scale, least)) {
        const double quick = p.log_evidence + prior(p.shift);
        best_ = std::max(best_, quick);
        if (quick >= best_ - range_of_all && !std::isinf(quick))
            places_.push_back({p.shift, quick, {}});
    }
}

/// Scales of few degrees go first: they score high, and then the large ones need not be looked at.
PlacementRanking::Proposals PlacementRanking::proposals() {
    Proposals known;
    for (const std::size_t i : library_.different()) {
        const LibraryScale& scale = library_.scales()[i];
        if (known.size() <= scale.pitches)
            known.resize(scale.pitches + 1);
        const std::size_t first = places_.size();
        propose(scale);
        known[scale.pitches] = {first, places_.size()};
    }
    return known;
}

std::vector<Promise> PlacementRanking::promising() {
    const Proposals known = proposals();
    std::vector<Promise> promises;
    for (const LibraryScale& scale : library_.scales()) {
        const auto [first, end] = known[scale.pitches];
        for (std::size_t i = first; i < end; ++i)
            if (const double quick = places_[i].quick; quick >= best_ - range_of_all)
                promises.push_back({&scale, i, quick});
    }
    if (promises.size() <= most_)
        return promises;
    std::stable_sort(promises.begin(), promises.end(),
                     [](const Promise& a, const Promise& b) { return a.quick > b.quick; });
    promises.resize(most_, Promise{});
    return promises;
}

/// Rotations of the same pitches are equal but for the last digits, which decide nothing: they are
/// rounded away.
Weighed PlacementRanking::looked_at(const LibraryScale& scale, double shift) {
    constexpr double digits = 0x1p36;
    const Placement placement = fit_.refined(scale, shift);
    const double log = scale_prior_ + prior_of(scale)(placement.shift) + placement.log_evidence;
    return {nullptr, placement.shift, scale.nearest(-placement.shift).degree + 1,
            std::round(log * digits) / digits};
}

/// One scale on one degree is one candidate: of places that come together the better stays.
void keep_best_of_each(std::vector<Weighed>& weighed, const std::vector<LibraryScale>& scales) {
    std::sort(weighed.begin(), weighed.end(), [](const Weighed& a, const Weighed& b) {
        return std::tuple(-a.log_weight, a.scale, a.start_degree, a.tonic_cents)
               < std::tuple(-b.log_weight, b.scale, b.start_degree, b.tonic_cents);
    });
    std::vector<std::size_t> first(scales.size()); // of its degrees among those of all
    std::size_t degrees = 0;
    for (std::size_t i = 0; i < scales.size(); ++i)
        first[i] = std::exchange(degrees, degrees + scales[i].degrees.size());
    std::vector<char> seen(degrees);
    std::erase_if(weighed, [&](const Weighed& w) {
        const auto scale = static_cast<std::size_t>(w.scale - scales.data());
        return std::exchange(seen[first[scale] + w.start_degree - 1], 1) != 0;
    });
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

double none_prior_of(std::size_t pitches) {
    constexpr double few = 6;
    const double odds = std::max(1.0, static_cast<double>(pitches) / few);
    return odds / (1 + odds);
}

CandidateRanking ranked(std::vector<Weighed> weighed, double none_log_weight) {
    const auto heavier = [](const Weighed& a, const Weighed& b) {
        return a.log_weight > b.log_weight;
    };
    if (!std::is_sorted(weighed.begin(), weighed.end(), heavier))
        std::stable_sort(weighed.begin(), weighed.end(), heavier);
    const double highest =
        weighed.empty() ? none_log_weight : std::max(none_log_weight, weighed.front().log_weight);
    double sum = std::exp(none_log_weight - highest);
    for (const Weighed& w : weighed)
        sum += std::exp(w.log_weight - highest);
    CandidateRanking ranking;
    ranking.none_probability = std::exp(none_log_weight - highest) / sum;
    const double least = weighed.empty() ? 0 : weighed.front().log_weight + std::log(least_listed);
    for (const Weighed& w : weighed) {
        const double probability = std::exp(w.log_weight - highest) / sum;
        if (w.log_weight < least) {
            ranking.others_probability += probability;
            continue;
        }
        Candidate& candidate = ranking.candidates.emplace_back();
        candidate.scale = w.scale;
        candidate.tonic_cents = w.tonic_cents;
        candidate.start_degree = w.start_degree;
        candidate.probability = probability;
    }
    return ranking;
}

CandidateRanking set_ranking(const PitchSet& set, const ScaleLibrary& library,
                             const IdentifyOptions& options) {
    std::vector<Weighed> weighed = PlacementRanking(set, library, options).weighed();
    keep_best_of_each(weighed, library.scales());
    return ranked(std::move(weighed), std::log(none_prior_of(set.pitches.size())));
}

void describe(std::span<Candidate> candidates, const PitchSet& set,
              const IdentifyOptions& options) {
    PitchSetFit fit(set.pitches, spreads_of(options));
    for (Candidate& candidate : candidates) {
        const LibraryScale& scale = *candidate.scale;
        const Placement placement = fit.refined(scale, candidate.tonic_cents);
        candidate.offset_cents = -scale.nearest(-placement.shift).above;
        candidate.of = set.pitches.size();
        double squares = 0;
        std::set<std::size_t> degrees;
        for (const PitchFit& pitch : fit.pitch_fits(scale, placement)) {
            if (!pitch.matched)
                continue;
            ++candidate.matched;
            degrees.insert(pitch.degree);
            squares += pitch.deviation * pitch.deviation;
            if (std::abs(pitch.deviation) > std::abs(candidate.worst_cents))
                candidate.worst_cents = pitch.deviation;
        }
        candidate.degrees = degrees.size();
        if (candidate.matched > 0)
            candidate.rms_cents = std::sqrt(squares / static_cast<double>(candidate.matched));
    }
}

} // namespace sectio
