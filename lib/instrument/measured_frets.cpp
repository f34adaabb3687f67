#include <sectio/base/limits.hpp>
#include <sectio/instrument/measured_frets.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/instrument/stop_distance.hpp>
#include <sectio/scale/half_width.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Half widths in cents that the figures leave to one fret, each for itself.
using Causes = std::vector<Rational>;

Rational half_width(const MeasuredLength& length) {
    return length.half_width.value_or(Length()).millimetres();
}

/// A double of cents as a decimal, beyond which its own error begins: 1e-14 of some cents.
Rational to_nine_digits(double cents) {
    return {Integer(std::llround(cents * 1e9)), 1'000'000'000};
}

/// Where a fret lies, and the distances that this rests on: one where each is measured from the
/// nut.
struct PlaceFromNut {
    Length place;
    std::vector<Rational> half_widths; ///< mm

    void move_to(const FretReading& reading, FretDistances distances) {
        if (distances == FretDistances::from_nut)
            *this = {};
        place += reading.from_nut.figure;
        if (reading.from_nut.half_width)
            half_widths.push_back(half_width(reading.from_nut));
    }
    /// Of independent distances: added in quadrature, as their standard uncertainties are.
    MeasuredLength measured() const {
        if (half_widths.empty())
            return {place, std::nullopt, Basis::ruler};
        Rational squares(0);
        for (const Rational& a : half_widths)
            squares += a * a;
        const Rational width = half_widths.size() == 1 ? half_widths.front() : root_up(squares);
        return {place, Length::millimetres(width), Basis::ruler};
    }
};

class FretMeasurer {
  public:
    explicit FretMeasurer(const MeasuredString& string) : string_(string) {}

    MeasuredFret measure(const FretReading& reading, const PlaceFromNut& from_nut) const {
        const Length bridge = to_bridge(reading, from_nut.place);
        if (from_nut.place <= Length())
            throw error(message::fret_behind_nut, reading.from_nut.figure.text(), reading.place);
        if (bridge <= Length())
            throw error(message::fret_beyond_bridge, reading.from_nut.figure.text(), reading.place);
        MeasuredFret fret{reading.name, from_nut.measured(), {}, {}, {}};
        fret.interval = interval_at(from_nut.place + bridge, from_nut.place);
        Causes causes = reading.to_bridge ? two_sides(*reading.to_bridge, from_nut, bridge)
                                          : one_side(from_nut, bridge);
        if (string_.pressing)
            add_stretch(fret, bridge, causes);
        fret.uncertainty = combined_half_width(causes);
        return fret;
    }

  private:
    /// What vibrates. The compensation counts where the stretch that it makes good for does.
    Length to_bridge(const FretReading& reading, const Length& place) const {
        const Length added = string_.pressing ? string_.compensation : Length();
        if (reading.to_bridge)
            return reading.to_bridge->figure + added;
        if (!string_.length)
            throw error(message::length_missing, "", reading.place);
        return string_.length->figure + added - place;
    }

    /// d ln(L/(L − x)) = dx/(L − x) − x·dL/(L(L − x)).
    Causes one_side(const PlaceFromNut& from_nut, const Length& bridge) const {
        Causes causes;
        for (const Rational& a : from_nut.half_widths)
            causes.push_back(cents_of_relative(a / bridge.millimetres()));
        causes.push_back(far_side(*string_.length, from_nut.place, bridge));
        return causes;
    }

    /// d ln((x + b)/b) = dx/(x + b) − x·db/(b(x + b)).
    static Causes two_sides(const MeasuredLength& measured, const PlaceFromNut& from_nut,
                            const Length& bridge) {
        Causes causes;
        const Length whole = from_nut.place + bridge;
        for (const Rational& a : from_nut.half_widths)
            causes.push_back(cents_of_relative(a / whole.millimetres()));
        causes.push_back(far_side(measured, from_nut.place, bridge));
        return causes;
    }

    static Rational far_side(const MeasuredLength& measured, const Length& place,
                             const Length& bridge) {
        const Rational share = place / (place + bridge);
        return cents_of_relative(half_width(measured) * share / bridge.millimetres());
    }

    /// The sharpening grows as the square of the action, so its relative half width is twice that.
    void add_stretch(MeasuredFret& fret, const Length& bridge, Causes& causes) const {
        const Pressing& p = *string_.pressing;
        const double place = in_mm(fret.from_nut.figure), whole = place + in_mm(bridge);
        const double depth = clearance(in_mm(p.action.figure), whole, place);
        const Rational cents =
            to_nine_digits(stretch_cents({whole, p.gauge, p.modulus, p.tension}, place, depth));
        fret.stretch = Interval::from_cents(cents);
        fret.interval += *fret.stretch;
        causes.push_back(cents / Integer(2));
        if (p.action.half_width)
            causes.push_back(Integer(2) * cents * (*p.action.half_width / p.action.figure));
    }

    const MeasuredString& string_;
};

void widen_sums(MeasuredFrets& answer, const FretReading& reading, const Length& place) {
    if (!reading.to_bridge)
        return;
    const Length sum = place + reading.to_bridge->figure;
    answer.least_sum = std::min(answer.least_sum.value_or(sum), sum);
    answer.most_sum = std::max(answer.most_sum.value_or(sum), sum);
}

} // namespace

MeasuredFrets measure_frets(const MeasuredString& string, const std::vector<FretReading>& readings,
                            FretDistances distances) {
    if (readings.empty())
        throw error(message::no_fret_readings, "", {});
    if (readings.size() > limits::scale_degrees)
        throw error(message::too_many_frets, "", readings.back().place, limits::scale_degrees);
    if (string.length)
        check_compensation(string.compensation, string.length->figure);
    MeasuredFrets answer;
    const FretMeasurer measurer(string);
    PlaceFromNut from_nut;
    for (const FretReading& reading : readings) {
        from_nut.move_to(reading, distances);
        answer.frets.push_back(measurer.measure(reading, from_nut));
        widen_sums(answer, reading, from_nut.place);
    }
    return answer;
}

} // namespace sectio
