#include <sectio/base/argument.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/scale/note_spelling.hpp>

#include <algorithm>
#include <cstdlib>
#include <iterator>
#include <numeric>
#include <string_view>
#include <utility>

namespace sectio {

namespace {

constexpr std::string_view letters = "CDEFGAB";

/// Letters up from `first`, one a key, where accidentals, at most double ones, suffice.
std::vector<NoteInOctave> one_letter_each(const std::vector<int>& keys, char first) {
    std::vector<NoteInOctave> notes;
    std::size_t letter = letters.find(first);
    for (const int key : keys) {
        const auto note = note_with_letter(key, letters[letter % letters.size()]);
        if (!note)
            return {};
        notes.push_back(*note);
        ++letter;
    }
    return notes;
}

/// A double one counts as four: two single ones are easier to read.
int accidentals(const NoteInOctave& note) {
    const int size = std::abs(note.name.quarter_tones) / 2;
    return size * size;
}

/// Those of the tonic, which nobody expects to read as B♯, then of all.
std::pair<int, int> count_accidentals(const std::vector<NoteInOctave>& notes, std::size_t tonic) {
    const int all =
        std::accumulate(notes.begin(), notes.end(), 0,
                        [](int sum, const NoteInOctave& note) { return sum + accidentals(note); });
    return {accidentals(notes[tonic]), all};
}

/// The letter of the first degree where degree `index` has `letter`.
char first_letter(char letter, std::size_t index) {
    const std::size_t down = index % letters.size();
    return letters[(letters.find(letter) + letters.size() - down) % letters.size()];
}

/// The spelling with fewest accidentals of those that begin on the tonic's possible letters.
std::vector<NoteInOctave> heptatonic(const std::vector<int>& keys,
                                     const std::vector<Degree>& degrees,
                                     const std::optional<NamedTonic>& tonic) {
    const auto unison = std::find_if(degrees.begin(), degrees.end(),
                                     [](const Degree& d) { return d.interval.is_unison(); });
    const auto first =
        unison == degrees.end() ? 0 : static_cast<std::size_t>(unison - degrees.begin());
    std::vector<NoteInOctave> best;
    for (const char letter : letters) {
        if (tonic && letter != first_letter(tonic->note.name.letter, tonic->index))
            continue;
        const auto notes = one_letter_each(keys, letter);
        if (!notes.empty()
            && (best.empty() || count_accidentals(notes, first) < count_accidentals(best, first)))
            best = notes;
    }
    return best;
}

/// The author's note name where it names the same key.
std::optional<NoteInOctave> as_given(int key, const Degree& degree) {
    if (degree.note.empty())
        return std::nullopt;
    const NoteName given = parse_note_name(degree.note);
    const auto note = note_with_letter(key, given.letter);
    return note && note->name == given ? note : std::nullopt;
}

} // namespace

std::vector<NoteInOctave> spelled(const std::vector<int>& keys, const std::vector<Degree>& degrees,
                                  const std::optional<NamedTonic>& tonic) {
    check_argument(keys.size() == degrees.size() && (!tonic || tonic->index < keys.size()),
                   "the number of keys", "that of the degrees, of which the tonic is one");
    std::vector<NoteInOctave> notes = keys.size() == letters.size()
                                          ? heptatonic(keys, degrees, tonic)
                                          : std::vector<NoteInOctave>();
    if (notes.empty())
        std::transform(keys.begin(), keys.end(), std::back_inserter(notes), usual_note);
    if (tonic)
        notes[tonic->index] = tonic->note;
    for (std::size_t i = 0; i < notes.size(); ++i)
        if (const auto given = as_given(keys[i], degrees[i]))
            notes[i] = *given;
    return notes;
}

} // namespace sectio
