#include <sectio/tuning/grace_notes.hpp>

#include <algorithm>

namespace sectio::tuning {

void GraceNotes::add(std::uint16_t voice, const PlayedNote& note, bool in_chord) {
    Graces& graces = waiting_[{voice, note.begin}];
    graces.push_back({note, in_chord && !graces.empty()});
}

midi::Ticks GraceNotes::place(std::uint16_t voice, const PlayedNote& note,
                              std::vector<PlayedNote>& out) {
    const auto found = waiting_.extract({voice, note.begin});
    if (!found)
        return 0;
    const midi::Ticks all = count(found.mapped());
    const midi::Ticks each = std::min(each_, (note.end - note.begin) / (2 * all));
    play(found.mapped(), note.begin, each, out);
    return each * all;
}

void GraceNotes::flush(std::vector<PlayedNote>& out) {
    for (const auto& [place, graces] : waiting_)
        play(graces, std::max<midi::Ticks>(0, place.second - each_ * count(graces)), each_, out);
    waiting_.clear();
}

midi::Ticks GraceNotes::count(const Graces& graces) {
    return std::count_if(graces.begin(), graces.end(), [](const Grace& g) { return !g.in_chord; });
}

void GraceNotes::play(const Graces& graces, midi::Ticks at, midi::Ticks each,
                      std::vector<PlayedNote>& out) {
    at -= each;
    for (const Grace& grace : graces) {
        at += grace.in_chord ? 0 : each;
        out.push_back(grace.note);
        out.back().begin = at, out.back().end = at + each;
    }
}

} // namespace sectio::tuning
