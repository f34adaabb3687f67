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
constexpr std::size_t places_per_scale = 16;
/// Places of all scales that are looked at closely, and how far below the best, in the logarithm of
/// the quick score, they may lie: what is left out has e^-10 of the weight of the best by it.
constexpr std::size_t most_places = 3000;
/// Of a large set fewer places are looked at, so that places times pitches stay below this; the
/// quick score of many pitches errs less.
constexpr std::size_t most_looks = 2'000'000, least_places = 100;
constexpr double range_of_all = 10;
/// In place of the quick score where all pitches lie close to degrees.
constexpr double always = std::numeric_limits<double>::infinity();

/// A place of all rotations of a scale; refined when it is first asked for.
struct Proposal {
    const LibraryScale* laid;
    double shift;
    std::optional<Placement> refined;
    std::size_t first = 0; ///< the degree nearest to the first pitch, when refined
};

/// One of them, with its first degree, which is degree `turned` of the scale laid, at `shift`.
struct Promise {
    const LibraryScale* scale;
    std::size_t place, turned;
    double shift, quick;
};

/// log of the density of the shift before the pitches are looked at, per cent.
class ShiftPrior {
  public:
    ShiftPrior(const LibraryScale& scale, const KnownTonic& tonic, double at)
        : at_(at), period_(scale.period), circle_(scale.circle) {
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
        if (period_ > 0) {
            away -= period_ * periods_below(away, period_);
            away = std::min(away, period_ - away);
        }
        return away <= tonic_window ? inside_ : outside_;
    }

