#include <sectio/base/limits.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>

namespace sectio {

namespace {

/// The mean of the squares in cents where all are exact fractions.
std::optional<Rational> exact_mean_square(const std::vector<Interval>& intervals) {
    Rational sum(0);
    for (const Interval& interval : intervals) {
        const auto cents = interval.exact_cents();
        if (!cents)
            return std::nullopt;
        sum += *cents * *cents;
    }
    return sum / Integer(intervals.size());
}

ComparedDegree compared_degree(const Comparison& comparison, const Degree& degree) {
    const Pitch pitch = comparison.tonic + degree.interval;
    const KeyedPitch nearest = nearest_key(pitch, comparison.a4);
    ComparedDegree compared{degree, std::nullopt, pitch, nearest.key, {}, nearest.deviation, {}};
    for (const EqualDivision& division : comparison.divisions)
        compared.against.push_back(compared_step(division, degree.interval));
    return compared;
}

void set_next(Comparison& comparison) {
    auto& degrees = comparison.degrees;
    for (std::size_t i = 0; i + 1 < degrees.size(); ++i)
        degrees[i].next = degrees[i + 1].degree.interval - degrees[i].degree.interval;
    if (comparison.scale.period)
        degrees.back().next = *comparison.scale.period - degrees.back().degree.interval;
}

void set_notes(Comparison& comparison) {
    std::vector<int> keys;
    std::vector<Degree> degrees;
    for (const ComparedDegree& d : comparison.degrees) {
        keys.push_back(d.key);
        degrees.push_back(d.degree);
    }
    const auto notes = spelled(keys, degrees);
    for (std::size_t i = 0; i < notes.size(); ++i)
        comparison.degrees[i].note = notes[i];
    if (comparison.closing) {
        const int key = comparison.closing->key;
        const auto same = note_with_letter(key, notes.front().name.letter);
        comparison.closing->note = same ? *same : usual_note(key);
    }
}

DivisionSummary summary(const Comparison& comparison, std::size_t division) {
    DivisionSummary result{comparison.divisions[division], Interval(), 0, {}};
    for (std::size_t i = 0; i < comparison.degrees.size(); ++i) {
        if (comparison.degrees[i].degree.interval.is_unison())
            continue;
        const Interval& error = comparison.degrees[i].against[division].error;
        result.errors.push_back(error);
        if (const Interval size = absolute(error); size > result.max_error) {
            result.max_error = size;
            result.worst = i;
        }
    }
    return result;
}

/// Letters up from `first`, one a key, where single accidentals suffice.
std::vector<NoteInOctave> one_letter_each(const std::vector<int>& keys, char first) {
    constexpr std::string_view letters = "CDEFGAB";
    std::vector<NoteInOctave> notes;
    std::size_t letter = letters.find(first);
    for (const int key : keys) {
        const auto note = note_with_letter(key, letters[letter % letters.size()]);
        if (!note || std::abs(note->name.quarter_tones) > 2)
            return {};
        notes.push_back(*note);
        ++letter;
    }
    return notes;
}

int count_accidentals(const std::vector<NoteInOctave>& notes) {
    return static_cast<int>(std::count_if(notes.begin(), notes.end(), [](const NoteInOctave& n) {
        return n.name.quarter_tones != 0;
    }));
}

/// The spelling with fewer accidentals of those that begin on the tonic's possible letters.
std::vector<NoteInOctave> heptatonic(const std::vector<int>& keys) {
    std::vector<NoteInOctave> best;
    for (const char letter : std::string_view("CDEFGAB")) {
        const auto tonic = note_with_letter(keys.front(), letter);
        if (!tonic || std::abs(tonic->name.quarter_tones) > 2)
            continue;
        const auto notes = one_letter_each(keys, letter);
        if (!notes.empty() && (best.empty() || count_accidentals(notes) < count_accidentals(best)))
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

std::vector<NoteInOctave> spelled(const std::vector<int>& keys,
                                  const std::vector<Degree>& degrees) {
    std::vector<NoteInOctave> notes =
        keys.size() == 7 ? heptatonic(keys) : std::vector<NoteInOctave>();
    if (notes.empty())
        std::transform(keys.begin(), keys.end(), std::back_inserter(notes), usual_note);
    for (std::size_t i = 0; i < notes.size(); ++i)
        if (const auto given = as_given(keys[i], degrees[i]))
            notes[i] = *given;
    return notes;
}

ComparedStep compared_step(const EqualDivision& division, const Interval& degree) {
    const Integer step = division.nearest(degree);
    const Interval size = division.at(step);
    return {step, size, size - degree};
}

std::string rms_cents(const std::vector<Interval>& intervals, int digits) {
    check_digits(digits);
    if (intervals.empty())
        return decimal(Rational(0), digits);
    if (const auto mean = exact_mean_square(intervals))
        return root_decimal(*mean, digits);
    return certified_decimal(
        [&](long bits) {
            Enclosure sum(bits);
            for (const Interval& interval : intervals) {
                const Enclosure octaves = interval.octaves(bits);
                sum = sum + octaves * octaves;
            }
            const Integer count(intervals.size());
            return sqrt(sum / Enclosure(count, bits)) * Enclosure(Integer(1200), bits);
        },
        digits);
}

std::string DivisionSummary::rms_cents(int digits) const {
    return sectio::rms_cents(errors, digits);
}

Comparison compare(const Scale& scale, const ComparisonOptions& options) {
    if (options.divisions.size() > limits::compared_divisions)
        throw error(message::too_many_divisions, "", {}, limits::compared_divisions);
    const auto reference = options.reference ? options.reference : scale.reference;
    const Pitch a4 = reference ? parse_reference(*reference, {"reference"}) : Pitch::concert_a();
    const std::string tonic = options.tonic.value_or(scale.tonic.value_or("C4"));
    Comparison comparison{
        scale, parse_pitch(tonic, a4, {"tonic"}), tonic, a4, {}, {}, options.divisions, {}};
    for (const Degree& degree : scale.degrees)
        comparison.degrees.push_back(compared_degree(comparison, degree));
    if (scale.period)
        comparison.closing = compared_degree(comparison, scale.closing);
    set_next(comparison);
    set_notes(comparison);
    for (std::size_t i = 0; i < comparison.divisions.size(); ++i)
        comparison.summaries.push_back(summary(comparison, i));
    return comparison;
}

} // namespace sectio
