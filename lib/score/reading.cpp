#include <sectio/base/argument.hpp>
#include <sectio/score/reading.hpp>

#include <fmt/format.h>

#include <array>

namespace sectio::score {

namespace {

/// Whether the sign says more than "natural" in either table.
bool alters(Sign sign) {
    const SignEntry& entry = all_signs()[sign];
    return sign != no_sign && (entry.quarter_tones != 0 || entry.commas.value_or(0) != 0);
}

bool only_turkish(Sign sign) {
    const SignEntry& entry = all_signs()[sign];
    return entry.commas && !entry.quarter_tones;
}

bool altered(const Spelling& spelling) {
    return spelling.alter && spelling.alter->num() != 0;
}

/// `alter` and the sign's general value differ by more than a quarter tone, that is by more than a
/// semitone's half.
bool contradicts(const Spelling& spelling) {
    const std::optional<int> quarter_tones = all_signs()[spelling.sign].quarter_tones;
    if (!quarter_tones || !spelling.alter || spelling.sign == no_sign)
        return false;
    const QuarterNotes difference = *spelling.alter - QuarterNotes(*quarter_tones, 2);
    return difference > QuarterNotes(1, 2) || difference < QuarterNotes(-1, 2);
}

/// A value of a key signature that can only be commas: it is the sign's number of commas or one or
/// two less, and not its semitones.
bool counts_commas(const KeyStep& step) {
    const SignEntry& entry = all_signs()[step.sign];
    if (!entry.commas || *entry.commas == 0 || step.alter.den() != 1)
        return false;
    const bool same_side = (*entry.commas > 0) == (step.alter.num() > 0) && step.alter.num() != 0;
    const bool semitones =
        entry.quarter_tones && step.alter == QuarterNotes(*entry.quarter_tones, 2);
    return same_side && !semitones;
}

void count(Evidence& evidence, const Spelling& spelling, std::size_t notes) {
    const bool sign = alters(spelling.sign);
    if (only_turkish(spelling.sign))
        evidence.comma_signs += notes;
    if (sign && !altered(spelling))
        evidence.sign_without_alter += notes;
    else if (contradicts(spelling))
        evidence.contradictions += notes;
    else if (sign)
        evidence.sign_and_alter += notes;
    else if (altered(spelling))
        evidence.alter_without_sign += notes;
}

struct Choice {
    Source source;
    std::string reason;
};

Choice by_evidence(const Evidence& found) {
    if (found.sign_without_alter > found.alter_without_sign)
        return {Source::sign, fmt::format("notes with an altering sign without alter: {}, "
                                          "altered ones without a sign: {}",
                                          found.sign_without_alter, found.alter_without_sign)};
    if (found.alter_without_sign == 0 && found.comma_signatures > 0)
        return {Source::sign, fmt::format("every altered note has its sign; steps of key "
                                          "signatures that count commas: {}",
                                          found.comma_signatures)};
    if (found.alter_without_sign == 0 && found.names_a_makam)
        return {Source::sign, "every altered note has its sign, and the score names a makam"};
    if (found.alter_without_sign > 0)
        return {Source::alter, fmt::format("notes that are altered without a sign: {}, with an "
                                           "altering sign without alter: {}",
                                           found.alter_without_sign, found.sign_without_alter)};
    return {Source::alter, "nothing in the score speaks against it"};
}

/// The key signature's own number of commas for this step and sign, if it has one.
std::optional<Alteration> practised(const Key& key, const Spelling& spelling) {
    for (const KeyStep& step : key.steps)
        if (step.step == spelling.step && step.sign == spelling.sign && counts_commas(step))
            return Alteration{Rational(step.alter.num()), AlterationUnit::comma};
    return std::nullopt;
}

/// The spelling a tied note has: its own, or that of the note before the tie.
const Spelling& spelling_of(const Score& score, const Note& note) {
    return score.spellings[note.tied];
}

std::variant<Alteration, Unreadable> by_sign(const Score& score, const Note& note,
                                             const Reading& reading) {
    const Spelling& spelling = spelling_of(score, note);
    if (spelling.sign == no_sign && note.is(Note::grace) && reading.grace_signs_lost)
        return Unreadable::grace_sign_lost;
    if (reading.signature == Signature::practised && spelling.sign != no_sign)
        if (const auto value = practised(score.keys[note.key], spelling))
            return *value;
    if (spelling.sign == no_sign)
        return *meaning(*sign_named("natural"), reading.table);
    if (const auto value = meaning(spelling.sign, reading.table))
        return *value;
    return Unreadable::sign_without_value;
}

std::variant<Alteration, Unreadable> by_alter(const Score& score, const Note& note) {
    const Spelling& spelling = score.spellings[note.spelling];
    if (!spelling.alter && alters(spelling.sign))
        return Unreadable::sign_without_alter;
    if (contradicts(spelling))
        return Unreadable::contradiction;
    const QuarterNotes alter = spelling.alter.value_or(QuarterNotes());
    return Alteration{Rational(alter.num(), alter.den()), AlterationUnit::semitone};
}

} // namespace

Evidence evidence_of(const Score& score) {
    check(score);
    Evidence evidence;
    std::vector<std::size_t> notes(score.spellings.size());
    for (const Note& note : score.notes)
        ++notes[note.tied];
    for (std::size_t i = 0; i < notes.size(); ++i)
        count(evidence, score.spellings[i], notes[i]);
    for (const Key& key : score.keys)
        for (const KeyStep& step : key.steps)
            evidence.comma_signatures += counts_commas(step) ? 1 : 0;
    evidence.names_a_makam = score.names_a_makam;
    return evidence;
}

Reading choose_reading(const Score& score, const ReadingChoice& choice) {
    Reading reading;
    reading.evidence = evidence_of(score);
    reading.signature = choice.signature;
    const Choice found = by_evidence(reading.evidence);
    reading.source = choice.source.value_or(found.source);
    reading.reason = choice.source ? "as asked" : found.reason;
    const bool turkish = reading.evidence.comma_signs > 0 || reading.evidence.comma_signatures > 0
                         || reading.evidence.names_a_makam;
    reading.table = choice.table.value_or(turkish ? SignTable::turkish : SignTable::general);
    std::array<std::size_t, 2> with_sign{};
    std::size_t grace_notes = 0;
    for (const Note& note : score.notes) {
        const bool grace = note.is(Note::grace);
        grace_notes += grace ? 1 : 0;
        with_sign[grace ? 1 : 0] += score.spellings[note.spelling].sign != no_sign ? 1 : 0;
    }
    reading.grace_signs_lost = grace_notes > 0 && with_sign[0] > 0 && with_sign[1] == 0;
    return reading;
}

std::string_view text(Unreadable reason) {
    static constexpr std::array<std::string_view, 4> texts{
        "grace note without sign", "sign without alter", "sign and alter contradict each other",
        "sign without a stated value"};
    return row_for(texts, reason);
}

std::variant<Alteration, Unreadable> alteration_of(const Score& score, const Note& note,
                                                   const Reading& reading) {
    return reading.source == Source::sign ? by_sign(score, note, reading) : by_alter(score, note);
}

} // namespace sectio::score
