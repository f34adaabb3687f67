#include <sectio/sheet/sounds.hpp>

namespace sectio {

namespace {

const Interval& semitone() {
    static const Interval interval = Interval::from_steps(1, 12);
    return interval;
}

/// The nearest key is spelled as the sheet has it, the other as usual.
page::NeighbourKey key_beside(const TunedDegree& degree, int steps,
                              const std::optional<page::HalfWidth>& half_width) {
    const Interval deviation = degree.deviation - Integer(steps) * semitone();
    return {steps == 0 ? degree.note : usual_note(degree.key + steps), degree.pitch - deviation,
            page::cents(deviation).borne_by(half_width).with_sign()};
}

page::SoundedDegree sounded(const TunedScale& scale, std::size_t index) {
    const TunedDegree& degree = scale.degrees()[index];
    const Degree& own = scale.scale().degrees[index];
    const std::optional<page::HalfWidth> half_width(own.uncertainty);
    const bool on_key = degree.deviation.is_unison(), sharp = degree.deviation > Interval();
    page::SoundedDegree sounded{std::to_string(scale.number(index)),
                                own.name,
                                degree.pitch,
                                page::cents(own.interval).borne_by(half_width),
                                key_beside(degree, on_key || sharp ? 0 : -1, half_width),
                                std::nullopt};
    if (!on_key)
        sounded.above = key_beside(degree, sharp ? 1 : 0, half_width);
    return sounded;
}

} // namespace

page::Sounds sounds_of(const TunedScale& scale, const std::optional<Pitch>& drone) {
    const Pitch pitch = drone.value_or(scale.tonic().pitch - Interval::octave());
    const NoteInOctave note = usual_note(nearest_key(pitch, scale.a4()).key);
    page::Sounds sounds{{}, scale.scale().period, pitch, note.text(true)};
    for (std::size_t i = 0; i < scale.degrees().size(); ++i)
        sounds.degrees.push_back(sounded(scale, i));
    return sounds;
}

} // namespace sectio
