#include <sectio/score/note_classes.hpp>

#include <map>
#include <tuple>

namespace sectio::score {

namespace {

/// For naming a note that could not be read: its letter, with `alter` or the sign's value.
WrittenPitch nominal(const Score& score, const Note& note, SignTable table) {
    const Spelling& spelling = score.spellings[note.spelling];
    WrittenPitch pitch{spelling.step, {}, note.octave};
    if (const auto value = meaning(spelling.sign, table); value && spelling.sign != no_sign)
        pitch.alteration = *value;
    else if (spelling.alter)
        pitch.alteration.amount = Rational(spelling.alter->num(), spelling.alter->den());
    return pitch;
}

/// Whether the printed sign itself says which key the number counts from.
bool shows_its_key(const NoteClass& note) {
    if (note.nominal.alteration.is_plain())
        return true;
    const SignEntry& sign = all_signs()[note.sign];
    return note.sign != no_sign && sign.quarter_tones
           && *sign.quarter_tones == 2 * whole_semitones(note.nominal.alteration);
}

/// Where the sign does not tell, the text names the sign of the key that it counts from.
std::string label_of(const NoteClass& note, const Interval& deviation, int places) {
    const int semitones = whole_semitones(note.nominal.alteration);
    const std::string key = shows_its_key(note) ? ""
                            : semitones == 0
                                ? "♮"
                                : plain_name('C', semitones, NameStyle::unicode).substr(1);
    return key + deviation_text(deviation, places);
}

} // namespace

std::uint32_t NoteClasses::of(const Note& note) {
    const bool grace = note.is(Note::grace) && reading_.grace_signs_lost;
    const bool keyed = reading_.signature == Signature::practised;
    const Key key{std::uint64_t{note.spelling} << 48 | std::uint64_t{note.tied} << 32
                      | std::uint64_t{note.transposition} << 16 | (keyed ? note.key : 0U),
                  static_cast<std::uint64_t>(note.octave + 128) << 1 | (grace ? 1U : 0U)};
    const auto [place, added] =
        places_.try_emplace(key, static_cast<std::uint32_t>(classes_.size()));
    if (added)
        classes_.push_back(made(note));
    return place->second;
}

NoteClass NoteClasses::made(const Note& note) const {
    const auto alteration = alteration_of(score_, note, reading_);
    NoteClass found;
    found.nominal = nominal(score_, note, reading_.table);
    found.label = "?";
    found.sign = score_.spellings[note.spelling].sign;
    if (const auto* reason = std::get_if<Unreadable>(&alteration)) {
        found.written = *reason;
        return found;
    }
    const WrittenPitch written{score_.spellings[note.spelling].step,
                               std::get<Alteration>(alteration), note.octave};
    found.written = found.nominal = written;
    found.effective = written;
    if (pitch_ == PitchKind::written)
        return found;
    const Transposition& transposition = score_.transpositions[note.transposition];
    found.effective = sounding(written, transposition);
    found.keys_off = base_key(found.effective) - base_key(written) - moved_keys(transposition);
    return found;
}

namespace {

/// Without an order of their own in written.hpp, where only equality has a meaning.
struct ByPlace {
    bool operator()(const WrittenPitch& a, const WrittenPitch& b) const {
        return std::tie(a.octave, a.step, a.alteration.unit, a.alteration.amount)
               < std::tie(b.octave, b.step, b.alteration.unit, b.alteration.amount);
    }
};

} // namespace

void NoteClasses::tune(const NoteTuning& tuning, int places) {
    std::vector<WrittenPitch> pitches;
    std::map<WrittenPitch, std::size_t, ByPlace> known;
    std::vector<std::pair<std::size_t, std::size_t>> wanted; // class, pitch
    for (std::size_t i = 0; i < classes_.size(); ++i) {
        if (std::holds_alternative<Unreadable>(classes_[i].written)) {
            classes_[i].outcome =
                Lacking{std::string(text(std::get<Unreadable>(classes_[i].written)))};
            continue;
        }
        const auto [place, added] = known.try_emplace(classes_[i].effective, pitches.size());
        wanted.emplace_back(i, place->second);
        if (added)
            pitches.push_back(classes_[i].effective);
    }
    const std::vector<Outcome> outcomes = tuning.tune(pitches);
    for (const auto& [index, pitch] : wanted) {
        NoteClass& found = classes_[index];
        found.outcome = outcomes[pitch];
        auto* deviation = std::get_if<Interval>(&found.outcome);
        if (deviation == nullptr)
            continue;
        *deviation += Interval::from_steps(1, 12) * found.keys_off;
        found.label = label_of(found, *deviation, places);
    }
}

} // namespace sectio::score
