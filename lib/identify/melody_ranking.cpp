#include <sectio/identify/candidates.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/progression.hpp>
#include <sectio/identify/why.hpp>

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>

namespace sectio {

namespace {

/// Octaves about a known tonic that a melody by ear may lie in: whoever names the tonic of a
/// recording names a note, not its octave.
constexpr int heard_octaves = 2;
/// One scale at places closer than this, in cents, is one candidate.
constexpr double one_tonic = 50;
/// How many of the notes of a long melody are independent is not known: the evidence counts for
/// three times as much as it is taken for, or for this part of it, one as probable as the other.
constexpr double more_evidence = 3, less_evidence = 0.6;

std::vector<int> known_tonics(const Progression& progression, double known) {
    std::vector<int> tonics;
    if (progression.heard) {
        for (int octave = -heard_octaves; octave <= heard_octaves; ++octave)
            tonics.push_back(bin_of(known) + octave * bins_per_octave);
        return tonics;
    }
    for (const Share& s : progression.by_time.shares)
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

Weighed weighed_at(const Progression& progression, const LibraryScale& scale,
                   const StageTables& tables, int tonic, double reference) {
    Weighed w;
    w.scale = &scale;
    w.tonic_cents = tonic * cents_per_bin - reference;
    w.log_weight = progression_evidence(progression, scale, tables, tonic).total();
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
        weighed.tonic_cents = other.tonic_cents;
    weighed.log_weight = log_sum(weighed.log_weight, other.log_weight);
}

/// `scale` with its tonic about `tonic`, wherever it lies there in truth.
Weighed weighed(const Progression& progression, const LibraryScale& scale,
                const StageTables& tables, int tonic, double reference) {
    std::optional<Weighed> sum;
    for (const auto& [error, log_prior] : tonic_errors(progression.strengths().tonic_spread)) {
        Weighed w = weighed_at(progression, scale, tables, tonic + error, reference);
        w.log_weight += log_prior;
        if (sum)
            join(*sum, w);
        else
            sum = std::move(w);
    }
    return *sum;
}

/// The note of the staff that lies there; with a major third D♭ and A♭, which have fewer signs
/// then than C♯ and G♯.
std::string key_name(const LibraryScale& scale, int tonic) {
    constexpr int middle_c = 60;
    constexpr double major_third = 400, quarter_tone = 50;
    const int key = middle_c + static_cast<int>(std::lround(tonic * cents_per_bin / 100));
    const NoteName usual = usual_note(key).name;
    const bool sharp = usual == NoteName{'C', 2} || usual == NoteName{'G', 2};
    if (!sharp || std::abs(scale.nearest(major_third).above) > quarter_tone)
        return usual.text(true);
    return note_with_letter(key, usual.letter == 'C' ? 'D' : 'A')->name.text(true);
}

/// A tonic and its octave are one answer, and so are places that are close to one another.
bool one_answer(const Weighed& a, const Weighed& b) {
    return std::abs(std::remainder(a.tonic_cents - b.tonic_cents, 1200)) < one_tonic;
}

/// Which scale of the library each is a form of, most of themselves, and of how many forms that is.
/// Where the library lacks it, the first of the forms stands for it.
struct Forms {
    std::vector<std::size_t> base;
    std::vector<double> count;
};

Forms forms_of(const std::vector<LibraryScale>& scales) {
    std::map<std::string, std::size_t> by_id;
    for (std::size_t i = 0; i < scales.size(); ++i)
        by_id[scales[i].entry.id] = i;
    Forms forms{std::vector<std::size_t>(scales.size()), std::vector<double>(scales.size())};
    for (std::size_t i = 0; i < scales.size(); ++i) {
        const std::string& of = scales[i].entry.form_of();
        forms.base[i] = by_id.try_emplace(of.empty() ? scales[i].entry.id : of, i).first->second;
        ++forms.count[forms.base[i]];
    }
    return forms;
}

/// A scale of several forms is one candidate: the form that fits stands for it, with the mean
/// weight of all of them.
void join_forms(std::vector<Weighed>& all, const std::vector<LibraryScale>& scales) {
    const Forms forms = forms_of(scales);
    std::vector<Weighed> joined;
    std::vector<std::vector<std::size_t>> seen(scales.size());
    for (Weighed& w : all) {
        const std::size_t base = forms.base[static_cast<std::size_t>(w.scale - scales.data())];
        w.scale = &scales[base];
        w.log_weight -= std::log(forms.count[base]);
        const auto near = std::find_if(seen[base].begin(), seen[base].end(),
                                       [&](std::size_t i) { return one_answer(joined[i], w); });
        if (near == seen[base].end()) {
            seen[base].push_back(joined.size());
            joined.push_back(std::move(w));
        } else {
            join(joined[*near], w);
        }
    }
    all = std::move(joined);
}

/// The mean of what both readings of the evidence make of the candidates listed, which keeps their
/// order and their probability together.
void count_otherwise(std::vector<Candidate>& candidates, const Progression& progression) {
    double together = 0;
    for (const Candidate& c : candidates)
        together += c.probability;
    std::vector<double> said(candidates.size());
    for (const double counts_for : {more_evidence, less_evidence}) {
        const double counted = std::pow(counts_for, share_counted(progression));
        std::vector<double> shares;
        for (const Candidate& c : candidates)
            shares.push_back(std::pow(c.probability / candidates.front().probability, counted));
        const double sum = std::accumulate(shares.begin(), shares.end(), 0.0);
        for (std::size_t i = 0; i < said.size(); ++i)
            said[i] += together / 2 * shares[i] / sum;
    }
    for (std::size_t i = 0; i < said.size(); ++i)
        candidates[i].probability = said[i];
}

} // namespace

CandidateRanking melody_ranking(const Progression& progression, const PitchSet& set,
                                const ScaleLibrary& library, const IdentifyOptions& options) {
    const double reference = cents_of(set.reference);
    const auto tonics = options.tonic.kind == KnownTonic::Kind::known
                            ? known_tonics(progression, reference + cents_of(options.tonic.at))
                            : possible_tonics(progression);
    const std::vector<LibraryScale>& scales = library.scales();
    const auto& tables = library.tables().of(scales, progression.strengths());
    std::vector<Weighed> all;
    for (std::size_t i = 0; i < scales.size(); ++i)
        for (const int tonic : tonics)
            all.push_back(weighed(progression, scales[i], tables[i], tonic, reference));
    join_forms(all, scales);
    const double count = static_cast<double>(std::max<std::size_t>(scales.size(), 1));
    for (Weighed& w : all)
        w.log_weight += std::log((1 - none_prior) / count);
    CandidateRanking ranking =
        ranked(std::move(all), std::log(none_prior) + unknown_scale_evidence(progression));
    if (progression.in_time && progression.strengths().of_what == MelodyKind::written)
        count_otherwise(ranking.candidates, progression);
    return ranking;
}

void tell_progression(Identification& answer, const Progression& progression, const PitchSet& set,
                      const ScaleLibrary& library) {
    const double reference = cents_of(set.reference);
    const auto& tables = library.tables().of(library.scales(), progression.strengths());
    const auto laid = [&](const Candidate& c) {
        return Laid{*c.scale, tables[static_cast<std::size_t>(c.scale - library.scales().data())],
                    bin_of(c.tonic_cents + reference)};
    };
    for (Candidate& c : answer.candidates) {
        const Laid at = laid(c);
        if (progression.in_twelve)
            c.tonic = key_name(at.scale, at.tonic);
        c.progression =
            progression_text(progression, at.scale, at.tonic,
                             progression_evidence(progression, at.scale, at.tables, at.tonic));
    }
    if (progression.in_time && answer.verdict != Verdict::none && answer.candidates.size() > 1)
        answer.why = reasons(progression, laid(answer.candidates[0]), laid(answer.candidates[1]));
}

} // namespace sectio
