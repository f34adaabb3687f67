#include <sectio/base/argument.hpp>
#include <sectio/score/score.hpp>

#include <algorithm>

namespace sectio::score {

namespace {

bool has_passes(const Score& score, std::uint16_t list) {
    return list == 0 || list < score.pass_lists.size();
}

bool has_course(const Score& score) {
    const std::size_t bars = score.bars.size();
    return bars == score.measures.size()
           && std::all_of(
               score.bars.begin(), score.bars.end(),
               [](const Bar& bar) { return bar.times >= 0 && bar.times <= Bar::most_times; })
           && std::all_of(score.parts.begin(), score.parts.end(),
                          [&](const Part& part) {
                              return part.first_bar <= part.end_bar && part.end_bar <= bars;
                          })
           && std::all_of(score.played.begin(), score.played.end(), [&](const PlayingMark& mark) {
                  return mark.part < score.parts.size() && mark.bar < bars
                         && (!mark.tempo || mark.tempo->num() > 0)
                         && (!mark.program || (*mark.program >= 0 && *mark.program <= 127))
                         && has_passes(score, mark.passes);
              });
}

} // namespace

void check(const Score& score) {
    const auto whole = [&](const Note& note) {
        return note.part < score.parts.size() && note.measure < score.measures.size()
               && note.spelling < score.spellings.size() && note.tied < score.spellings.size()
               && note.key < score.keys.size() && note.voice < score.voices.size()
               && note.transposition < score.transpositions.size() && note.velocity <= 127
               && has_passes(score, note.passes);
    };
    check_argument(
        std::all_of(score.notes.begin(), score.notes.end(), whole), "a note of a score",
        "in a part, a measure, a voice, a key and a spelling that the score has, of a velocity "
        "up to 127");
    check_argument(has_course(score), "the course of a score",
                   "of bars and parts that it has, of repeats within bounds and tempos above 0");
}

} // namespace sectio::score
