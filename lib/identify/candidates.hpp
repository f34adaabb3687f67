#pragma once
/// @file
/// Private to lib/identify: the two ways to rank the scales of a library, by pitches alone and by
/// the progression of a melody, and what they share.

#include <sectio/identify/identify.hpp>
#include <sectio/identify/pitch_set.hpp>
#include <sectio/identify/progression.hpp>

#include <span>
#include <vector>

namespace sectio {

/// Candidates with their probabilities, most probable first; all three add up to 1.
struct CandidateRanking {
    std::vector<Candidate> candidates;
    double none_probability = 1;
    double others_probability = 0; ///< of what is less probable than `least_listed`
};

/// Probability before a melody is looked at that no scale of the catalogue is meant.
inline constexpr double none_prior = 0.5;
/// The same of a set of so many pitches. Each pitch may lie on each degree: the more there are, the
/// more places a scale has to fit them by chance. So of more than six the odds grow with their
/// number.
double none_prior_of(std::size_t pitches);
/// Candidates of less than this share of the best are not kept.
inline constexpr double least_listed = 1e-6;

/// What becomes a candidate: its evidence is known but for the common divisor.
struct Weighed {
    const LibraryScale* scale = nullptr;
    double tonic_cents = 0; ///< as Candidate has it
    std::size_t start_degree = 1;
    double log_weight = 0; ///< log of prior times evidence
};

/// Turns log weights into probabilities that add up to 1 with that of none, whose log weight is
/// `none_log_weight`. Equal log weights keep the order of the catalogue.
CandidateRanking ranked(std::vector<Weighed> weighed, double none_log_weight);

CandidateRanking set_ranking(const PitchSet& set, const ScaleLibrary& library,
                             const IdentifyOptions& options);
CandidateRanking melody_ranking(const Progression& progression, const PitchSet& set,
                                const ScaleLibrary& library, const IdentifyOptions& options);
/// Of a melody, the tonic's note and what spoke for and against each candidate, and why the first
/// goes before the second.
void tell_progression(Identification& answer, const Progression& progression, const PitchSet& set,
                      const ScaleLibrary& library);

/// Fills in the figures of the fit: degrees, offsets and errors.
void describe(std::span<Candidate> candidates, const PitchSet& set, const IdentifyOptions& options);

/// The spreads of practice that the options ask for.
std::vector<double> spreads_of(const IdentifyOptions& options);
/// The same, and that of what is computed where no one spread is asked for.
std::vector<double> all_spreads_of(const IdentifyOptions& options);

} // namespace sectio
