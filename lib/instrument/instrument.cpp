#include <sectio/base/folded.hpp>
#include <sectio/instrument/instrument.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/instrument/stop_distance.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

double number(const Rational& r) {
    return boost::rational_cast<double>(r);
}

/// In N; from mass and pitch where it is not stated.
std::optional<double> tension(const InstrumentString& string, const Pitch& a4) {
    if (string.tension)
        return number(*string.tension);
    if (!string.unit_mass || !string.open)
        return std::nullopt;
    return tension_of(number(*string.unit_mass), in_mm(string.length.figure),
                      string.open->at(a4).hertz_estimate());
}

std::string known_names(const Instrument& instrument) {
    std::vector<std::string> names;
    for (const InstrumentString& string : instrument.strings)
        names.push_back(string.name);
    return fmt::format("{}", fmt::join(names, ", "));
}

} // namespace

const InstrumentString& Instrument::string(std::string_view wanted) const {
    const auto found = std::find_if(strings.begin(), strings.end(), [&](const InstrumentString& s) {
        return wanted.empty() ? s.fretted : folded(s.name) == folded(wanted);
    });
    if (found != strings.end())
        return *found;
    if (wanted.empty())
        throw error(message::nothing_fretted, name, {});
    throw error(message::unknown_string, wanted, {"--string"}, known_names(*this));
}

std::optional<Pressing> pressing_of(const Instrument& instrument, const InstrumentString& string) {
    const auto pull = tension(string, reference_of(instrument.reference));
    if (!string.gauge || !string.modulus || !instrument.action || !pull)
        return std::nullopt;
    return Pressing{in_mm(*string.gauge), number(*string.modulus), *pull, *instrument.action};
}

MeasuredFrets frets_of(const Instrument& instrument, const InstrumentString& string) {
    MeasuredString measured;
    measured.length = string.length;
    measured.compensation = string.compensation.value_or(instrument.compensation);
    measured.pressing = pressing_of(instrument, string);
    return measure_frets(measured, instrument.frets);
}

Scale scale_of(const Instrument& instrument, const InstrumentString& string) {
    Scale scale;
    scale.name = instrument.name;
    if (instrument.strings.size() > 1)
        scale.name += ", " + string.name;
    scale.source = instrument.source;
    scale.reference = instrument.reference;
    scale.tonic = string.open;
    scale.remarks = instrument.remarks;
    const MeasuredFrets measured = frets_of(instrument, string);
    scale.degrees.push_back({Interval(), "1/1", "open", "", std::nullopt});
    std::vector<Place> places(1);
    for (std::size_t i = 0; i < measured.frets.size(); ++i) {
        const MeasuredFret& fret = measured.frets[i];
        scale.degrees.push_back({fret.interval, to_expression(fret.interval),
                                 fret.name.empty() ? fmt::format("fret {}", i + 1) : fret.name, "",
                                 fret.uncertainty});
        places.push_back(instrument.frets[i].place);
    }
    complete(scale, places);
    return scale;
}

} // namespace sectio
