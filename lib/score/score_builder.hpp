#pragma once
/// @file
/// Private to lib/score: the score while it is read, and what holds for each of its parts at the
/// present place. The readers of context_readers.hpp share one.

#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/score.hpp>

#include <tuple>

namespace sectio::score {

/// Different values in the order of their first appearance, each known by its place.
template <typename T>
class Interned {
  public:
    explicit Interned(std::vector<T>& values, std::string_view what)
        : values_(values), what_(what) {}

    /// @throws Error score_too_varied
    std::uint16_t operator()(const T& value) {
        const auto found = places_.find(value);
        if (found != places_.end())
            return found->second;
        if (values_.size() >= limits::score_variety)
            throw error(message::score_too_varied, "", {}, limits::score_variety, what_);
        const auto place = static_cast<std::uint16_t>(values_.size());
        values_.push_back(value);
        places_.emplace(value, place);
        return place;
    }

  private:
    std::vector<T>& values_;
    std::map<T, std::uint16_t> places_;
    std::string_view what_;
};

/// A value for each staff, or one for all; 0 where there is none.
class OfStaff {
  public:
    std::uint16_t at(int staff) const;
    /// `staff` 0 is every staff, and replaces what single ones had.
    void set(int staff, std::uint16_t value);

  private:
    std::map<int, std::uint16_t> values_;
};

/// What holds for one part from one measure to the next.
struct PartState {
    std::string instrument; ///< the id of its first
    QuarterNotes divisions{1, 1};
    QuarterNotes measure_start, cursor, measure_end;
    OfStaff keys, transpositions;
    /// Spelling by step, octave and voice.
    std::map<std::tuple<char, int, std::uint16_t>, std::uint16_t> open_ties;
    std::uint64_t head_at = 0;    ///< the last note that was not a chord's further note
    std::uint32_t chord_size = 0; ///< notes of the present chord so far
    bool has_head = false, head_in_entity = false;
    QuarterNotes head_onset;
    std::optional<std::size_t> last_note; ///< in Score::notes

    /// Goes on or, within the measure, back.
    void move(QuarterNotes by);
};

struct ScoreBuilder {
    ScoreBuilder();

    PartState& state() { return states[part]; }
    /// The sign of this name, of "other" that of the glyph; counts what the standard lacks.
    Sign sign(std::string_view text, std::optional<Sign> glyph);
    void look_for_makam(std::string_view text);
    /// The place in Score::pass_lists of an attribute `time-only`.
    std::uint16_t passes(std::string_view time_only);

    Score score;
    Interned<Spelling> spellings;
    Interned<Key> keys;
    Interned<Transposition> transpositions;
    Interned<std::string> voices;
    Interned<std::vector<int>> pass_lists;
    std::map<std::string, std::size_t, std::less<>> parts;
    std::vector<PartState> states;
    std::size_t part = 0; ///< the present one
};

} // namespace sectio::score
