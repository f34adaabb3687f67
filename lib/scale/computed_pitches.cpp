#include <sectio/base/limits.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/pitch_list.hpp>

namespace sectio {

namespace {

constexpr int digits = 6;

void check_counts(std::size_t pitches, std::size_t half_widths) {
    if (pitches == 0)
        throw error(message::no_pitches, "", {});
    if (pitches > limits::identified_pitches)
        throw error(message::too_many_pitches, "", {}, limits::identified_pitches);
    if (half_widths != pitches)
        throw error(message::half_widths_missing, "", {}, pitches, half_widths);
}

/// Never rounded to nothing. @throws Error uncertainty_negative, also for no number
std::optional<Interval> half_width_of(double cents) {
    if (!(cents >= 0))
        throw error(message::uncertainty_negative, std::to_string(cents), {});
    if (cents == 0)
        return std::nullopt;
    return std::max(Interval::from_cents(cents, digits),
                    Interval::from_cents(Rational(1, 1'000'000)));
}

/// What each figure stands for is set by `state`.
template <typename State>
PitchList list_of(std::span<const double> figures, std::span<const double> half_widths,
                  State state) {
    check_counts(figures.size(), half_widths.size());
    PitchList list;
    list.name = "pitches";
    list.period = Interval::octave();
    for (std::size_t i = 0; i < figures.size(); ++i) {
        ListedPitch& pitch = list.pitches.emplace_back();
        pitch.above.half_width = half_width_of(half_widths[i]);
        state(figures[i], list, pitch);
    }
    return list;
}

std::vector<double> for_all(std::span<const double> figures, double half_width) {
    return std::vector<double>(figures.size(), half_width);
}

} // namespace

PitchList pitches_of_cents(std::span<const double> cents, std::span<const double> half_widths) {
    return list_of(cents, half_widths, [](double figure, PitchList&, ListedPitch& pitch) {
        pitch.above.figure = Interval::from_cents(figure, digits);
        pitch.written = pitch.above.figure.cents(digits) + "c";
    });
}

PitchList pitches_of_hertz(std::span<const double> hertz, std::span<const double> half_widths) {
    const auto state = [](double figure, PitchList& list, ListedPitch& pitch) {
        const Pitch sounding = Pitch::from_hertz(figure, digits);
        if (!list.zero)
            list.zero = sounding;
        pitch.above.figure = sounding - *list.zero;
        pitch.sounds = StatedPitch::in_hertz(frequency(sounding).rounded(digits));
        pitch.written = pitch.sounds->text();
    };
    PitchList list = list_of(hertz, half_widths, state);
    list.period.reset();
    return list;
}

PitchList pitches_of_cents(std::span<const double> cents, double half_width_cents) {
    return pitches_of_cents(cents, for_all(cents, half_width_cents));
}

PitchList pitches_of_hertz(std::span<const double> hertz, double half_width_cents) {
    return pitches_of_hertz(hertz, for_all(hertz, half_width_cents));
}

} // namespace sectio
