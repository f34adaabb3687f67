#include <sectio/identify/candidates.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/course.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>

namespace sectio {

namespace {

/// Octaves about a known tonic that a melody by ear may lie in: whoever names the tonic of a
/// recording names a note, not its octave.
constexpr int heard_octaves = 2;
/// One scale at places closer than this, in cents, is one candidate.
constexpr double one_tonic = 50;

std::vector<int> known_tonics(const Course& course, double known) {
    std::vector<int> tonics;
    if (course.heard) {
        for (int octave = -heard_octaves; octave <= heard_octaves; ++octave)
            tonics.push_back(bin_of(known) + octave * bins_per_octave);
        return tonics;
    }
    for (const Share& s : course.stage(Stage::whole).shares)
        if (std::abs(s.bin * cents_per_bin - known) <= tonic_window)
            tonics.push_back(s.bin);
    if (tonics.empty())
        tonics.push_back(bin_of(known));
    return tonics;
}

double log_sum(double a, double b) {
    const double high = std::max(a, b);
    return std::isinf(high) ? high : high + std::log(std::exp(a - high) + std::exp(b - high));
}

Weighed weighed_at(const Course& course, const LibraryScale& scale, const StageTables& tables,
                   int tonic, double reference) {
    Weighed w;
    w.candidate.scale = &scale;
    w.candidate.tonic_cents = tonic * cents_per_bin - reference;
    w.log_weight = course_evidence(course, scale, tables, tonic).total();
    return w;
}

/// Where the tonic may lie in truth, in bins off where it is said or heard to be, and the logarithm
/// of how probable each is. What is written stands where it is written.
std::vector<std::pair<int, double>> tonic_errors(double spread) {
    if (spread == 0)
        return {{0, 0}};
    constexpr int farthest = 4, step = 2; // two standard deviations of 11 cents, each half
    std::vector<std::pair<int, double>> errors;
    double sum = 0;
    for (int bins = -farthest; bins <= farthest; bins += step) {
        const double away = bins * cents_per_bin / spread;
        errors.emplace_back(bins, -away * away / 2);
        sum += std::exp(errors.back().second);
    }
    for (auto& error : errors)
        error.second -= std::log(sum);
    return errors;
}

/// Adds the weight of `other`, and takes its place where that weighs more.
void join(Weighed& weighed, const Weighed& other) {
    if (other.log_weight > weighed.log_weight)
        weighed.candidate.tonic_cents = other.candidate.tonic_cents;
    weighed.log_weight = log_sum(weighed.log_weight, other.log_weight);
}

/// `scale` with its tonic about `tonic`, wherever it lies there in truth.
Weighed weighed(const Course& course, const LibraryScale& scale, const StageTables& tables,
                int tonic, double reference) {
    std::optional<Weighed> sum;
    for (const auto& [error, log_prior] : tonic_errors(course.strengths().tonic_spread)) {
        Weighed w = weighed_at(course, scale, tables, tonic + error, reference);
        w.log_weight += log_prior;
        if (sum)
            join(*sum, w);
        else
            sum = std::move(w);
    }
    return *sum;
}

/// A tonic and its octave are one answer, and so are places that are close to one another.
bool one_answer(const Candidate& a, const Candidate& b) {
    return std::abs(std::remainder(a.tonic_cents - b.tonic_cents, 1200)) < one_tonic;
}

/// A scale of several forms is one candidate: the form that fits stands for it, with the mean
/// weight of all of them.
void join_forms(std::vector<Weighed>& all, const ScaleLibrary& library) {
    std::map<std::string, const LibraryScale*> by_id;
    std::map<std::string, double> forms;
    for (const LibraryScale& scale : library.scales()) {
        by_id[scale.entry.id] = &scale;
        ++forms[scale.entry.form_of().empty() ? scale.entry.id : scale.entry.form_of()];
    }
    std::vector<Weighed> joined;
    std::multimap<std::string, std::size_t> seen;
    for (Weighed& w : all) {
        const Entry& entry = w.candidate.scale->entry;
        const std::string& id = entry.form_of().empty() ? entry.id : entry.form_of();
        const auto base = by_id.find(id);
        if (base != by_id.end())
            w.candidate.scale = base->second;
        w.log_weight -= std::log(forms[id]);
        const auto [from, to] = seen.equal_range(id);
        const auto near = std::find_if(from, to, [&](const auto& other) {
            return one_answer(joined[other.second].candidate, w.candidate);
        });
        if (near == to) {
            seen.emplace(id, joined.size());
            joined.push_back(std::move(w));
        } else {
            join(joined[near->second], w);
        }
    }
    all = std::move(joined);
}

} // namespace

CandidateRanking melody_ranking(const Course& course, const PitchSet& set,
                                const ScaleLibrary& library, const IdentifyOptions& options) {
    const double reference = cents_of(set.reference);
    const auto tonics = options.tonic.kind == KnownTonic::Kind::known
                            ? known_tonics(course, reference + cents_of(options.tonic.at))
                            : possible_tonics(course);
    std::vector<Weighed> all;
    for (const LibraryScale& scale : library.scales()) {
        const StageTables tables = stage_tables(scale, course.strengths());
        for (const int tonic : tonics)
            all.push_back(weighed(course, scale, tables, tonic, reference));
    }
    join_forms(all, library);
    const double scales = static_cast<double>(std::max<std::size_t>(library.scales().size(), 1));
    for (Weighed& w : all)
        w.log_weight += std::log((1 - none_prior) / scales);
    CandidateRanking ranking =
        ranked(std::move(all), std::log(none_prior) + unknown_scale_evidence(course));
    for (Candidate& c : ranking.candidates) {
        const int tonic = bin_of(c.tonic_cents + reference);
        const auto tables = stage_tables(*c.scale, course.strengths());
        c.course =
            course_text(course, *c.scale, tonic, course_evidence(course, *c.scale, tables, tonic));
    }
    return ranking;
}

} // namespace sectio
