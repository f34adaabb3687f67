#pragma once
/// @file
/// One entry of the catalogue: what every kind of entry has, and what its own kind has besides.
///
/// What the source does not give is empty.

#include <sectio/base/error.hpp>
#include <sectio/division/division.hpp>
#include <sectio/scale/scale.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace sectio {

enum class EntryKind { interval, comma, scale, system }; // in the order of Entry::Facts

/// Intervals and commas have a size; scales and systems have degrees.
constexpr bool has_size(EntryKind kind) {
    return kind == EntryKind::interval || kind == EntryKind::comma;
}

/// "interval", "comma", "scale", "system".
std::string_view text(EntryKind kind);
/// @throws Error unknown_kind
EntryKind parse_kind(std::string_view text, const Place& place = {});

/// Whether `text` may be an id: lower-case letters, digits and hyphens, a letter at least. So an id
/// that stands for a file name leads nowhere else.
bool is_id(std::string_view text);

/// Where the melodies of a scale go.
enum class Direction { ascending, descending, ascending_descending };

/// "ascending", "descending", "ascending-descending"; nothing where it is not known.
std::string_view text(const std::optional<Direction>& direction);
/// @throws Error unknown_direction
Direction parse_direction(std::string_view text, const Place& place = {});

/// What theory says of the progression (seyir; `course` on pages) of melodies in a scale. Degree
/// numbers count from 1, the tonic, on through the period.
struct MelodicProgression {
    std::optional<int> dominant;
    std::optional<int> second_dominant; ///< a further resting note
    std::optional<int> begins; ///< degree that the progression begins about, where theory names one
                               ///< that the direction does not
    std::optional<Direction> direction;
    std::vector<Interval> mobile; ///< notes that the progression admits besides the degrees
    std::optional<int> dwells_on; ///< the suspended cadence, or another note, that theory calls the
                                  ///< most characteristic besides the dominants
};

struct IntervalFacts {
    Interval interval;
};

struct CommaFacts {
    Interval interval;
};

/// What scales and systems have in common.
struct Degrees {
    Scale scale;
    std::string tradition;  ///< one of those that the catalogue declares
    std::string tonic_name; ///< the trade's name of the first degree (a perde, say)
};

/// Where performers are taught to sound a degree, if not where theory and notation place it.
struct PractisedDegree {
    int degree = 0; ///< its number, the first being 1; never the tonic
    Interval from;  ///< above its place (below it where negative): the lower end of what is taught
    Interval to;    ///< the upper end; the same as `from` where one place is taught
    std::string source;
};

struct ScaleFacts : Degrees {
    std::string family; ///< one of those that the catalogue declares of the tradition
    MelodicProgression progression;
    std::vector<PractisedDegree> practised; ///< each degree once
    std::string form_of;                    ///< id of the scale that this is another form of
    bool common = false;                    ///< named among the most used of its tradition
    bool most_used = false;                 ///< one of the few that hold most works of all
};

struct SystemFacts : Degrees {
    std::optional<EqualDivision> division; ///< of a system that is one
};

struct Entry {
    using Facts = std::variant<IntervalFacts, CommaFacts, ScaleFacts, SystemFacts>;

    std::string id;
    std::string name;
    std::vector<std::string> also; ///< other names
    std::string source;
    std::string note;
    Facts facts;

    EntryKind kind() const { return static_cast<EntryKind>(facts.index()); }

    // What some kinds have: null, empty or false in the others.

    const Interval* interval() const;
    const Degrees* degrees() const;
    const Scale* scale() const { return degrees() ? &degrees()->scale : nullptr; }
    const EqualDivision* division() const;
    const std::string& tradition() const;
    const std::string& family() const;
    const std::string& tonic_name() const;
    const MelodicProgression& progression() const;
    const std::vector<PractisedDegree>& practised() const;
    const std::string& form_of() const;
    bool common() const;
    bool most_used() const;
};

} // namespace sectio
