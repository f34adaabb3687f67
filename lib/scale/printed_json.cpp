#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/scale/half_width.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>

#include <nlohmann/json.hpp>

#include <algorithm>

namespace sectio {

namespace {

using Json = nlohmann::json;

/// The text under a key; nothing where it is absent, null or no text.
std::string text_of(const Json& object, const char* key) {
    const auto found = object.find(key);
    return found != object.end() && found->is_string() ? found->get<std::string>() : "";
}

/// The figure with all its digits: commands print measured ones once as they are borne, once exact.
std::string exact_text(const Json& object, const std::string& key) {
    const std::string exact = text_of(object, (key + "_exact").c_str());
    return exact.empty() ? text_of(object, key.c_str()) : exact;
}

std::optional<Interval> half_width(const Json& object, const Place& place) {
    const std::string own = exact_text(object, "pitch_uncertainty_cents");
    const std::string cents = own.empty() ? exact_text(object, "uncertainty_cents") : own;
    return cents.empty() ? std::nullopt : std::optional(parse_interval(cents + "c", place));
}

/// A degree of a sheet: its interval reads back exactly.
ListedPitch degree_of(const Json& degree, const Place& place) {
    ListedPitch pitch;
    pitch.above = {parse_interval(text_of(degree, "interval"), place), half_width(degree, place),
                   Basis::stated};
    pitch.written = text_of(degree, "written");
    if (pitch.written.empty())
        pitch.written = text_of(degree, "interval");
    pitch.label = text_of(degree, "name");
    pitch.note = text_of(degree, "written_note");
    if (!pitch.note.empty())
        parse_note_name(pitch.note, place);
    pitch.place = place;
    return pitch;
}

PitchList sheet_of(const Json& document, const Place& place) {
    PitchList list;
    list.rising = list.unison_understood = true;
    for (const Json& degree : document.at("degrees"))
        list.pitches.push_back(degree_of(degree, place));
    if (const std::string text = text_of(document, "period"); !text.empty() && text != "none")
        list.period = parse_interval(text, place); // as `tuning read` prints it
    else if (const auto period = document.find("period"); period != document.end())
        if (const std::string interval = text_of(*period, "interval"); !interval.empty()) {
            list.period = parse_interval(interval, place);
            if (!text_of(*period, "name").empty())
                list.pitches.push_back(degree_of(*period, place));
        }
    return list;
}

/// A measured pitch: its frequency, or its cents above the first.
ListedPitch measured_of(const Json& object, PitchList& list, const Place& place) {
    ListedPitch pitch;
    pitch.above.half_width = half_width(object, place);
    pitch.above.basis = basis_of(text_of(object, "basis"));
    pitch.label = text_of(object, "label");
    pitch.place = place;
    const std::string hertz = exact_text(object, "hz");
    pitch.written = hertz.empty() ? exact_text(object, "cents") + "c" : hertz + "Hz";
    if (hertz.empty()) {
        pitch.above.figure = parse_interval(pitch.written, place);
        return pitch;
    }
    pitch.sounds = StatedPitch(pitch.written, place);
    const Pitch sounding = pitch.sounds->at(Pitch::concert_a());
    if (!list.zero)
        list.zero = sounding;
    pitch.above.figure = sounding - *list.zero;
    return pitch;
}

PitchList measured_of(const Json& document, const Place& place) {
    PitchList list;
    if (const std::string period = text_of(document, "period"); !period.empty()) {
        list.period = parse_interval(period, place);
        if (const std::string apart = exact_text(document, "apart_cents"); !apart.empty())
            list.same_within = parse_interval(apart + "c", place);
    }
    for (const Json& pitch : document.at("pitches"))
        list.pitches.push_back(measured_of(pitch, list, place));
    list.unison_understood = !list.zero;
    if (const auto tonic = document.find("tonic"); list.zero && tonic != document.end())
        if (const std::string hertz = exact_text(*tonic, "hz"); !hertz.empty())
            list.tonic_at = listed_tonic(list, parse_pitch(hertz + "Hz"), place);
    return list;
}

/// What the parser says after where and what it was parsing: "unexpected '['; expected ':'".
Error syntax_error(const Json::parse_error& e, std::string_view json, Place place) {
    std::string_view said = e.what();
    constexpr std::string_view joint = " - ";
    said.remove_prefix(std::min(said.find(joint), said.size() - joint.size()) + joint.size());
    const std::string_view before = json.substr(0, e.byte > 0 ? e.byte - 1 : 0);
    const std::string_view line = before.substr(before.rfind('\n') + 1);
    place.line = static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n')) + 1;
    place.column = character_count(line) + 1;
    return error(message::json_syntax, "", place, said.substr(0, said.find("; last read")));
}

Json parsed(std::string_view json, const Place& place) {
    try {
        return Json::parse(json);
    } catch (const Json::parse_error& e) {
        throw syntax_error(e, json, place);
    } catch (const Json::out_of_range&) {
        throw error(message::json_syntax, "", place, "a number is too large");
    }
}

} // namespace

PitchList read_json(std::string_view json, const std::string& file_name) {
    const Place place{file_name};
    const Json document = parsed(json, place);
    const auto is_list = [&](const char* key) {
        return document.is_object() && document.contains(key) && document.at(key).is_array()
               && !document.at(key).empty();
    };
    if (!is_list("degrees") && !is_list("pitches"))
        throw error(message::no_pitches, "", place);
    PitchList list = is_list("degrees") ? sheet_of(document, place) : measured_of(document, place);
    const std::string name = text_of(document, "name"), stated = text_of(document, "reference"),
                      reference = text_of(document, "reference_hz");
    list.name = name.empty() ? file_name : name;
    list.source = text_of(document, "source");
    if (const std::string tonic = text_of(document, "tonic"); !tonic.empty())
        list.tonic = parse_tonic(tonic, place);
    if (const std::string signs = text_of(document, "signs"); !signs.empty())
        list.signs = parse_sign_style(signs, place);
    if (!stated.empty())
        list.reference = TuningReference(stated, place);
    else if (!reference.empty())
        list.reference = TuningReference("A4 = " + reference + " Hz", place);
    return list;
}

} // namespace sectio
