// What theory makes of a progression: the likelihoods. docs/identification.md gives the reasons.

#include <sectio/identify/log_factorial.hpp>
#include <sectio/identify/progression.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Notes of a melody depend on one another: of the whole four count as one, of a stage two.
constexpr double notes_for_one = 4, stage_notes_for_one = 2;

// A tonic stands where the theory names it, an octave from there, or anywhere in a transposition.
constexpr double at_named_place = 0.9, octave_away = 0.03, anywhere = 0.05;
/// Log of the factor where the melody does not end on the tonic.
constexpr double other_final = -6;
/// By ear the last note lies about the tonic with this spread in cents, or about its octaves with
/// this log of a factor.
constexpr double final_spread = 45, final_octave = -1;
/// Probability that a melody written in commas is of a scale that theory does not count in commas.
constexpr double foreign_to_commas = 0.0001;
/// Probability that a melody written in the twelve notes of the staff is of a tradition that writes
/// otherwise, or one with other signs of a scale of the staff; and of a scale that has other notes.
constexpr double other_writing = 0.05, foreign_to_twelve = 0.0001;
/// Probability of a melody on all notes of a tuning system, beside one on a scale.
constexpr double whole_system = 0.005;
/// The places that a tonic may stand on, and an unknown scale's degrees; the keys of the staff.
constexpr double places = 53, keys = 12;
/// A comma is this many bins; a place is met within half of it.
constexpr int comma_bins = 4;

double mean_log(const StageNotes& stage, const StageTable& table, int tonic) {
    double sum = 0;
    for (const Share& s : stage.shares)
        sum += s.share * table.at(s.bin - tonic);
    return sum;
}

/// For how many independent notes a stage counts.
double counted(const Progression& progression, Stage stage) {
    const double notes = progression.stage(stage).notes;
    const double independent = stage == Stage::whole         ? notes / notes_for_one
                               : stage == Stage::half_closes ? notes
                                                             : notes / stage_notes_for_one;
    return std::min(independent, progression.strengths().of(stage).counted);
}

/// A count of pitches has no notes to be counted: half of the most.
double counted_of_bag(const Progression& progression) {
    return progression.strengths().of(Stage::whole).counted / 2;
}

double place_evidence(const Progression& progression, const LibraryScale& scale, int tonic) {
    if (!progression.written)
        return 0;
    const double anywhere_else = progression.in_twelve ? keys : places;
    double log = -std::log(anywhere_else);
    if (scale.written_tonic) {
        const int away = tonic - bin_of(*scale.written_tonic);
        const int folded = (away % bins_per_octave + bins_per_octave) % bins_per_octave;
        const bool octave = std::min(folded, bins_per_octave - folded) < comma_bins / 2;
        log = std::log(std::abs(away) < comma_bins / 2 ? at_named_place
                       : octave                        ? octave_away
                                                       : anywhere / anywhere_else);
    }
    if (progression.in_commas && !scale.in_commas)
        log += std::log(foreign_to_commas);
    if (!progression.in_commas && !progression.in_twelve && scale.of_the_staff)
        log += std::log(other_writing);
    if (progression.in_twelve && !scale.of_the_staff)
        log += std::log(scale.in_twelve ? other_writing : foreign_to_twelve);
    return log;
}

/// True where the last note is the tonic, of a tune of the staff also its octave.
bool ends_on(const Progression& progression, int tonic) {
    const int away = std::abs(progression.final_bin - tonic);
    return away < comma_bins / 2 || (progression.in_twelve && away % bins_per_octave == 0);
}

/// Where the tonic is named by ear the last note decides its octave; else it is heard to be about
/// it.
double final_evidence(const Progression& progression, int tonic) {
    if (!progression.heard || progression.tonic_said)
        return ends_on(progression, tonic) ? 0 : other_final;
    const double away = (progression.final_bin - tonic) * cents_per_bin;
    const auto log_at = [](double cents) {
        return -cents * cents / (2 * final_spread * final_spread);
    };
    const double log = std::max(log_at(away), final_octave + log_at(std::remainder(away, 1200)));
    return std::log(std::exp(log) + std::exp(other_final));
}

