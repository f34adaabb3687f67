#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/scale.hpp>

#include <algorithm>

namespace sectio {

namespace {

Place place_of(const std::vector<Place>& places, std::size_t index) {
    return index < places.size() ? places[index] : Place{};
}

/// Takes a last degree that is the period itself out of the list.
void take_closing(Scale& scale) {
    if (scale.period && !scale.degrees.empty() && scale.degrees.back().interval == *scale.period) {
        scale.closing = std::move(scale.degrees.back());
        scale.degrees.pop_back();
    }
}

void check_degree(const Scale& scale, std::size_t index, const Place& place) {
    const Degree& degree = scale.degrees[index];
    if (index > 0 && !(degree.interval > scale.degrees[index - 1].interval))
        throw error(message::degrees_not_rising, degree.written, place);
    if (scale.period && (degree.interval < Interval() || !(degree.interval < *scale.period)))
        throw error(message::degree_outside_period, degree.written, place,
                    to_expression(*scale.period));
}

} // namespace

bool Scale::measured() const {
    return std::any_of(degrees.begin(), degrees.end(),
                       [](const Degree& d) { return d.uncertainty.has_value(); });
}

std::size_t Scale::tonic_index() const {
    const auto unison = std::find_if(degrees.begin(), degrees.end(),
                                     [](const Degree& d) { return d.interval.is_unison(); });
    return static_cast<std::size_t>(unison - degrees.begin());
}

void check_rules(const Scale& scale) {
    for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
        check_degree(scale, i, {});
        if (const auto& width = scale.degrees[i].uncertainty; width && *width < Interval())
            throw error(message::uncertainty_negative, to_expression(*width), {scale.name});
    }
    // Where there is a period the tonic is the first, or a degree lies outside.
    if (scale.tonic_index() == scale.degrees.size())
        throw error(message::no_tonic_degree, scale.name, {});
}

void complete(Scale& scale, const std::vector<Place>& places) {
    if (scale.degrees.size() > limits::scale_degrees)
        throw error(message::too_many_degrees, "", place_of(places, limits::scale_degrees),
                    limits::scale_degrees);
    take_closing(scale);
    for (std::size_t i = 0; i < scale.degrees.size(); ++i)
        check_degree(scale, i, place_of(places, i));
    const auto tonic = std::find_if(scale.degrees.begin(), scale.degrees.end(),
                                    [](const Degree& d) { return d.interval >= Interval(); });
    if (tonic == scale.degrees.end() || !tonic->interval.is_unison())
        scale.degrees.insert(tonic, Degree{Interval(), "1/1", "", "", std::nullopt});
    if (scale.period && scale.closing.written.empty())
        scale.closing = {*scale.period, to_expression(*scale.period), "", "", std::nullopt};
    if (scale.degrees.size() < 2 && !scale.period)
        throw error(message::no_degrees, "", place_of(places, 0));
}

} // namespace sectio
