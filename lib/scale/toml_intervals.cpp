#include <sectio/base/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/toml_intervals.hpp>

namespace sectio {

namespace {

constexpr std::string_view degree_keys = "interval, name, note, uncertainty";
constexpr std::string_view degrees_example =
    "degrees = [\"9/8\", { interval = \"5/4\", name = \"third\" }]";

Degree read_degree_table(const TomlReader& reader, const NameLookup& names) {
    reader.allow_only(degree_keys);
    Degree degree;
    degree.written = reader.required_text("interval");
    degree.interval = *optional_interval(reader, "interval", names);
    degree.name = reader.optional_text("name").value_or("");
    degree.note = reader.optional_text("note").value_or("");
    if (!degree.note.empty())
        parse_note_name(degree.note, reader.place_of("note"));
    if (const auto width = reader.optional_text("uncertainty")) {
        degree.uncertainty = parse_interval(*width, reader.place_of("uncertainty"));
        if (!(*degree.uncertainty > Interval()))
            throw error(message::uncertainty_negative, "", reader.place_of("uncertainty"));
    }
    return degree;
}

Degree read_degree(const TomlValue& value, const NameLookup& names) {
    if (value.table())
        return read_degree_table(TomlReader(value), names);
    if (const std::string* text = value.text())
        return {parse_interval(*text, value.inside(), names), *text, "", "", std::nullopt};
    throw TomlReader::wrong_kind(value, "degrees", "intervals in quotes or tables",
                                 degrees_example);
}

void read_period(const TomlReader& reader, Scale& scale, const NameLookup& names) {
    const auto period = reader.optional_text("period");
    if (period != "none")
        scale.period = period ? optional_interval(reader, "period", names) : Interval::octave();
    if (scale.period && !(*scale.period > Interval()))
        throw error(message::period_not_rising, *period, reader.place_of("period"));
}

} // namespace

std::optional<Interval> optional_interval(const TomlReader& reader, std::string_view key,
                                          const NameLookup& names) {
    const auto text = reader.optional_text(key);
    if (!text)
        return std::nullopt;
    return parse_interval(*text, reader.place_of(key), names);
}

std::vector<Interval> intervals(const TomlReader& reader, std::string_view key) {
    std::vector<Interval> all;
    for (const TomlValue* value : reader.texts(key, "9/8"))
        all.push_back(parse_interval(*value->text(), value->inside()));
    return all;
}

void read_degrees(const TomlReader& reader, Scale& scale, const NameLookup& names,
                  DegreeOrder order) {
    read_period(reader, scale, names);
    const auto& degrees = reader.required_list("degrees", "degrees = [\"9/8\", \"5/4\"]");
    if (degrees.empty())
        throw error(message::no_degrees, "", reader.place_of("degrees"));
    std::vector<Place> places;
    for (const TomlValue& value : degrees) {
        places.push_back(value.place);
        scale.degrees.push_back(read_degree(value, names));
    }
    complete(scale, places, order);
}

} // namespace sectio