/// How much used a scale is, before the melody is looked at. Where a melody is not written on the
/// staff the most used scales of the staff are as probable as any, and its others less.
double log_prior(const Progression& progression, const LibraryScale& scale) {
    const Entry& entry = scale.entry;
    const Strengths& strengths = progression.strengths();
    const bool elsewhere = scale.of_the_staff && !progression.in_twelve;
    return (entry.common() ? strengths.common : 0) + (entry.most_used() ? strengths.most_used : 0)
           - (elsewhere ? strengths.common + strengths.most_used : 0)
           + (entry.kind() == EntryKind::system ? std::log(whole_system) : 0);
}

double log_binomial(double n, double k) {
    return log_factorial(n) - log_factorial(k) - log_factorial(n - k);
}

/// The heights that an unknown scale would have its degrees at: what was heard often, or written
/// for some time.
std::vector<int> weighty_heights(const Progression& progression) {
    constexpr double least_share = 0.02;
    const auto& shares = progression.by_time.shares;
    if (progression.heard)
        return peaks(shares);
    std::vector<int> heights;
    for (const Share& s : shares)
        if (s.share >= least_share)
            heights.push_back(s.bin);
    return heights;
}

/// A scale with a degree at each of them.
LibraryScale unknown_scale(const Progression& progression, int tonic) {
    LibraryScale unknown;
    unknown.period = 1200;
    unknown.of_the_staff = true;
    for (const int height : weighty_heights(progression)) {
        const int above = ((height - tonic) % bins_per_octave + bins_per_octave) % bins_per_octave;
        const double cents = above * cents_per_bin;
        const auto near = [&](double d) {
            return std::abs(d - cents) < comma_bins * cents_per_bin;
        };
        if (std::none_of(unknown.degrees.begin(), unknown.degrees.end(), near))
            unknown.degrees.push_back(cents);
    }
    if (unknown.degrees.empty())
        unknown.degrees.push_back(0);
    std::sort(unknown.degrees.begin(), unknown.degrees.end());
    return unknown;
}

} // namespace

double ProgressionEvidence::total() const {
    double sum = place + final_note + prior;
    for (const double stage : stages)
        sum += stage;
    return sum;
}

double share_counted(const Progression& progression) {
    return counted(progression, Stage::whole) / progression.strengths().of(Stage::whole).counted;
}

ProgressionEvidence progression_evidence(const Progression& progression, const LibraryScale& scale,
                                         const StageTables& tables, int tonic) {
    ProgressionEvidence evidence;
    evidence.place = place_evidence(progression, scale, tonic);
    evidence.prior = log_prior(progression, scale);
    if (!progression.in_time) {
        evidence.stages[0] = counted_of_bag(progression)
                             * mean_log(progression.stage(Stage::whole), tables[0], tonic);
        return evidence;
    }
    for (std::size_t s = 0; s < stage_count; ++s)
        if (const double notes = counted(progression, static_cast<Stage>(s)); notes > 0)
            evidence.stages[s] = notes * mean_log(progression.stages[s], tables[s], tonic);
    evidence.final_note = final_evidence(progression, tonic);
    return evidence;
}

double unknown_scale_evidence(const Progression& progression) {
    const int tonic =
        progression.in_time ? progression.final_bin : progression.by_time.shares.front().bin;
    const LibraryScale unknown = unknown_scale(progression, tonic);
    // Which of the places its degrees are had to be chosen.
    const double choice =
        log_binomial(places, std::min(static_cast<double>(unknown.degrees.size()), places));
    const ProgressionEvidence evidence = progression_evidence(
        progression, unknown, stage_tables(unknown, progression.strengths()), tonic);
    return evidence.total() - choice;
}

} // namespace sectio
