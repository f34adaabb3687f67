#include <sectio/interval/expression.hpp>
#include <sectio/interval/semitones.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/tonic.hpp>
#include <sectio/score/tuning.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio::score {

namespace {

/// Every note is so many fifths and octaves from C4, so spelling decides all.
class ChainTuning : public NoteTuning {
  public:
    /// `parts`: into how many steps of the system an apotome (seven fifths less four octaves),
    /// which a sharp is, falls. `steps`: the same of the octave, where that is a number.
    ChainTuning(std::string name, Interval fifth, Integer parts, std::optional<Integer> steps,
                std::string lacking, const WrittenTonic& tonic)
        : name_(std::move(name)), fifth_(std::move(fifth)), parts_(std::move(parts)),
          steps_(std::move(steps)), lacking_(std::move(lacking)), tonic_(tonic) {
        const std::optional<Interval> tonic_place = place(tonic.note);
        if (!tonic_place)
            throw error(message::tonic_not_in_system, tonic.text, {}, name_);
        from_tonic_ = *tonic_place;
    }

    std::vector<Outcome> tune(std::span<const WrittenPitch> pitches) const override {
        std::vector<Outcome> outcomes;
        for (const WrittenPitch& pitch : pitches)
            outcomes.push_back(outcome(pitch));
        return outcomes;
    }

    std::string text() const override {
        return fmt::format("{}, {} without deviation", name_, tonic_.text);
    }

  private:
    Outcome outcome(const WrittenPitch& pitch) const {
        const std::optional<Interval> interval = place(pitch);
        if (!interval)
            return Lacking{lacking_};
        return tonic_.deviation + *interval - from_tonic_
               - semitone() * Rational(base_key(pitch) - tonic_.key);
    }

    Interval fifths(const Integer& count, const Integer& octaves_down) const {
        return count * fifth_ - octaves_down * Interval::octave();
    }

    /// Above C4. The plain letter is n fifths less (7n - keys)/12 octaves, since a fifth is 7 keys.
    std::optional<Interval> place(const WrittenPitch& pitch) const {
        const int n = fifths_of_letter(pitch.step);
        const int down = (7 * n - keys_of_letter(pitch.step)) / 12 - (pitch.octave - 4);
        const std::optional<Interval> altered = alteration(pitch.alteration);
        return altered ? std::optional(fifths(n, down) + *altered) : std::nullopt;
    }

    std::optional<Interval> alteration(const Alteration& alteration) const {
        const Rational& amount = alteration.amount;
        if (alteration.unit == AlterationUnit::comma)
            return amount.denominator() == 1 ? std::optional(commas(amount.numerator()))
                                             : std::nullopt;
        if (const auto sharps = multiple(amount, parts_))
            return fifths(7, 4) * *sharps;
        if (const auto keys = steps_ ? multiple(amount, Rational(*steps_, 12)) : std::nullopt)
            return semitone() * *keys;
        return std::nullopt;
    }

    /// `amount` as whole parts, so many to 1, where it is that or was written for it.
    static std::optional<Rational> multiple(const Rational& amount, const Rational& parts) {
        const Rational exact = Rational(floor(amount * parts + Rational(1, 2))) / parts;
        return amount == exact || written_for(amount, exact) ? std::optional(exact) : std::nullopt;
    }

    /// Whether `decimals`, two or more of them, were cut or rounded from `exact`: 0.333 from 1/3.
    static bool written_for(const Rational& decimals, const Rational& exact) {
        constexpr int two_decimals = 100;
        const Rational off = decimals < exact ? exact - decimals : decimals - exact;
        return decimals.denominator() >= two_decimals
               && off < Rational(Integer(1), decimals.denominator());
    }

    /// The shortest way in the chain: n fifths with 31n = c in 53 commas to the octave. 12 undoes
    /// 31 there, since 12·31 = 7·53 + 1. It gives Arel's, Ezgi's and Uzdilek's own chain: 1 is 12
    /// fifths up, 4 is 5 down, 5 is 7 up, 8 is 10 down.
    Interval commas(const Integer& count) const {
        Integer n = (12 * count) % 53;
        n += n < -26 ? 53 : n > 26 ? -53 : 0;
        return fifths(n, (31 * n - count) / 53);
    }

    std::string name_;
    Interval fifth_;
    Integer parts_;
    std::optional<Integer> steps_;
    std::string lacking_; ///< why an alteration has no place
    WrittenTonic tonic_;
    Interval from_tonic_;
};

/// Notes found by their own names, or by the twelve keys.
class NamedTuning : public NoteTuning {
  public:
    NamedTuning(const Entry& system, const WrittenTonic& tonic)
        : name_(system.name), tonic_(tonic) {
        const auto& degrees = system.scale()->degrees;
        first_ = degrees[0].note.empty() ? NoteName{} : parse_note_name(degrees[0].note);
        for (const Degree& degree : degrees)
            notes_.push_back({degree.interval, name_of(degree)});
        notes_[0].name = first_;
        const std::optional<Interval> zero = deviation(tonic.note);
        if (!zero)
            throw error(message::tonic_not_in_system, tonic.text, {}, system.id);
        of_tonic_ = *zero;
    }

    std::vector<Outcome> tune(std::span<const WrittenPitch> pitches) const override {
        std::vector<Outcome> outcomes;
        for (const WrittenPitch& pitch : pitches) {
            const std::optional<Interval> found = deviation(pitch);
            outcomes.push_back(found ? Outcome(*found - of_tonic_ + tonic_.deviation)
                                     : Outcome(Lacking{"the system has no note of this name"}));
        }
        return outcomes;
    }

