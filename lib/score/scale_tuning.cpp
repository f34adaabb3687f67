#include <sectio/base/argument.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/semitones.hpp>
#include <sectio/score/degree_index.hpp>
#include <sectio/score/tonic.hpp>
#include <sectio/score/tuning.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

namespace sectio::score {

namespace {

const Interval& half_a_semitone() {
    static const Interval value = Interval::from_steps(1, 24);
    return value;
}
const Interval& half_a_comma() {
    static const Interval value = Interval::from_steps(1, 106);
    return value;
}

/// What one written pitch takes.
struct Claim {
    NearDegree taken;
    bool certain; ///< by its name or its commas
};

/// The best claim to each degree.
struct BestClaim {
    bool certain = false;
    Interval error;
};

/// By degree and, where names do not return with the period, by the interval at which it is
/// claimed; else the best claim in one octave is that of all, and the interval is none.
using BestClaims = std::map<std::pair<std::size_t, Interval>, BestClaim>;

bool author_named(const Degree& degree, const NoteInOctave& note) {
    if (degree.note.empty())
        return false;
    try {
        return parse_note_name(degree.note) == note.name;
    } catch (const Error&) { // a name in another notation says nothing here
        return false;
    }
}

bool one_letter_each(const std::vector<TunedDegree>& notes) {
    std::set<char> letters;
    for (const TunedDegree& degree : notes)
        letters.insert(degree.note.name.letter);
    return notes.size() == 7 && letters.size() == 7;
}

class ScaleTuning : public NoteTuning {
  public:
    explicit ScaleTuning(const TunedScale& tuned)
        : tonic_(written_tonic(tuned.tonic(), tuned.a4())),
          text_(fmt::format("{} on {}", tuned.scale().name, tuned.tonic().written())),
          degrees_(tuned.scale().period), period_(tuned.scale().period) {
        const std::vector<TunedDegree>& notes = tuned.degrees();
        const bool by_letters = one_letter_each(notes);
        for (std::size_t i = 0; i < notes.size(); ++i) {
            const Degree& degree = tuned.scale().degrees[i];
            degrees_.add(i, degree.interval);
            const bool decided = by_letters || author_named(degree, notes[i].note);
            names_.push_back(decided ? std::optional(notes[i].note.name) : std::nullopt);
            if (decided)
                of_name(notes[i].note.name).add(i, degree.interval);
        }
        degrees_.sort();
        for (auto& [name, index] : named_)
            index.sort();
    }

    std::vector<Outcome> tune(std::span<const WrittenPitch> pitches) const override {
        std::vector<std::variant<Claim, Lacking>> claims;
        BestClaims best;
        for (const WrittenPitch& pitch : pitches) {
            claims.push_back(claim(pitch));
            if (const auto* made = std::get_if<Claim>(&claims.back()))
                note(best, *made);
        }
        std::vector<Outcome> outcomes;
        for (std::size_t i = 0; i < claims.size(); ++i)
            outcomes.push_back(decided(best, claims[i], pitches[i]));
        return outcomes;
    }

    std::string text() const override { return text_; }
    std::string cure() const override {
        return "What a scale lacks is taken from a tuning system after it where one is named, "
               "such "
               "as --rest 12; a degree that a scale file calls by another note is called right by "
               "note = \"F#\" beside it.";
    }

  private:
    using NameKey = std::pair<char, int>; ///< letter, quarter tones

    DegreeIndex& of_name(const NoteName& name) {
        return named_.try_emplace({name.letter, name.quarter_tones}, period_).first->second;
    }

    /// From the tonic to the written pitch in its own measure: keys of 12 steps, or commas.
    Interval distance(const WrittenPitch& pitch) const {
        if (pitch.alteration.unit == AlterationUnit::semitone)
            return semitone() * (height(pitch) - height(tonic_.note));
        const Rational commas = 53 * (pitch.octave - tonic_.note.octave)
                                + commas_of_letter(pitch.step) + pitch.alteration.amount
                                - commas_of_tonic();
        return Interval::octave() * (commas / 53);
    }

    /// Above C: a sharp is four commas and a flat five; quarter tones are taken as they sound.
    Rational commas_of_tonic() const {
        const Rational& sharps = tonic_.note.alteration.amount;
        const Rational each = sharps.denominator() != 1 ? Rational(53, 12)
                              : sharps > 0              ? Rational(4)
                                                        : Rational(5);
        return commas_of_letter(tonic_.note.step) + each * sharps;
    }

