#include <sectio/interval/argument.hpp>
#include <sectio/score/score.hpp>

#include <algorithm>

namespace sectio::score {

void check(const Score& score) {
    const auto whole = [&](const Note& note) {
        return note.part < score.parts.size() && note.measure < score.measures.size()
               && note.spelling < score.spellings.size() && note.tied < score.spellings.size()
               && note.key < score.keys.size() && note.voice < score.voices.size()
               && note.transposition < score.transpositions.size();
    };
    check_argument(std::all_of(score.notes.begin(), score.notes.end(), whole), "a note of a score",
                   "in a part, a measure, a voice, a key and a spelling that the score has");
}

} // namespace sectio::score
