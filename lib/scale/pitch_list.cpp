#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/half_width.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/one_period.hpp>
#include <sectio/scale/pitch_list.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <algorithm>

namespace sectio {

namespace {

/// The pitch nearest to `tonic`, where it lies within half a key of it.
std::optional<std::size_t> index_near(const PitchList& list, const Pitch& tonic) {
    if (!list.zero)
        return std::nullopt;
    const auto away = [&](const ListedPitch& pitch) {
        return absolute(*list.zero + pitch.above.figure - tonic);
    };
    const auto nearest = std::min_element(
        list.pitches.begin(), list.pitches.end(),
        [&](const ListedPitch& a, const ListedPitch& b) { return away(a) < away(b); });
    if (nearest == list.pitches.end() || away(*nearest) > Interval::from_steps(1, 24))
        return std::nullopt;
    return static_cast<std::size_t>(nearest - list.pitches.begin());
}

const ListedPitch& listed(const PitchList& list, std::size_t place) {
    if (place >= list.pitches.size())
        refuse_argument("the place of a tonic", "that of a listed pitch, from 0 on",
                        fmt::to_string(place));
    return list.pitches[place];
}

/// The tonic that was named, else of intervals 1/1, else the lowest; of sounding pitches the
/// lowest, since 1/1 is merely the first.
std::size_t index_of_tonic(const PitchList& list) {
    const auto& pitches = list.pitches;
    if (list.tonic_at)
        return *list.tonic_at;
    if (list.zero && list.tonic)
        if (const auto named = index_near(list, list.tonic->at(reference_of(list.reference))))
            return *named;
    const auto unison = std::find_if(pitches.begin(), pitches.end(), [](const ListedPitch& p) {
        return p.above.figure.is_unison();
    });
    const auto lowest = std::min_element(
        pitches.begin(), pitches.end(),
        [](const ListedPitch& a, const ListedPitch& b) { return a.above.figure < b.above.figure; });
    return static_cast<std::size_t>((!list.zero && unison != pitches.end() ? unison : lowest)
                                    - pitches.begin());
}

/// The pitch as a degree above the tonic.
Degree degree_of(const ListedPitch& pitch, const ListedPitch& tonic, const PitchList& list) {
    Degree degree;
    degree.interval = above_tonic(pitch, tonic, list);
    const bool as_written = degree.interval == pitch.above.figure && !list.zero;
    degree.written = as_written ? pitch.written : to_expression(degree.interval);
    degree.name = pitch.label;
    degree.note = pitch.note;
    degree.uncertainty = degree.interval.is_unison() ? pitch.above.half_width
                                                     : half_width_between(pitch.above, tonic.above);
    return degree;
}

/// The tonic of a list: a pitch of its own, or the one that is understood.
ListedPitch tonic_of(const PitchList& list, std::optional<std::size_t> tonic) {
    if (tonic || !list.unison_understood)
        return listed(list, tonic ? *tonic : index_of_tonic(list));
    ListedPitch understood;
    understood.written = "1/1";
    return understood;
}

Scale without_degrees(const PitchList& list) {
    Scale scale;
    scale.name = list.name;
    scale.source = list.source;
    scale.tonic = list.tonic;
    scale.reference = list.reference;
    scale.period = list.period;
    scale.signs = list.signs;
    scale.remarks = list.remarks;
    return scale;
}

/// A number alone beyond `most`, such as 100, is no ratio that was meant.
void check_unit(const ListedPitch& pitch, const std::optional<Interval>& most) {
    const bool bare = !pitch.written.empty()
                      && pitch.written.find_first_not_of("0123456789") == std::string::npos;
    if (bare && most && pitch.above.figure > *most)
        throw error(message::size_needs_unit, pitch.written, pitch.place, pitch.written);
}

/// The degrees as they stand, checked.
Scale rising_scale(const PitchList& list) {
    Scale scale = without_degrees(list);
    std::vector<Place> places;
    for (const ListedPitch& pitch : list.pitches) {
        check_unit(pitch, list.period);
        scale.degrees.push_back(
            {pitch.above.figure, pitch.written, pitch.label, pitch.note, pitch.above.half_width});
        places.push_back(pitch.place);
    }
    complete(scale, places);
    return scale;
}

/// Rising, equal ones once: the first of them stays.
void sort(std::vector<Degree>& degrees) {
    std::stable_sort(degrees.begin(), degrees.end(),
                     [](const Degree& a, const Degree& b) { return a.interval < b.interval; });
    degrees.erase(
        std::unique(degrees.begin(), degrees.end(),
                    [](const Degree& a, const Degree& b) { return a.interval == b.interval; }),
        degrees.end());
}

} // namespace

Scale to_scale(const PitchList& list, std::optional<std::size_t> tonic) {
    if (list.pitches.empty())
        throw error(message::no_pitches, "", {});
    if (list.rising && !tonic)
        return rising_scale(list);
    const ListedPitch first = tonic_of(list, tonic);
    Scale scale = without_degrees(list);
    if (first.sounds)
        scale.tonic = first.sounds;
    for (const ListedPitch& pitch :
         list.period&& list.same_within ? one_a_degree(list, first, scale.remarks) : list.pitches)
        scale.degrees.push_back(degree_of(pitch, first, list));
    sort(scale.degrees);
    complete(scale, {});
    return scale;
}

PitchList each_degree_once(PitchList list) {
    if (list.pitches.empty() || list.in_time || !list.period || !list.same_within)
        return list;
    const ListedPitch tonic = tonic_of(list, {});
    list.pitches = one_a_degree(list, tonic, list.remarks);
    if (list.tonic_at) // the tonic is among those that stay
        list.tonic_at = static_cast<std::size_t>(
            std::find_if(
                list.pitches.begin(), list.pitches.end(),
                [&](const ListedPitch& pitch) { return pitch.above.figure == tonic.above.figure; })
            - list.pitches.begin());
    return list;
}

std::optional<Interval> half_width_above_tonic(const PitchList& list, const ListedPitch& pitch) {
    if (!list.tonic_at)
        return half_width_between(pitch.above, list.zero_error);
    const ListedPitch& tonic = listed(list, *list.tonic_at);
    return &tonic == &pitch ? pitch.above.half_width : half_width_between(pitch.above, tonic.above);
}

PitchList to_list(const Scale& scale) {
    PitchList list;
    list.name = scale.name;
    list.source = scale.source;
    list.tonic = scale.tonic;
    list.reference = scale.reference;
    list.period = scale.period;
    list.signs = scale.signs;
    list.remarks = scale.remarks;
    list.unison_understood = true;
    for (const Degree& degree : scale.degrees) {
        ListedPitch& pitch = list.pitches.emplace_back();
        pitch.above = {degree.interval, degree.uncertainty, Basis::stated};
        pitch.written = degree.written;
        pitch.label = degree.name;
        pitch.note = degree.note;
    }
    return list;
}

std::optional<Interval> unlisted_period(const PitchList& list) {
    const bool listed =
        std::any_of(list.pitches.begin(), list.pitches.end(),
                    [&](const ListedPitch& pitch) { return pitch.above.figure == list.period; });
    return listed || list.period == Interval::octave() ? std::nullopt : list.period;
}

std::size_t listed_tonic(const PitchList& list, const Pitch& tonic, const Place& place) {
    if (const auto index = index_near(list, tonic))
        return *index;
    throw error(message::tonic_not_listed, "", place);
}

Melody to_melody(const PitchList& list) {
    Melody melody;
    melody.name = list.name;
    melody.zero = list.counted_from;
    melody.sounding_zero = list.zero;
    melody.a4 = reference_of(list.reference);
    if (!list.zero && list.tonic)
        melody.sounding_zero = list.tonic->at(melody.a4);
    melody.in_time = list.in_time;
    const bool lacks_unison =
        std::none_of(list.pitches.begin(), list.pitches.end(),
                     [](const ListedPitch& p) { return p.above.figure.is_unison(); });
    if (list.unison_understood && lacks_unison)
        melody.notes.emplace_back();
    // The octave that closes a scale is its tonic again; another period counts, listed or not.
    const bool in_octaves = list.unison_understood && list.period == Interval::octave();
    for (const ListedPitch& pitch : list.pitches) {
        check_unit(pitch, Interval::from_ratio(16, 1)); // partials of a sound are written so
        if (!in_octaves || pitch.above.figure != Interval::octave() || !pitch.above.exact())
            melody.notes.push_back(
                {pitch.above.figure, pitch.weight, pitch.ends_phrase, pitch.above.half_width});
    }
    if (const auto period = unlisted_period(list); period && list.unison_understood)
        melody.notes.push_back({*period, Rational(1), false, std::nullopt});
    // A measured set is counted from the tonic that was said, and begins with it, as its scale
    // does.
    if (!list.in_time && !list.unison_understood && list.zero && (list.tonic || list.tonic_at)) {
        const auto tonic = melody.notes.begin() + static_cast<std::ptrdiff_t>(index_of_tonic(list));
        const Interval above = tonic->interval;
        std::rotate(melody.notes.begin(), tonic, tonic + 1);
        for (WeightedPitch& note : melody.notes)
            note.interval -= above;
        melody.sounding_zero = *list.zero + above;
    }
    return melody;
}

} // namespace sectio
