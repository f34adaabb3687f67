#include <sectio/base/markup.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/page/sounds.hpp>
#include <sectio/print/html.hpp>

#include <nlohmann/json.hpp>

#include <string_view>

namespace sectio::page {

extern const std::string_view player_style_source, player_script_source;

namespace {

using Json = nlohmann::ordered_json;

constexpr int hertz_digits = 9; // within 1e-7 cents from 16 Hz on
constexpr Digits label_digits{1, 3};

constexpr std::string_view caution =
    "Sound starts quietly; begin with the volume turned down, above all with headphones. Raising a "
    "string's pitch can break it: turn slowly, and keep your eyes away.";
constexpr std::string_view privacy =
    "The microphone is used on this computer alone, after you allow it: nothing is recorded, and "
    "nothing is sent anywhere.";
constexpr std::string_view keys =
    "With the focus in here: 1 to 9 and 0 play a degree, up and down arrow the next one, left and "
    "right arrow its neighbours among 12 equal steps, D the drone, M the microphone, Esc stops.";

std::string label_of(const SoundedDegree& degree) {
    return degree.name.empty() ? degree.number : degree.number + " " + one_line(degree.name);
}

/// `"` of attributes is written by escaped().
std::string button(std::string_view attributes, std::string_view label, std::string_view text) {
    std::string out = "<button type=\"button\" ";
    out += attributes;
    if (!label.empty())
        out.append(" aria-label=\"").append(escaped(label)).append("\"");
    return out.append(">").append(with_accidentals(escaped(text))).append("</button>");
}

/// "G4 +1.2".
std::string key_text(const NeighbourKey& key) {
    return key.note.text(true) + " " + for_people(key.deviation, label_digits);
}

std::string neighbour_cell(const std::optional<NeighbourKey>& key, bool above,
                           const SoundedDegree& degree) {
    if (!key)
        return "<td></td>";
    const std::string shown = key_text(*key);
    const std::string label = shown + " cents: play this key, " + (above ? "above" : "below")
                              + " degree " + label_of(degree);
    return "<td>" + button(above ? "data-play=\"1\"" : "data-play=\"-1\"", label, shown) + "</td>";
}

std::string row(const SoundedDegree& degree, std::size_t index) {
    return "<tr data-degree=\"" + std::to_string(index) + "\"><th scope=\"row\">"
           + button("data-play=\"0\"", "Play degree " + label_of(degree), label_of(degree))
           + "<small data-heard=\"\"></small></th><td class=\"n\">"
           + escaped(for_people(degree.cents, label_digits)) + "</td>"
           + neighbour_cell(degree.below, false, degree)
           + neighbour_cell(degree.above, true, degree) + "</tr>\n";
}

void raise(std::optional<NeighbourKey>& key) {
    if (key)
        key->pitch = key->pitch + Interval::octave(), ++key->note.octave;
}

/// The tonic an octave higher, where that closes the scale.
std::optional<SoundedDegree> upper_tonic(const Sounds& sounds) {
    if (sounds.period != Interval::octave() || sounds.degrees.empty())
        return std::nullopt;
    SoundedDegree upper = sounds.degrees.front();
    upper.number = std::to_string(sounds.degrees.size() + 1);
    upper.pitch = upper.pitch + Interval::octave();
    upper.cents = cents(Interval::octave());
    raise(upper.below), raise(upper.above);
    return upper;
}

std::string table(const Sounds& sounds) {
    std::string rows;
    for (std::size_t i = 0; i < sounds.degrees.size(); ++i)
        rows += row(sounds.degrees[i], i);
    if (const auto upper = upper_tonic(sounds))
        rows += row(*upper, sounds.degrees.size());
    return "<table><thead><tr><th scope=\"col\">Degree</th><th scope=\"col\" class=\"n\">Cents</th>"
           "<th scope=\"col\">Key below</th><th scope=\"col\">Key above</th></tr></thead>"
           "<tbody>\n"
           + rows + "</tbody></table>\n";
}

Json tone(const Pitch& pitch) {
    return {{"hz", Json::parse(pitch.hertz(hertz_digits))}};
}

/// The key of 12 equal steps that a tuner names for the degree, and how far the degree is off it.
std::string tuner_text(const SoundedDegree& degree) {
    if (!degree.below || !degree.above)
        return degree.below ? key_text(*degree.below) : "";
    const bool below = degree.pitch - degree.below->pitch <= degree.above->pitch - degree.pitch;
    return key_text(below ? *degree.below : *degree.above);
}

Json tones(const SoundedDegree& degree) {
    Json json = tone(degree.pitch);
    json["label"] = label_of(degree);
    json["key"] = tuner_text(degree);
    json["below"] = degree.below ? tone(degree.below->pitch) : Json();
    json["above"] = degree.above ? tone(degree.above->pitch) : Json();
    return json;
}

/// What the script needs to know. "<" is written as an escape, so that no text can end the element.
std::string data(const Sounds& sounds) {
    Json degrees = Json::array();
    for (const SoundedDegree& degree : sounds.degrees)
        degrees.push_back(tones(degree));
    const auto upper = upper_tonic(sounds);
    const Json json = {
        {"degrees", degrees},
        {"upper", upper ? tones(*upper) : Json()},
        {"period", sounds.period ? Json::parse(sounds.period->cents(hertz_digits)) : Json()},
        {"periodName", sounds.period == Interval::octave() ? "octave" : "period"},
        {"drone", tone(sounds.drone)}};
    std::string text;
    for (const char c : json.dump(-1, ' ', false, Json::error_handler_t::replace))
        text += c == '<' ? "\\u003c" : c == '&' ? "\\u0026" : std::string(1, c);
    return "<script type=\"application/json\">" + text + "</script>\n";
}

std::string controls(const Sounds& sounds) {
    return "<div class=\"controls\">"
           + button("data-drone=\"\" aria-pressed=\"false\"", "", "Drone " + sounds.drone_name)
           + button("data-listen=\"\" aria-pressed=\"false\"", "", "Microphone")
           + button("data-stop=\"\"", "", "Stop")
           + "<label>Volume <input type=\"range\" data-volume=\"\" min=\"0\" max=\"100\" "
             "value=\"25\"/></label></div>\n";
}

std::string paragraph(std::string_view text, std::string_view kind) {
    return std::string("<p class=\"").append(kind).append("\">").append(escaped(text)) + "</p>\n";
}

} // namespace

std::string player_html(const Sounds& sounds) {
    return "<section class=\"player\" aria-labelledby=\"player-heading\" hidden=\"\">\n"
           "<h2 id=\"player-heading\">Play and tune</h2>\n"
           + paragraph("Caution: " + std::string(caution), "caution") + controls(sounds)
           + "<div class=\"reading quiet\" data-reading=\"\" hidden=\"\"><div data-name=\"\"></div>"
             "<div data-key=\"\"></div><div data-cents=\"\"></div><div data-hint=\"\"></div><div "
             "class=\"dial\" "
             "aria-hidden=\"true\"><span data-needle=\"\"></span></div></div>\n"
             "<p role=\"status\" data-status=\"\"></p>\n"
           + table(sounds) + paragraph(keys, "note") + paragraph(privacy, "note") + data(sounds)
           + "</section>\n";
}

std::string player_style() {
    return std::string(player_style_source);
}

/// Wrapped so that the page stays well-formed as XML, and its names stay its own.
std::string player_script() {
    return std::string("<script>//<![CDATA[\n\"use strict\";\n").append(player_script_source)
           + "//]]></script>\n";
}

} // namespace sectio::page