    double highest() const { return inside_; }
    bool serves(const LibraryScale& scale) const {
        return scale.period == period_ && scale.circle == circle_;
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

    std::vector<Weighed> weighed();

  private:
    const ShiftPrior& prior_of(const LibraryScale& scale);
    void propose(const std::vector<ScaleLibrary::Turned>& rotations);
    void lay(const std::vector<ScaleLibrary::Turned>& rotations, const LibraryScale& laid,
             double at, double score);
    void find_places();

    const ScaleLibrary& library_;
    const KnownTonic& tonic_;
    double at_;          ///< the known tonic
    double scale_prior_; ///< its logarithm
    PitchSetFit fit_;
    std::size_t most_;
    std::vector<Proposal> places_;
    std::vector<Promise> promises_;
    std::optional<ShiftPrior> prior_;                        ///< of the last scale
    double best_ = -std::numeric_limits<double>::infinity(); ///< of the quick scores
};

const ShiftPrior& PlacementRanking::prior_of(const LibraryScale& scale) {
    return prior_ && prior_->serves(scale) ? *prior_ : prior_.emplace(scale, tonic_, at_);
}

/// Adds a place of `laid` for all its rotations.
void PlacementRanking::lay(const std::vector<ScaleLibrary::Turned>& rotations,
                           const LibraryScale& laid, double at, double score) {
    const ShiftPrior& prior = prior_of(laid);
    for (const auto& [scale, by] : rotations)
        for (std::size_t i = by; i < laid.degrees.size(); i += laid.repeats_after) {
            double shift = at + laid.degrees[i];
            shift -= shift < laid.period ? 0 : laid.period;
            const double quick = score + prior(shift);
            if (quick < always)
                best_ = std::max(best_, quick);
            if (quick >= best_ - range_of_all && quick > -always)
                promises_.push_back({&library_.scales()[scale], places_.size(), i, shift, quick});
        }
    places_.push_back({&laid, at, {}});
}

/// Adds the places of one scale and of its rotations: those that all pitches lie close to, as the
/// quick score does not see what narrow spreads say, and those that it finds. A quick score farther
/// below the best than the range says nothing; the limit is a little lower, for the last digits.
void PlacementRanking::propose(const std::vector<ScaleLibrary::Turned>& rotations) {
    constexpr double last_digits = 1e-6;
    const LibraryScale& laid = library_.scales()[rotations.front().scale];
    const double least = best_ - range_of_all - prior_of(laid).highest() - last_digits;
    for (const double shift : fit_.close_shifts(laid))
        lay(rotations, laid, shift, always);
    if (fit_.best_quick(laid) < least)
        return;
    for (const Placement& p : fit_.quick_placements(laid, places_per_scale, least))
        lay(rotations, laid, p.shift, p.log_evidence);
}

/// Scales of few degrees go first: they score high, and then the large ones need not be looked at.
void PlacementRanking::find_places() {
    for (const auto& rotations : library_.different())
        propose(rotations);
    std::erase_if(promises_, [&](const Promise& p) { return p.quick < best_ - range_of_all; });
    if (promises_.size() <= most_)
        return;
    const auto last = promises_.begin() + static_cast<std::ptrdiff_t>(most_);
    std::nth_element(
        promises_.begin(), last, promises_.end(), [](const Promise& a, const Promise& b) {
            return std::tuple(-a.quick, a.scale, a.shift) < std::tuple(-b.quick, b.scale, b.shift);
        });
    promises_.resize(most_, Promise{});
}

/// Rotations of the same pitches are equal but for the last digits, which decide nothing: they are
/// rounded away.
std::vector<Weighed> PlacementRanking::weighed() {
    constexpr double digits = 0x1p36;
    find_places();
    std::vector<Weighed> all;
    all.reserve(promises_.size());
    for (const Promise& promise : promises_) {
        Proposal& place = places_[promise.place];
        if (!place.refined) {
            place.refined = fit_.refined(*place.laid, place.shift);
            place.first = place.laid->nearest(-place.refined->shift).degree;
        }
        const LibraryScale& scale = *promise.scale;
        const std::size_t count = scale.degrees.size();
        const double shift = promise.shift + (place.refined->shift - place.shift);
        const double log = scale_prior_ + prior_of(scale)(shift) + place.refined->log_evidence;
        if (!std::isinf(log))
            all.push_back({&scale, shift, (place.first + count - promise.turned) % count + 1,
                           std::round(log * digits) / digits});
    }
    return all;
}

/// One scale on one degree is one candidate: of places that come together the better stays. They
/// come to stand in the order of the catalogue.
std::vector<Weighed> best_of_each(const std::vector<Weighed>& weighed,
                                  const std::vector<LibraryScale>& scales) {
    std::vector<std::size_t> first; // of its degrees among those of all
    std::size_t degrees = 0;
    for (const LibraryScale& scale : scales)
        first.push_back(std::exchange(degrees, degrees + scale.degrees.size()));
    std::vector<const Weighed*> best(degrees);
    for (const Weighed& w : weighed) {
        const auto scale = static_cast<std::size_t>(w.scale - scales.data());
        const Weighed*& known = best[first[scale] + w.start_degree - 1];
        if (!known
            || std::pair(-w.log_weight, w.tonic_cents)
                   < std::pair(-known->log_weight, known->tonic_cents))
            known = &w;
    }
    std::vector<Weighed> kept;
    for (const Weighed* w : best)
        if (w)
            kept.push_back(*w);
    return kept;
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
    const auto lighter = [](const Weighed& a, const Weighed& b) {
        return a.log_weight < b.log_weight;
    };
    const auto heaviest = std::max_element(weighed.begin(), weighed.end(), lighter);
    const double least =
        heaviest == weighed.end() ? 0 : heaviest->log_weight + std::log(least_listed);
    const double highest = heaviest == weighed.end()
                               ? none_log_weight
                               : std::max(none_log_weight, heaviest->log_weight);
    CandidateRanking ranking;
    ranking.none_probability = std::exp(none_log_weight - highest);
    double sum = ranking.none_probability;
    std::erase_if(weighed, [&](const Weighed& w) {
        const double weight = std::exp(w.log_weight - highest);
        sum += weight;
        ranking.others_probability += w.log_weight < least ? weight : 0;
        return w.log_weight < least;
    });
    ranking.none_probability /= sum;
    ranking.others_probability /= sum;
    std::stable_sort(weighed.begin(), weighed.end(),
                     [&](const Weighed& a, const Weighed& b) { return lighter(b, a); });
    ranking.candidates.reserve(weighed.size());
    for (const Weighed& w : weighed) {
        Candidate& candidate = ranking.candidates.emplace_back();
        candidate.scale = w.scale;
        candidate.tonic_cents = w.tonic_cents;
        candidate.start_degree = w.start_degree;
        candidate.probability = std::exp(w.log_weight - highest) / sum;
    }
    return ranking;
}

CandidateRanking set_ranking(const PitchSet& set, const ScaleLibrary& library,
                             const IdentifyOptions& options) {
    const std::vector<Weighed> weighed = PlacementRanking(set, library, options).weighed();
    return ranked(best_of_each(weighed, library.scales()),
                  std::log(none_prior_of(set.pitches.size())));
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
