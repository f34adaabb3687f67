#include <sectio/base/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/toml_reader.hpp>

#include <fmt/format.h>

namespace sectio::toml_reader {

namespace {

constexpr std::string_view degree_keys = "interval, name, note, uncertainty";

Degree read_degree_table(const Reader& reader, const NameLookup& names) {
    reader.allow_only(degree_keys);
    Degree degree;
    degree.written = reader.required_string("interval");
    degree.interval = *reader.optional_interval("interval", names);
    degree.name = reader.optional_string("name").value_or("");
    degree.note = reader.optional_string("note").value_or("");
    if (!degree.note.empty())
        parse_note_name(degree.note, reader.place_inside(*reader.table().get("note")));
    degree.uncertainty = reader.optional_interval("uncertainty", names);
    if (degree.uncertainty && !(*degree.uncertainty > Interval()))
        throw error(message::uncertainty_negative, "",
                    reader.place_inside(*reader.table().get("uncertainty")));
    return degree;
}

Degree read_degree(const Reader& reader, const toml::node& node, const NameLookup& names) {
    if (const auto* table = node.as_table())
        return read_degree_table(reader.inside(*table), names);
    if (const auto* text = node.as_string())
        return {parse_interval(text->get(), reader.place_inside(node), names), text->get(), "", "",
                std::nullopt};
    throw reader.wrong_kind(node, "degrees", "intervals in quotes or tables",
                            "degrees = [\"9/8\", { interval = \"5/4\", name = \"third\" }]");
}

} // namespace

Place Reader::place(const toml::node& node) const {
    const auto& begin = node.source().begin;
    if (begin.line == 0)
        return {file_};
    return {file_, first_line_ - 1 + begin.line, begin.column};
}

Place Reader::place_inside(const toml::node& string) const {
    Place place = this->place(string);
    if (place.column != 0)
        ++place.column;
    return place;
}

Error Reader::wrong_kind(const toml::node& node, std::string_view key, std::string_view wanted,
                         std::string_view example) const {
    return error(message::wrong_value_kind, "", place(node), key, wanted, example);
}

std::optional<std::string> Reader::optional_string(std::string_view key) const {
    const toml::node* node = table_.get(key);
    if (!node)
        return std::nullopt;
    if (const auto* text = node->as_string())
        return text->get();
    throw wrong_kind(*node, key, "text in quotes", fmt::format("{} = \"…\"", key));
}

std::string Reader::required_string(std::string_view key) const {
    if (auto text = optional_string(key))
        return *text;
    throw error(message::missing_key, "", place_of_table(), key);
}

const toml::array& Reader::texts(std::string_view key, std::string_view example) const {
    static const toml::array none;
    const toml::node* node = table_.get(key);
    if (!node)
        return none;
    const auto* array = node->as_array();
    const std::string written = fmt::format("{} = [\"{}\"]", key, example);
    if (!array)
        throw wrong_kind(*node, key, "a list of texts", written);
    for (const toml::node& item : *array)
        if (!item.is_string())
            throw wrong_kind(item, key, "a list of texts", written);
    return *array;
}

std::vector<std::string> Reader::strings(std::string_view key) const {
    std::vector<std::string> all;
    for (const toml::node& item : texts(key, "…"))
        all.push_back(item.as_string()->get());
    return all;
}

std::vector<Interval> Reader::intervals(std::string_view key) const {
    std::vector<Interval> all;
    for (const toml::node& item : texts(key, "9/8"))
        all.push_back(parse_interval(item.as_string()->get(), place_inside(item)));
    return all;
}

std::optional<int> Reader::optional_count(std::string_view key) const {
    const toml::node* node = table_.get(key);
    if (!node)
        return std::nullopt;
    const auto* number = node->as_integer();
    if (!number || number->get() < 1 || number->get() > 1'000'000'000)
        throw wrong_kind(*node, key, "a whole number from 1", fmt::format("{} = 5", key));
    return static_cast<int>(number->get());
}

std::optional<Interval> Reader::optional_interval(std::string_view key,
                                                  const NameLookup& names) const {
    const auto text = optional_string(key);
    if (!text)
        return std::nullopt;
    return parse_interval(*text, place_inside(*table_.get(key)), names);
}

void Reader::allow_only(std::string_view known) const {
    const std::string list = fmt::format(", {}, ", known);
    for (const auto& [key, node] : table_)
        if (list.find(fmt::format(", {}, ", key.str())) == std::string::npos)
            throw error(message::unknown_key, key.str(), place(node), known);
}

toml::table parse(std::string_view text, const std::string& file, std::size_t first_line) {
    try {
        return toml::parse(text, file);
    } catch (const toml::parse_error& e) {
        const auto& begin = e.source().begin;
        throw error(message::toml_syntax, "", {file, first_line - 1 + begin.line, begin.column},
                    e.description());
    }
}

void read_degrees(const Reader& reader, Scale& scale, const NameLookup& names, DegreeOrder order) {
    const auto period = reader.optional_string("period");
    if (period != "none")
        scale.period = period ? reader.optional_interval("period", names) : Interval::octave();
    if (scale.period && !(*scale.period > Interval()))
        throw error(message::period_not_rising, *period,
                    reader.place_inside(*reader.table().get("period")));
    const toml::node* degrees = reader.table().get("degrees");
    if (!degrees)
        throw error(message::missing_key, "", reader.place_of_table(), "degrees");
    const auto* array = degrees->as_array();
    if (!array)
        throw reader.wrong_kind(*degrees, "degrees", "a list", "degrees = [\"9/8\", \"5/4\"]");
    if (array->empty())
        throw error(message::no_degrees, "", reader.place(*degrees));
    std::vector<Place> places;
    for (const toml::node& node : *array) {
        places.push_back(reader.place(node));
        scale.degrees.push_back(read_degree(reader, node, names));
    }
    complete(scale, places, order);
}

} // namespace sectio::toml_reader
