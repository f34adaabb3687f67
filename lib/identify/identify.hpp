#pragma once
/// @file
/// Which scales of the catalogue account for a measured set or a melody. The model, its figures and
/// what it is worth are in docs/identification.md.

#include <sectio/identify/library.hpp>
#include <sectio/scale/melody.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// What `KnownTonic::at` and the pitches of an answer are counted from: the melody's zero where one
/// of its notes stands there, else its first note.
Interval reference_of(const Melody& melody);

/// What is known of the tonic before the pitches are looked at.
struct KnownTonic {
    enum class Kind {
        likely, ///< the first pitch is the tonic with probability one half
        known,  ///< the tonic lies at `at`
        free,   ///< any pitch may be the tonic, also one that is missing
    };
    Kind kind = Kind::likely;
    Interval at; ///< above reference_of()
};

struct IdentifyOptions {
    KnownTonic tonic{};
    /// Standard deviation of a pitch about its degree, in cents; without it four spreads from 2.5
    /// to 20 cents are taken as equally probable.
    std::optional<double> spread{};
    /// Half width of pitches that have no uncertainty of their own.
    std::optional<Interval> uncertainty{};
    std::size_t show = 5; ///< candidates wanted; all that the verdict names are given in any case
    /// For many sets: the verdict, and of the candidates scales, start degrees, probabilities and
    /// namesakes; nothing else is filled in.
    bool names_alone = false;
};

enum class Verdict {
    fits, ///< one candidate has more than half of the probability and three times that of the next
    ambiguous, ///< several candidates account for the pitches about equally
    none,      ///< that no scale of the catalogue is meant has more than half of the probability
};
std::string_view text(Verdict verdict);

/// A scale of the catalogue laid on the pitches. Pointers live as long as the library.
struct Candidate {
    const LibraryScale* scale = nullptr;
    std::size_t start_degree = 1; ///< the degree on the first pitch (of a melody: on the tonic, 1)
    double offset_cents = 0;      ///< how far that degree lies above the first pitch
    double rms_cents = 0;         ///< of the matched pitches, against their degrees
    double worst_cents = 0;       ///< the largest of them, with its sign
    std::size_t matched = 0;      ///< pitches that lie on a degree
    std::size_t of = 0;           ///< pitches in all
    std::size_t degrees = 0;      ///< different degrees that they lie on
    double probability = 0;
    bool named = false; ///< one of those that the verdict rests on
    /// Scales of the very same pitches on the same tonic, which a set cannot tell from this one;
    /// the probability is that of all of them together. The best known stands for them.
    std::vector<const LibraryScale*> namesakes;
    /// From how many of its degrees the scale has the same pitches; which of them is the tonic no
    /// set can tell. The place with the best probability stands for all.
    std::size_t equal_rotations = 1;
    double tonic_cents = 0; ///< where the first degree lies above the first pitch
    std::string tonic;      ///< its note, of a melody in the twelve notes of the staff
    std::vector<std::string> progression; ///< of a melody: what spoke for and against, in words
};

/// One reading of a measured pitch.
struct PitchReading {
    std::string expression;
    Interval error;        ///< reading minus pitch
    double likelihood = 0; ///< of this reading among all that were considered
};

struct IdentifiedPitch {
    Interval interval;                  ///< above the first pitch
    std::vector<PitchReading> readings; ///< likeliest first
};

/// What would tell candidates apart.
enum class Telling { tonic, dominant, direction, pitch, name };
std::string_view text(Telling by);
struct Distinction {
    std::vector<std::string> ids;
    Telling by;
    std::string text;
};

/// What speaks for a candidate: a stage of the progression, where its tonic is written, its use.
enum class Grounds { whole, beginning, opening, half_closes, close, cadence, tonic, use };
std::string_view text(Grounds by);
/// Why the first candidate goes before the second: what theory says of both, and what the melody
/// has.
struct Reason {
    Grounds by;
    double log = 0; ///< natural logarithm of how much more probable it makes the first
    std::string text;
    std::vector<std::string> notes; ///< those that decide
    std::vector<std::string> bars;  ///< of a score: the measures in which they stand
};

/// Where the best candidate and the pitches part.
struct DegreeDifference {
    std::size_t degree = 0;        ///< of the candidate, from 1
    std::optional<Interval> pitch; ///< above the first pitch; none where nothing lies on the degree
    double away_cents = 0;         ///< pitch minus degree
    bool on_degree = false;        ///< counted as the degree, though farther from it than usual
};

struct Identification {
    Verdict verdict = Verdict::none;
    std::vector<Candidate> candidates;    ///< most probable first
    double none_probability = 1;          ///< no scale of the catalogue is meant
    double others_probability = 0;        ///< of all candidates that are not listed
    std::vector<IdentifiedPitch> pitches; ///< the different pitches, rising
    std::vector<Distinction> distinguish;
    /// Of a melody in time: the two strongest reasons for the first candidate against the second.
    std::vector<Reason> why;
    /// Of the first candidate where the verdict is none: the nearest known scale, and what differs.
    std::vector<DegreeDifference> differences;
    bool by_progression = false;            ///< judged as a melody
    std::string counted_from = "the first"; ///< what the cents of the pitches lie above, for people
};

/// @throws Error no_pitches, one_pitch, spread_out_of_range, weight_not_positive,
/// uncertainty_negative
Identification identify(const Melody& melody,
                        const ScaleLibrary& library = ScaleLibrary::installed(),
                        const IdentifyOptions& options = {});
/// The answer points into the library, which must not be a temporary.
Identification identify(const Melody&, ScaleLibrary&&, const IdentifyOptions& = {}) = delete;

/// Smallest and largest spread that may be asked for, in cents.
inline constexpr double least_spread = 0.1, most_spread = 100;

} // namespace sectio
