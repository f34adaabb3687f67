#include <sectio/base/argument.hpp>
#include <sectio/division/division.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/staff_notes.hpp>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <tuple>

namespace sectio::score {

namespace {

constexpr std::string_view letters = "CDEFGAB";
constexpr int commas_of_octave = 53;

constexpr std::array<ClefEntry, 4> clefs{
    ClefEntry{Clef::treble, "treble", 'G', 2, 0, 34},
    ClefEntry{Clef::octave_treble, "octave-treble", 'G', 2, -1, 27},
    ClefEntry{Clef::alto, "alto", 'C', 3, 0, 28}, ClefEntry{Clef::bass, "bass", 'F', 4, 0, 22}};

/// A degree with its key; the period, where there is one, comes last.
struct Sounding {
    const Degree* degree;
    const TunedDegree* tuned;
};

std::vector<Sounding> sounding(const TunedScale& scale) {
    std::vector<Sounding> all;
    for (std::size_t i = 0; i < scale.degrees().size(); ++i)
        all.push_back({&scale.scale().degrees[i], &scale.degrees()[i]});
    if (scale.closing())
        all.push_back({&scale.scale().closing, &*scale.closing()});
    return all;
}

struct Written {
    WrittenPitch pitch;
    Interval deviation;
};

Alteration of_quarter_tones(int count) {
    return {Rational(count, 2), AlterationUnit::semitone};
}

Written written_plainly(const TunedDegree& d) {
    return {{d.note.name.letter, of_quarter_tones(d.note.name.quarter_tones), d.note.octave},
            d.deviation};
}

/// Of the letters that need at most a double sign and half as many signs, the one that needs least.
NoteInOctave with_few_signs(int key, int beyond) {
    NoteInOctave best = usual_note(key);
    for (const char letter : letters)
        if (const auto note = note_with_letter(key, letter);
            note
            && std::abs(note->name.quarter_tones + beyond)
                   < std::abs(best.name.quarter_tones + beyond))
            best = *note;
    return best;
}

/// The letter stays that of the nearest key, unless it would need a sign beyond `most` quarter
/// tones: notation has none.
Written quarter(const TunedDegree& d, const Pitch& a4, int most) {
    const EqualDivision division(24);
    constexpr int a4_key = 69;
    const Interval above_a4 = d.pitch - a4;
    const Integer step = division.nearest(above_a4);
    const int beyond = step.convert_to<int>() - 2 * (d.key - a4_key);
    NoteInOctave note = d.note;
    if (beyond != 0 && std::abs(note.name.quarter_tones + beyond) > most)
        note = with_few_signs(d.key, beyond);
    return {{note.name.letter, of_quarter_tones(note.name.quarter_tones + beyond), note.octave},
            above_a4 - division.at(step)};
}

int commas_of_sign(const NoteName& name) {
    const auto alteration = meaning(sign_of(of_quarter_tones(name.quarter_tones), SignStyle::plain),
                                    SignTable::turkish);
    return alteration ? alteration->amount.numerator().convert_to<int>() : 0;
}

bool has_sign(int commas) {
    const auto signs = all_signs();
    return std::any_of(signs.begin(), signs.end(),
                       [&](const SignEntry& s) { return s.commas == commas; });
}

/// True for the eight signs that theory has; the numbered ones fill the gaps between them.
bool is_theory(int commas) {
    const int size = std::abs(commas);
    return size == 0 || size == 1 || size == 4 || size == 5 || size == 8;
}

/// How `letter` is written `commas` above C0, if it has a sign for it.
std::optional<WrittenPitch> with_letter(char letter, const Integer& commas) {
    const Integer from_letter = commas - commas_of_letter(letter);
    // The octave in which the sign is smallest: floor of from_letter/53 + 1/2.
    const Integer octave = floor(Rational(from_letter, Integer(commas_of_octave)) + Rational(1, 2));
    const int sign = Integer(from_letter - octave * commas_of_octave).convert_to<int>();
    if (!has_sign(sign))
        return std::nullopt;
    return WrittenPitch{letter, {Rational(sign), AlterationUnit::comma}, octave.convert_to<int>()};
}

/// The wanted letter where a sign of theory brings it there, else the smallest sign that does, of
/// theory first. There is one: neighbouring letters lie at most 9 commas apart.
WrittenPitch comma_pitch(const Integer& commas, char wanted) {
    std::optional<WrittenPitch> best;
    std::tuple<bool, bool, int> best_rank;
    for (const char letter : letters) {
        const auto pitch = with_letter(letter, commas);
        if (!pitch)
            continue;
        const int sign = pitch->alteration.amount.numerator().convert_to<int>();
        const std::tuple rank(!is_theory(sign), letter != wanted, std::abs(sign));
        if (!best || rank < best_rank)
            best = pitch, best_rank = rank;
    }
    return *best;
}

/// A key's place in commas from C0. It has a sharp of 4 or a flat of 5 commas where it has one.
Integer commas_of(const NoteInOctave& note) {
    return commas_of_octave * note.octave + commas_of_letter(note.name.letter)
           + commas_of_sign(note.name);
}

/// Where the tonic is written: at its key, whatever an instrument sounds; but where theory itself
/// places it commas beside that key, as Segâh at B4-18.87c, there.
Integer tonic_commas(const TunedScale& scale, const TunedDegree& tonic) {
    const Interval as_stated = Interval::from_cents(Rational(1, 100)); // to so much of a comma
    const EqualDivision division(commas_of_octave);
    const Interval above_a4 = tonic.pitch - scale.a4();
    if (tonic.deviation.is_unison() || absolute(division.error(above_a4)) > as_stated)
        return commas_of(tonic.note);
    const NoteInOctave a4{{'A', 0}, 4};
    return commas_of(a4) + division.nearest(above_a4);
}

Written comma(const Interval& above_tonic, const TunedDegree& d, const Integer& tonic) {
    const EqualDivision division(commas_of_octave);
    const Integer step = division.nearest(above_tonic);
    return {comma_pitch(tonic + step, d.note.name.letter), above_tonic - division.at(step)};
}

/// Degrees of one line or space need a natural after any other sign.
void add_naturals(std::vector<StaffNote>& notes) {
    std::map<int, Sign> last;
    const Sign natural = *sign_named("natural");
    for (StaffNote& note : notes) {
        Sign& before = last[staff_place(note.pitch)];
        if (note.sign == no_sign && before != no_sign && before != natural)
            note.sign = natural;
        before = note.sign == no_sign ? before : note.sign;
    }
}

Clef usual_clef(const std::vector<StaffNote>& notes) {
    const auto beyond = [&](Clef clef) {
        long sum = 0;
        for (const StaffNote& n : notes)
            sum += std::max(0, std::abs(height_on_staff(n.pitch, clef)) - 4);
        return sum;
    };
    return beyond(Clef::bass) < beyond(Clef::treble) ? Clef::bass : Clef::treble;
}

bool all_steps_of(const Scale& scale, int steps) {
    const EqualDivision division(steps);
    return std::all_of(scale.degrees.begin(), scale.degrees.end(),
                       [&](const Degree& d) { return division.error(d.interval).is_unison(); });
}

} // namespace

bool is_persian(std::string_view sign) {
    return sign == "koron" || sign == "sori";
}

const std::array<ClefEntry, 4>& all_clefs() {
    return clefs;
}

const ClefEntry& entry_of(Clef clef) {
    return row_for(clefs, clef);
}

int staff_place(const WrittenPitch& pitch) {
    return 7 * pitch.octave + static_cast<int>(letters.find(pitch.step));
}

int height_on_staff(const WrittenPitch& pitch, Clef clef) {
    return staff_place(pitch) - entry_of(clef).middle_line;
}

Sign sign_of(const Alteration& alteration, SignStyle style) {
    const SignTable table = style == SignStyle::comma ? SignTable::turkish : SignTable::general;
    const auto signs = all_signs();
    for (std::size_t i = 0; i < signs.size(); ++i)
        if (meaning(static_cast<Sign>(i), table) == alteration
            && (style != SignStyle::persian || alteration.is_plain() || is_persian(signs[i].name)))
            return static_cast<Sign>(i);
    return no_sign;
}

SignStyle usual_style(const Scale& scale) {
    if (scale.signs)
        return *scale.signs;
    if (all_steps_of(scale, 12))
        return SignStyle::plain;
    return all_steps_of(scale, commas_of_octave) ? SignStyle::comma
           : all_steps_of(scale, 24)             ? SignStyle::quarter
                                                 : SignStyle::plain;
}

StaffScale staff_scale(const TunedScale& scale, std::optional<SignStyle> style,
                       std::optional<Clef> clef) {
    StaffScale staff{style.value_or(usual_style(scale.scale())), Clef::treble, {}};
    const TunedDegree& tonic = scale.degrees()[scale.tonic_index()];
    const Integer commas = tonic_commas(scale, tonic);
    for (const auto& [degree, tuned] : sounding(scale)) {
        const Written written = staff.style == SignStyle::plain     ? written_plainly(*tuned)
                                : staff.style == SignStyle::quarter ? quarter(*tuned, scale.a4(), 3)
                                : staff.style == SignStyle::persian
                                    ? quarter(*tuned, scale.a4(), 2)
                                    : comma(tuned->pitch - tonic.pitch, *tuned, commas);
        staff.notes.push_back({written.pitch, sign_of(written.pitch.alteration, staff.style),
                               written.deviation, staff.notes.size() + 1, degree->name,
                               degree->uncertainty});
    }
    add_naturals(staff.notes);
    staff.clef = clef.value_or(usual_clef(staff.notes));
    return staff;
}

std::optional<Clef> parse_clef(std::string_view text, const Place& place) {
    if (text == "auto")
        return std::nullopt;
    for (const ClefEntry& entry : clefs)
        if (entry.name == text)
            return entry.clef;
    throw error(message::unknown_clef, text, place);
}

} // namespace sectio::score
