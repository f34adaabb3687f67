#include <sectio/identify/candidates.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/course.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace sectio {

namespace {

/// Pitches that may be the tonic: the final note, and what sounds for at least this share.
constexpr double least_tonic_share = 0.03;
/// How far a known tonic may lie from a pitch of the melody, in cents.
constexpr double tonic_window = 50;

std::vector<double> possible_tonics(const Course& course, const PitchSet& set,
                                    const KnownTonic& tonic) {
    const double reference = cents_of(set.reference);
    const double known = reference + cents_of(tonic.at);
    std::vector<double> tonics;
    for (const Share& pitch : course.pitches) {
        const bool allowed = tonic.kind == KnownTonic::Kind::known
                                 ? std::abs(pitch.cents - known) <= tonic_window
                                 : pitch.share >= least_tonic_share
                                       || (course.in_time && pitch.cents == course.final_cents);
        if (allowed)
            tonics.push_back(pitch.cents);
    }
    if (tonics.empty() && tonic.kind == KnownTonic::Kind::known)
        tonics.push_back(known);
    return tonics;
}

double log_sum(double a, double b) {
    const double high = std::max(a, b);
    return std::isinf(high) ? high : high + std::log(std::exp(a - high) + std::exp(b - high));
}

Weighed weighed(const Course& course, const LibraryScale& scale, double tonic, double reference) {
    const CourseEvidence evidence = course_evidence(course, scale, tonic);
    Weighed w;
    w.candidate.scale = &scale;
    w.candidate.tonic_cents = tonic - reference;
    w.log_weight = evidence.total();
    return w;
}

/// Adds the weight of `other`, and takes its place where that weighs more.
void join(Weighed& weighed, const Weighed& other) {
    if (other.log_weight > weighed.log_weight)
        weighed.candidate.tonic_cents = other.candidate.tonic_cents;
    weighed.log_weight = log_sum(weighed.log_weight, other.log_weight);
}

/// A scale of several forms is one candidate: the form that fits stands for it, with the mean
/// weight of all of them.
void join_forms(std::vector<Weighed>& all, const ScaleLibrary& library) {
    std::map<std::string, const LibraryScale*> by_id;
    std::map<std::string, double> forms;
    for (const LibraryScale& scale : library.scales()) {
        by_id[scale.entry.id] = &scale;
        ++forms[scale.entry.form_of.empty() ? scale.entry.id : scale.entry.form_of];
    }
    std::map<std::pair<std::string, long>, std::size_t> seen;
    std::vector<Weighed> joined;
    for (Weighed& w : all) {
        const Entry& entry = w.candidate.scale->entry;
        const std::string& id = entry.form_of.empty() ? entry.id : entry.form_of;
        const auto base = by_id.find(id);
        if (base != by_id.end())
            w.candidate.scale = base->second;
        w.log_weight -= std::log(forms[id]);
        // A tonic and its octave are one answer.
        const auto place = std::lround(w.candidate.tonic_cents
                                       - 1200 * std::floor(w.candidate.tonic_cents / 1200));
        const auto [at, is_new] = seen.try_emplace({id, place}, joined.size());
        if (is_new)
            joined.push_back(std::move(w));
        else
            join(joined[at->second], w);
    }
    all = std::move(joined);
}

} // namespace

Ranking melody_ranking(const Melody& melody, const PitchSet& set, const ScaleLibrary& library,
                       const IdentifyOptions& options) {
    const Course course = course_of(melody);
    const double reference = cents_of(set.reference);
    const auto tonics = possible_tonics(course, set, options.tonic);
    std::vector<Weighed> all;
    for (const LibraryScale& scale : library.scales())
        for (const double tonic : tonics)
            all.push_back(weighed(course, scale, tonic, reference));
    join_forms(all, library);
    const double scales = static_cast<double>(std::max<std::size_t>(library.scales().size(), 1));
    for (Weighed& w : all)
        w.log_weight += std::log((1 - none_prior) / scales);
    Ranking ranking = ranked(std::move(all), std::log(none_prior) + unknown_scale_evidence(course));
    for (Candidate& c : ranking.candidates) {
        const double tonic = c.tonic_cents + reference;
        c.course = course_text(course, *c.scale, tonic, course_evidence(course, *c.scale, tonic));
    }
    return ranking;
}

} // namespace sectio
