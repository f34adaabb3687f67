#include <sectio/base/argument.hpp>
#include <sectio/identify/candidates.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/distinguish.hpp>
#include <sectio/identify/heard.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/identify/messages.hpp>
#include <sectio/identify/namesakes.hpp>
#include <sectio/identify/pitch_readings.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// A verdict `fits` needs this much of the probability, and more than this many times that of the
/// next.
constexpr double certain_enough = 0.5, clear_lead = 3;
/// Pitches on fewer different degrees are an interval, not a scale.
constexpr std::size_t least_degrees = 3;

/// So that sums of weights stay numbers.
constexpr double most_weight = 1e300;

void check_half_width(const std::optional<Interval>& width) {
    if (width && *width < Interval())
        throw error(message::uncertainty_negative, to_expression(*width), {});
}

void check(const IdentifyOptions& options) {
    check_half_width(options.uncertainty);
    if (options.spread && !(*options.spread >= least_spread && *options.spread <= most_spread))
        throw error(message::spread_out_of_range, "", {}, least_spread, most_spread);
}

void check(const Melody& melody) {
    for (const WeightedPitch& note : melody.notes) {
        if (note.weight <= Rational(0) || weight_of(note) > most_weight)
            throw error(message::weight_not_positive, decimal(note.weight, 3), {melody.name});
        check_half_width(note.uncertainty);
    }
}

/// Notes in time, or pitches that sound for different lengths: what a melody leaves behind.
bool has_progression(const Melody& melody) {
    return melody.in_time
           || std::any_of(melody.notes.begin(), melody.notes.end(), [&](const WeightedPitch& n) {
                  return n.weight != melody.notes.front().weight;
              });
}

/// Marks the candidates that the verdict rests on: those that the best does not clearly lead. Three
/// scales of the same pitches have exactly three times that of one, but for a rounding.
void mark_named(std::vector<Candidate>& candidates) {
    constexpr double rounding = 1e-9;
    for (Candidate& candidate : candidates)
        candidate.named =
            candidate.probability * clear_lead >= candidates.front().probability * (1 - rounding);
}

/// What is written in the twelve notes of the staff does not tell scales of several traditions
/// apart that have these very notes, wherever each writes its tonic; they are named together.
void name_equals(std::vector<Candidate>& candidates) {
    std::vector<const Candidate*> named;
    for (const Candidate& candidate : candidates)
        if (candidate.named && !candidate.scale->of_the_staff)
            named.push_back(&candidate);
    for (Candidate& candidate : candidates)
        candidate.named |= std::ranges::any_of(named, [&](const Candidate* other) {
            return candidate.scale->pitches == other->scale->pitches
                   && candidate.scale->entry.tradition() != other->scale->entry.tradition()
                   && std::abs(std::remainder(candidate.tonic_cents - other->tonic_cents, 1200))
                          < same_place;
        });
}

Verdict verdict_of(Identification& answer) {
    const auto named = std::count_if(answer.candidates.begin(), answer.candidates.end(),
                                     [](const Candidate& c) { return c.named; });
    if (answer.none_probability > certain_enough || answer.candidates.empty()
        || answer.candidates.front().degrees < least_degrees) {
        for (Candidate& candidate : answer.candidates)
            candidate.named = false;
        return Verdict::none;
    }
    return named == 1 && answer.candidates.front().namesakes.empty()
                   && answer.candidates.front().probability > certain_enough
               ? Verdict::fits
               : Verdict::ambiguous;
}

/// Keeps the candidates asked for and those that the verdict names.
void keep_shown(Identification& answer, std::size_t show) {
    std::size_t kept = 0;
    for (std::size_t i = 0; i < answer.candidates.size(); ++i)
        if (i < show || answer.candidates[i].named)
            kept = i + 1;
    for (std::size_t i = kept; i < answer.candidates.size(); ++i)
        answer.others_probability += answer.candidates[i].probability;
    answer.candidates.resize(kept);
}

/// The pitches and, where there is one, the progression.
std::pair<PitchSet, Progression> looked_at(const Melody& melody, bool by_progression,
                                           const IdentifyOptions& options) {
    if (!by_progression)
        return {pitch_set(melody, options.uncertainty), {}};
    if (!melody.in_time || !is_heard(melody))
        return {pitch_set(melody, options.uncertainty), progression_of(melody)};
    const Melody notes = notes_of_track(melody);
    Progression progression = progression_of(notes);
    progression.tonic_said = options.tonic.kind == KnownTonic::Kind::known;
    PitchSet set = heard_degrees(progression, notes, reference_of(melody));
    return {std::move(set), std::move(progression)};
}

/// In words, what reference_of() is.
std::string counted_from(const Melody& melody) {
    if (melody.notes.front().interval == reference_of(melody))
        return "the first";
    return melody.zero == MelodyZero::written ? "the written C4" : "1/1";
}

/// All that is more than names.
void tell_more(Identification& answer, const Melody& melody, const PitchSet& set,
               const Progression& progression, const ScaleLibrary& library,
               const IdentifyOptions& options) {
    if (answer.by_progression)
        tell_progression(answer, progression, set, library);
    else
        for (Candidate& candidate : answer.candidates)
            candidate.equal_rotations = equal_rotations(*candidate.scale);
    answer.pitches = pitch_readings(set, spreads_of(options));
    answer.counted_from = counted_from(melody);
    answer.distinguish = distinctions(with_namesakes(answer.candidates), answer.counted_from);
    if (answer.verdict == Verdict::none && !answer.candidates.empty())
        answer.differences = differences(answer.candidates.front(), set, spreads_of(options));
}

} // namespace

std::string_view text(Verdict verdict) {
    constexpr std::string_view names[]{"fits", "ambiguous", "none"};
    return row_for(names, verdict);
}

Identification identify(const Melody& melody, const ScaleLibrary& library,
                        const IdentifyOptions& options) {
    check(options);
    check(melody);
    Identification answer;
    answer.by_progression = has_progression(melody);
    const auto [set, progression] = looked_at(melody, answer.by_progression, options);
    CandidateRanking ranking = answer.by_progression
                                   ? melody_ranking(progression, set, library, options)
                                   : set_ranking(set, library, options);
    answer.candidates = std::move(ranking.candidates);
    answer.none_probability = ranking.none_probability;
    answer.others_probability = ranking.others_probability;
    if (!answer.by_progression)
        join_namesakes(answer.candidates);
    mark_named(answer.candidates);
    if (progression.in_twelve)
        name_equals(answer.candidates);
    keep_shown(answer, options.show);
    if (options.names_alone && !answer.candidates.empty()) // which the verdict looks at
        describe({answer.candidates.data(), 1}, set, options);
    if (!options.names_alone)
        describe(answer.candidates, set, options);
    answer.verdict = verdict_of(answer);
    if (!options.names_alone)
        tell_more(answer, melody, set, progression, library, options);
    return answer;
}

} // namespace sectio
