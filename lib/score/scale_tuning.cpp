#include <sectio/interval/expression.hpp>
#include <sectio/scale/comparison.hpp>
#include <sectio/score/tonic.hpp>
#include <sectio/score/tuning.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <set>

namespace sectio::score {

namespace {

const Interval& semitone() {
    static const Interval value = Interval::steps(1, 12);
    return value;
}
const Interval& half_a_semitone() {
    static const Interval value = Interval::steps(1, 24);
    return value;
}
const Interval& half_a_comma() {
    static const Interval value = Interval::steps(1, 106);
    return value;
}

struct NamedDegree {
    Interval interval;
    std::optional<NoteName> name; ///< where the scale itself decides how the degree is written
};

/// What one written pitch takes.
struct Claim {
    std::size_t degree;
    Interval interval; ///< of the degree in the right period, above the tonic
    Interval error;    ///< how far the written pitch lies from it, not negative
    bool certain;      ///< by its name or its commas
};

bool author_named(const Degree& degree, const NoteInOctave& note) {
    if (degree.note.empty())
        return false;
    try {
        return parse_note_name(degree.note) == note.name;
    } catch (const Error&) { // a name in another notation says nothing here
        return false;
    }
}

bool one_letter_each(const std::vector<NoteInOctave>& notes) {
    std::set<char> letters;
    for (const NoteInOctave& note : notes)
        letters.insert(note.name.letter);
    return notes.size() == 7 && letters.size() == 7;
}

class ScaleTuning : public NoteTuning {
  public:
    ScaleTuning(const Scale& scale, const std::string& tonic, const Pitch& a4)
        : tonic_(parse_tonic(tonic, a4)), period_(scale.period),
          text_(fmt::format("{} on {}", scale.name, tonic)) {
        std::vector<int> keys;
        const Pitch from = pitch_of_key(tonic_.key, a4) + tonic_.deviation;
        for (const Degree& degree : scale.degrees)
            keys.push_back(nearest_key(from + degree.interval, a4).key);
        const std::vector<NoteInOctave> notes = spelled(keys, scale.degrees);
        const bool by_letters = one_letter_each(notes);
        for (std::size_t i = 0; i < notes.size(); ++i) {
            const bool decided = by_letters || author_named(scale.degrees[i], notes[i]);
            degrees_.push_back(
                {scale.degrees[i].interval, decided ? std::optional(notes[i].name) : std::nullopt});
        }
    }

    std::vector<Outcome> tune(std::span<const WrittenPitch> pitches) const override {
        std::vector<std::variant<Claim, Lacking>> claims;
        for (const WrittenPitch& pitch : pitches)
            claims.push_back(claim(pitch));
        std::vector<Outcome> outcomes;
        for (std::size_t i = 0; i < claims.size(); ++i)
            outcomes.push_back(decided(claims, claims[i], pitches[i]));
        return outcomes;
    }

    std::string text() const override { return text_; }

  private:
    /// From the tonic to the written pitch in its own measure: keys of 12 steps, or commas.
    Interval distance(const WrittenPitch& pitch) const {
        if (pitch.alteration.unit == AlterationUnit::semitone)
            return semitone() * (height(pitch) - height(tonic_.note));
        const int sharps = whole_semitones(tonic_.note.alteration);
        const int tonic = commas_of_letter(tonic_.note.step) + (sharps > 0 ? 4 : 5) * sharps;
        const Rational commas = 53 * (pitch.octave - tonic_.note.octave)
                                + commas_of_letter(pitch.step) + pitch.alteration.amount - tonic;
        return Interval::octave() * (commas / 53);
    }

    /// The degree in the period where it lies nearest to `distance`.
    Claim nearest(std::size_t degree, const Interval& distance) const {
        Interval interval = degrees_[degree].interval;
        if (period_) {
            const Interval rest = distance - interval + *period_ * Rational(1, 2);
            interval += whole_periods(rest, *period_) * *period_;
        }
        return {degree, interval, absolute(distance - interval), false};
    }

    static bool same_name(const NoteName& name, const WrittenPitch& pitch) {
        return name.letter == pitch.step
               && pitch.alteration.is_semitones(Rational(name.quarter_tones, 2));
    }

    std::variant<Claim, Lacking> claim(const WrittenPitch& pitch) const {
        const Interval distance = this->distance(pitch);
        const bool commas = pitch.alteration.unit == AlterationUnit::comma;
        std::vector<Claim> near;
        for (std::size_t i = 0; i < degrees_.size(); ++i) {
            Claim claim = nearest(i, distance);
            const auto& name = degrees_[i].name;
            claim.certain = commas ? claim.error < half_a_comma()
                                   : name && same_name(*name, pitch) && claim.error < semitone();
            if (claim.certain)
                return claim;
            if (claim.error <= half_a_semitone())
                near.push_back(claim);
        }
        return only(near, pitch);
    }

    std::variant<Claim, Lacking> only(const std::vector<Claim>& near,
                                      const WrittenPitch& pitch) const {
        if (near.empty())
            return Lacking{"the scale has no degree within 50 cents"};
        if (near.size() > 1)
            return Lacking{
                "the scale has several degrees within 50 cents, and none of this spelling"};
        const auto& name = degrees_[near[0].degree].name;
        const bool plain = pitch.alteration.unit == AlterationUnit::semitone
                           && pitch.alteration.amount.denominator() == 1;
        if (name && plain)
            return Lacking{fmt::format("the scale writes this degree {}", name->text())};
        return near[0];
    }

    Outcome decided(const std::vector<std::variant<Claim, Lacking>>& claims,
                    const std::variant<Claim, Lacking>& mine, const WrittenPitch& pitch) const {
        if (const auto* lacking = std::get_if<Lacking>(&mine))
            return *lacking;
        const Claim& claim = std::get<Claim>(mine);
        for (const auto& other : claims) {
            const auto* rival = std::get_if<Claim>(&other);
            if (!claim.certain && rival != nullptr && rival->degree == claim.degree
                && (rival->certain || rival->error < claim.error))
                return Lacking{"another written note lies nearer to the degree"};
        }
        return tonic_.deviation + claim.interval
               - semitone() * Rational(base_key(pitch) - tonic_.key);
    }

    Tonic tonic_;
    std::optional<Interval> period_;
    std::string text_;
    std::vector<NamedDegree> degrees_;
};

} // namespace

std::unique_ptr<NoteTuning> tuning_by_scale(const Scale& scale, const std::string& tonic,
                                            const Pitch& a4) {
    return std::make_unique<ScaleTuning>(scale, tonic, a4);
}

} // namespace sectio::score
