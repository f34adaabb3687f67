#include <sectio/base/limits.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/note_spelling.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <algorithm>

namespace sectio {

namespace {

constexpr const char* default_tonic = "C4";

std::optional<char> letter_of(const StatedPitch& stated) {
    return stated.note() ? std::optional(stated.note()->name.letter) : std::nullopt;
}

NoteInOctave note_of(int key, std::optional<char> letter) {
    const auto note = letter ? note_with_letter(key, *letter) : std::nullopt;
    return note.value_or(usual_note(key));
}

} // namespace

Tonic::Tonic(StatedPitch by, const Pitch& a4)
    : stated(std::move(by)), pitch(stated.at(a4)),
      note(note_of(nearest_key(pitch, a4).key, letter_of(stated))), named(stated.note()) {}

Tonic::Tonic(const Pitch& sounding, const Pitch& a4)
    : stated(StatedPitch::in_hertz(frequency(sounding).rounded(6))), pitch(sounding),
      note(usual_note(nearest_key(pitch, a4).key)) {}

Pitch reference_of(const std::optional<TuningReference>& asked,
                   const std::optional<TuningReference>& own) {
    const auto& reference = asked ? asked : own;
    return reference ? reference->a4() : Pitch::concert_a();
}

TunedScale::TunedScale(Scale scale, Tonic tonic, Pitch a4)
    : scale_(std::move(scale)), tonic_(std::move(tonic)), a4_(std::move(a4)),
      tonic_index_(scale_.tonic_index()) {
    check_rules(scale_);
    std::vector<int> keys;
    for (const Degree& degree : scale_.degrees) {
        degrees_.push_back(with_key(tonic_.pitch + degree.interval));
        keys.push_back(degrees_.back().key);
    }
    const auto named =
        tonic_.named ? std::optional(NamedTonic{tonic_.note, tonic_index_}) : std::nullopt;
    const auto notes = spelled(keys, scale_.degrees, named);
    for (std::size_t i = 0; i < notes.size(); ++i)
        degrees_[i].note = notes[i];
    if (scale_.period)
        closing_ = tuned({tonic_index_, 1});
}

long TunedScale::number(std::size_t degree) const {
    const long above = static_cast<long>(degree) - static_cast<long>(tonic_index_);
    return above < 0 ? above : above + 1;
}

Interval TunedScale::above_tonic(const DegreeAt& at) const {
    if (at.degree >= scale_.degrees.size() || (at.period != 0 && !scale_.period))
        throw error(message::no_such_degree, "", {scale_.name}, at.degree, at.period.str());
    const Interval& interval = scale_.degrees[at.degree].interval;
    return at.period == 0 ? interval : interval + at.period * *scale_.period;
}

Pitch TunedScale::pitch(const DegreeAt& at) const {
    return tonic_.pitch + above_tonic(at);
}

TunedDegree TunedScale::with_key(const Pitch& pitch) const {
    const KeyedPitch keyed = nearest_key(pitch, a4_);
    return {pitch, keyed.key, keyed.deviation, {}};
}

TunedDegree TunedScale::tuned(const DegreeAt& at) const {
    const Pitch sounding = pitch(at);
    if (at.period == 0)
        return degrees_[at.degree];
    TunedDegree tuned = with_key(sounding);
    tuned.note = note_of(tuned.key, degrees_[at.degree].note.name.letter);
    return tuned;
}

std::optional<DegreeAt> TunedScale::step(const Integer& steps) const {
    const Integer index = steps + Integer(tonic_index_), count = Integer(degrees_.size());
    const Integer period = floor(Rational(index, count));
    if (!scale_.period && period != 0)
        return std::nullopt;
    return DegreeAt{Integer(index - period * count).convert_to<std::size_t>(), period};
}

NearestDegree TunedScale::nearest(const Pitch& pitch) const {
    Interval above = pitch - tonic_.pitch;
    const Integer period = scale_.period ? whole_periods(above, *scale_.period) : Integer(0);
    if (scale_.period)
        above -= period * *scale_.period;
    const auto higher = std::upper_bound(
        scale_.degrees.begin(), scale_.degrees.end(), above,
        [](const Interval& interval, const Degree& degree) { return interval < degree.interval; });
    const auto index = static_cast<std::size_t>(higher - scale_.degrees.begin());
    if (index == 0) // below a set without period
        return {{0, 0}, above - scale_.degrees.front().interval};
    NearestDegree lower{{index - 1, period}, above - scale_.degrees[index - 1].interval};
    if (index == scale_.degrees.size() && !scale_.period)
        return lower;
    const DegreeAt next =
        index < scale_.degrees.size() ? DegreeAt{index, period} : DegreeAt{0, period + 1};
    Interval rest = pitch - this->pitch(next);
    return -rest < lower.rest ? NearestDegree{next, rest} : lower;
}

std::vector<DegreeAt> TunedScale::between(const Pitch& low, const Pitch& high) const {
    const NearestDegree first = nearest(low); // all degrees before it are lower than `low`
    Integer step = first.at.period * Integer(degrees_.size()) + Integer(first.at.degree)
                   - Integer(tonic_index_);
    std::vector<DegreeAt> found;
    for (auto at = this->step(step); at; at = this->step(++step)) {
        const Pitch sounding = pitch(*at);
        if (sounding > high)
            break;
        if (found.size() == limits::scale_degrees)
            throw error(message::too_many_degrees, "", {}, limits::scale_degrees);
        if (sounding >= low)
            found.push_back(*at);
    }
    return found;
}

TunedScale tuned(Scale scale, const TuningOptions& options) {
    const Pitch a4 = reference_of(options.reference, scale.reference);
    const auto& stated = options.tonic ? options.tonic : scale.tonic;
    Tonic tonic(stated.value_or(default_tonic), a4);
    tonic.named = tonic.named && stated;
    return TunedScale(std::move(scale), std::move(tonic), a4);
}

} // namespace sectio