    std::string text() const override {
        return fmt::format("{}, {} without deviation", name_, tonic_.text);
    }

  private:
    struct NamedNote {
        Interval interval;
        std::optional<NoteName> name;
    };

    static std::optional<NoteName> name_of(const Degree& degree) {
        return degree.note.empty() ? std::nullopt : std::optional(parse_note_name(degree.note));
    }

    /// Of the note from its own key, the system's first note being at its key.
    std::optional<Interval> deviation(const WrittenPitch& pitch) const {
        const int keys = base_key(pitch) - first_.quarter_tones_from_c() / 2;
        const Interval above_first = semitone() * Rational((keys % 12 + 12) % 12);
        const NamedNote* note = find(pitch, above_first);
        if (note == nullptr)
            return std::nullopt;
        // The note may lie in the octave beside: B♯ is named below C and lies above it.
        const Interval raw = note->interval - above_first;
        const Interval half = Interval::octave() * Rational(1, 2);
        return raw - whole_periods(raw + half, Interval::octave()) * Interval::octave();
    }

    const NamedNote* find(const WrittenPitch& pitch, const Interval& above_first) const {
        if (pitch.alteration.unit == AlterationUnit::comma)
            return by_commas(pitch);
        for (const NamedNote& note : notes_)
            if (note.name && note.name->letter == pitch.step
                && pitch.alteration.is_semitones(Rational(note.name->quarter_tones, 2)))
                return &note;
        return notes_.size() == 12 && pitch.alteration.amount.denominator() == 1
                   ? by_key(above_first)
                   : nullptr;
    }

    const NamedNote* by_key(const Interval& above_first) const {
        for (const NamedNote& note : notes_)
            if (distance(note.interval, above_first) < semitone() * Rational(1, 2))
                return &note;
        return nullptr;
    }

    const NamedNote* by_commas(const WrittenPitch& pitch) const {
        const Rational commas = commas_of_letter(pitch.step) + pitch.alteration.amount
                                - commas_of_letter(first_.letter);
        for (const NamedNote& note : notes_)
            if (distance(note.interval, Interval::octave() * (commas / 53))
                < Interval::from_steps(1, 106))
                return &note;
        return nullptr;
    }

    /// Between two intervals where octaves do not count.
    static Interval distance(const Interval& a, const Interval& b) {
        const Interval up = reduced(a - b);
        return std::min(up, Interval::octave() - up);
    }

    std::string name_;
    WrittenTonic tonic_;
    NoteName first_;
    std::vector<NamedNote> notes_;
    Interval of_tonic_;
};

/// Places to either side in which a chain is looked for; the longest in use have some 50.
constexpr int chain_reach = 60;

/// The size of fifth of which all degrees are chains, if there is one: the degree nearest to 3/2.
std::optional<Interval> common_fifth(const Scale& scale) {
    constexpr std::size_t fewest = 5;
    if (scale.period != Interval::octave() || scale.degrees.size() < fewest)
        return std::nullopt;
    const Interval pure = Interval::from_ratio(3, 2);
    const auto off = [&](const Degree& degree) { return absolute(degree.interval - pure); };
    const auto fifth =
        std::min_element(scale.degrees.begin(), scale.degrees.end(),
                         [&](const Degree& a, const Degree& b) { return off(a) < off(b); });
    std::vector<Interval> chain;
    for (int n = -chain_reach; n <= chain_reach; ++n)
        chain.push_back(reduced(Integer(n) * fifth->interval));
    const bool all =
        std::all_of(scale.degrees.begin(), scale.degrees.end(), [&](const Degree& degree) {
            return std::find(chain.begin(), chain.end(), degree.interval) != chain.end();
        });
    return all ? std::optional(fifth->interval) : std::nullopt;
}

} // namespace

std::unique_ptr<NoteTuning> tuning_by_division(const EqualDivision& division,
                                               const StatedPitch& tonic, const Pitch& a4) {
    const Integer fifth = division.nearest(Interval::from_ratio(3, 2));
    const Integer apotome = abs(Integer(7 * fifth - 4 * division.steps()));
    const std::string name = fmt::format("{} equal steps", division.text());
    const Integer parts = apotome == 0 ? Integer(2) : apotome; // of no size: any will do
    return std::make_unique<ChainTuning>(name, division.at(fifth), parts, division.steps(),
                                         "this alteration is none of the " + name,
                                         written_tonic(Tonic(tonic, a4), a4));
}

std::unique_ptr<NoteTuning> tuning_by_system(const Entry& system, const StatedPitch& tonic,
                                             const Pitch& a4) {
    if (system.division() && system.division()->period() == Interval::octave())
        return tuning_by_division(*system.division(), tonic, a4);
    if (!system.scale() || system.scale()->degrees.empty())
        throw error(message::no_tuning_system, system.id, {});
    if (system.kind() == EntryKind::scale)
        throw error(message::system_is_scale, system.id, {}, system.id);
    if (const auto fifth = common_fifth(*system.scale()))
        return std::make_unique<ChainTuning>(system.name, *fifth, 1, std::nullopt,
                                             "this alteration has no place in the chain of fifths",
                                             written_tonic(Tonic(tonic, a4), a4));
    return std::make_unique<NamedTuning>(system, written_tonic(Tonic(tonic, a4), a4));
}

} // namespace sectio::score