    std::variant<Claim, Lacking> claim(const WrittenPitch& pitch) const {
        const Interval distance = this->distance(pitch);
        const std::vector<NearDegree> near = degrees_.nearest(distance);
        if (pitch.alteration.unit == AlterationUnit::comma) {
            if (!near.empty() && near[0].error < half_a_comma())
                return Claim{near[0], true};
        } else if (const auto named = by_name(pitch, distance)) {
            return Claim{*named, true};
        }
        return only(near, pitch);
    }

    /// The nearest degree of this very name, within a semitone.
    std::optional<NearDegree> by_name(const WrittenPitch& pitch, const Interval& distance) const {
        const Rational quarter_tones = 2 * pitch.alteration.amount;
        if (quarter_tones.denominator() != 1)
            return std::nullopt;
        const auto found = named_.find({pitch.step, quarter_tones.numerator().convert_to<int>()});
        if (found == named_.end())
            return std::nullopt;
        const std::vector<NearDegree> near = found->second.nearest(distance);
        return near[0].error < semitone() ? std::optional(near[0]) : std::nullopt;
    }

    std::variant<Claim, Lacking> only(const std::vector<NearDegree>& near,
                                      const WrittenPitch& pitch) const {
        if (near.empty() || near[0].error > half_a_semitone())
            return Lacking{"the scale has no degree within 50 cents"};
        if (near.size() > 1 && near[1].error <= half_a_semitone())
            return Lacking{
                "the scale has several degrees within 50 cents, and none of this spelling"};
        const auto& name = names_[near[0].degree];
        const bool plain = pitch.alteration.unit == AlterationUnit::semitone
                           && pitch.alteration.amount.denominator() == 1;
        if (name && plain)
            return Lacking{fmt::format("the scale writes this degree {}", name->text())};
        return Claim{near[0], false};
    }

    BestClaims::key_type claimed(const Claim& claim) const {
        return {claim.taken.degree, names_return_ ? Interval() : claim.taken.interval};
    }

    void note(BestClaims& best, const Claim& claim) const {
        const auto [place, first] =
            best.try_emplace(claimed(claim), BestClaim{claim.certain, claim.taken.error});
        if (first)
            return;
        place->second.certain = place->second.certain || claim.certain;
        place->second.error = std::min(place->second.error, claim.taken.error);
    }

    Outcome decided(const BestClaims& best, const std::variant<Claim, Lacking>& mine,
                    const WrittenPitch& pitch) const {
        if (const auto* lacking = std::get_if<Lacking>(&mine))
            return *lacking;
        const Claim& claim = std::get<Claim>(mine);
        const BestClaim& rival = best.at(claimed(claim));
        if (!claim.certain && (rival.certain || rival.error < claim.taken.error))
            return Lacking{"another written note lies nearer to the degree"};
        return tonic_.deviation + claim.taken.interval
               - semitone() * Rational(base_key(pitch) - tonic_.key);
    }

    WrittenTonic tonic_;
    std::string text_;
    DegreeIndex degrees_;
    std::optional<Interval> period_;
    bool names_return_ = period_ && reduced(*period_, Interval::octave()) == Interval();
    std::vector<std::optional<NoteName>> names_; ///< where the scale decides how it is written
    std::map<NameKey, DegreeIndex> named_;
};

class RestTuning : public NoteTuning {
  public:
    RestTuning(std::unique_ptr<NoteTuning> scale, std::unique_ptr<NoteTuning> rest)
        : scale_(std::move(scale)), rest_(std::move(rest)) {}

    std::vector<Outcome> tune(std::span<const WrittenPitch> pitches) const override {
        std::vector<Outcome> outcomes = scale_->tune(pitches);
        const std::vector<Outcome> others = rest_->tune(pitches);
        for (std::size_t i = 0; i < outcomes.size(); ++i)
            if (std::holds_alternative<Lacking>(outcomes[i]))
                outcomes[i] = others[i];
        return outcomes;
    }

    std::string text() const override { return scale_->text() + "; the rest: " + rest_->text(); }

  private:
    std::unique_ptr<NoteTuning> scale_, rest_;
};

} // namespace

std::unique_ptr<NoteTuning> tuning_with_rest(std::unique_ptr<NoteTuning> scale,
                                             std::unique_ptr<NoteTuning> rest) {
    check_argument(scale && rest, "a tuning with a rest", "made of two tunings");
    return std::make_unique<RestTuning>(std::move(scale), std::move(rest));
}

std::unique_ptr<NoteTuning> tuning_by_scale(const TunedScale& scale) {
    return std::make_unique<ScaleTuning>(scale);
}

std::unique_ptr<NoteTuning> tuning_by_scale(const Scale& scale, const StatedPitch& tonic,
                                            const Pitch& a4) {
    return tuning_by_scale(TunedScale(scale, Tonic(tonic, a4), a4));
}

} // namespace sectio::score
