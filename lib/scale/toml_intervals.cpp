#include <sectio/base/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/toml_intervals.hpp>

#include <memory>
#include <string>
#include <unordered_map>

namespace sectio {

namespace {

constexpr std::string_view degree_keys = "interval, name, note, uncertainty";
constexpr std::string_view degrees_example =
    "degrees = [\"9/8\", { interval = \"5/4\", name = \"third\" }]";

Degree read_degree_table(const TomlReader& reader, const ReadInterval& read) {
    reader.allow_only(degree_keys);
    Degree degree;
    degree.written = reader.required_text("interval");
    degree.interval = *optional_interval(reader, "interval", read);
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

Degree read_degree(const TomlValue& value, const ReadInterval& read) {
    if (value.table())
        return read_degree_table(TomlReader(value), read);
    if (const std::string* text = value.text())
        return {read(*text, value.inside()), *text, "", "", std::nullopt};
    throw TomlReader::wrong_kind(value, "degrees", "intervals in quotes or tables",
                                 degrees_example);
}

void read_period(const TomlReader& reader, Scale& scale, const ReadInterval& read) {
    const auto period = reader.optional_text("period");
    if (period != "none")
        scale.period = period ? optional_interval(reader, "period", read) : Interval::octave();
    if (scale.period && !(*scale.period > Interval()))
        throw error(message::period_not_rising, *period, reader.place_of("period"));
}

} // namespace

ReadInterval interval_reader(const NameLookup& names) {
    return [names](std::string_view text, const Place& place) {
        return parse_interval(text, place, names);
    };
}

ReadInterval remembering_reader() {
    const auto known = std::make_shared<std::unordered_map<std::string, Interval>>();
    return [known](std::string_view text, const Place& place) {
        const auto found = known->find(std::string(text));
        if (found != known->end())
            return found->second;
        return known->emplace(text, parse_interval(text, place)).first->second;
    };
}

std::optional<Interval> optional_interval(const TomlReader& reader, std::string_view key,
                                          const ReadInterval& read) {
    const auto text = reader.optional_text(key);
    if (!text)
        return std::nullopt;
    return read(*text, reader.place_of(key));
}

std::vector<Interval> intervals(const TomlReader& reader, std::string_view key,
                                const ReadInterval& read) {
    std::vector<Interval> all;
    for (const TomlValue* value : reader.texts(key, "9/8"))
        all.push_back(read(*value->text(), value->inside()));
    return all;
}

void read_degrees(const TomlReader& reader, Scale& scale, const ReadInterval& read,
                  DegreeOrder order) {
    read_period(reader, scale, read);
    const auto& degrees = reader.required_list("degrees", "degrees = [\"9/8\", \"5/4\"]");
    if (degrees.empty())
        throw error(message::no_degrees, "", reader.place_of("degrees"));
    std::vector<Place> places;
    for (const TomlValue& value : degrees) {
        places.push_back(value.place);
        scale.degrees.push_back(read_degree(value, read));
    }
    complete(scale, places, order);
}

} // namespace sectio
