#include <sectio/base/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/toml_intervals.hpp>

#include <memory>
#include <string>
#include <unordered_map>

namespace sectio {

namespace {

constexpr std::string_view degree_keys = "interval, name, note, uncertainty";
constexpr std::string_view degrees_example =
    "degrees = [\"9/8\", { interval = \"5/4\", name = \"third\" }]";

std::optional<Interval> half_width(const TomlReader& reader) {
    const auto text = reader.optional_text("uncertainty");
    if (!text)
        return std::nullopt;
    return parse_uncertainty(*text, reader.place_of("uncertainty"));
}

void read_degree_table(const TomlReader& reader, const ReadInterval& read, ListedPitch& degree) {
    reader.allow_only(degree_keys);
    degree.written = reader.required_text("interval");
    degree.above.figure = *optional_interval(reader, "interval", read);
    degree.above.half_width = half_width(reader);
    degree.label = reader.optional_text("name").value_or("");
    degree.note = reader.optional_text("note").value_or("");
    if (!degree.note.empty())
        parse_note_name(degree.note, reader.place_of("note"));
}

ListedPitch read_degree(const TomlValue& value, const ReadInterval& read) {
    ListedPitch degree;
    degree.place = value.place;
    if (value.table()) {
        read_degree_table(TomlReader(value), read, degree);
    } else if (const std::string* text = value.text()) {
        degree.above.figure = read(*text, value.inside());
        degree.written = *text;
    } else {
        throw TomlReader::wrong_kind(value, "degrees", "intervals in quotes or tables",
                                     degrees_example);
    }
    return degree;
}

std::optional<Interval> read_period(const TomlReader& reader, const ReadInterval& read) {
    const auto text = reader.optional_text("period");
    if (text == "none")
        return std::nullopt;
    const Interval period = text ? *optional_interval(reader, "period", read) : Interval::octave();
    if (!(period > Interval()))
        throw error(message::period_not_rising, *text, reader.place_of("period"));
    return period;
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

PitchList read_degrees(const TomlReader& reader, const ReadInterval& read) {
    PitchList list;
    list.rising = list.unison_understood = true;
    list.period = read_period(reader, read);
    const auto& degrees = reader.required_list("degrees", "degrees = [\"9/8\", \"5/4\"]");
    if (degrees.empty())
        throw error(message::no_degrees, "", reader.place_of("degrees"));
    for (const TomlValue& value : degrees)
        list.pitches.push_back(read_degree(value, read));
    return list;
}

} // namespace sectio
