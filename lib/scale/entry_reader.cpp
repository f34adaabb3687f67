#include <sectio/scale/entry_reader.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/toml_reader.hpp>

namespace sectio {

namespace {

constexpr std::string_view entry_keys =
    "id, name, also, source, note, interval, period, degrees, division, first_note, tradition, "
    "tonic_name, dominant, direction, family, second_dominant, begins, mobile, form_of, common";

/// `division = 53` with an optional period, or degrees.
void read_scale(const toml_reader::Reader& reader, Entry& entry) {
    if (const auto steps = reader.optional_count("division")) {
        const auto period = reader.optional_interval("period", nullptr);
        entry.division.emplace(Integer(*steps), period.value_or(Interval::octave()));
        entry.scale = as_scale(*entry.division);
    } else {
        entry.scale.emplace();
        toml_reader::read_degrees(reader, *entry.scale, nullptr, DegreeOrder::rising);
    }
    entry.scale->id = entry.id;
    entry.scale->name = entry.name;
    entry.scale->source = entry.source;
    if (!entry.note.empty())
        entry.scale->remarks.push_back(entry.note);
    if (!entry.tonic_name.empty() && entry.scale->degrees.front().name.empty())
        entry.scale->degrees.front().name = entry.tonic_name;
    entry.scale->degrees.front().note = reader.optional_string("first_note").value_or("");
}

/// What is known of the course of melodies in a scale.
void read_course(const toml_reader::Reader& reader, Entry& entry) {
    entry.dominant = reader.optional_count("dominant");
    entry.second_dominant = reader.optional_count("second_dominant");
    entry.begins = reader.optional_count("begins");
    entry.direction = reader.optional_string("direction").value_or("");
    entry.form_of = reader.optional_string("form_of").value_or("");
    entry.mobile = reader.intervals("mobile");
    if (const toml::node* common = reader.table().get("common")) {
        if (!common->is_boolean())
            throw reader.wrong_kind(*common, "common", "true or false", "common = true");
        entry.common = common->as_boolean()->get();
    }
}

Entry read_fields(const toml_reader::Reader& reader, EntryKind kind) {
    reader.allow_only(entry_keys);
    Entry entry;
    entry.kind = kind;
    entry.id = reader.required_string("id");
    entry.name = reader.required_string("name");
    entry.source = reader.required_string("source");
    entry.also = reader.strings("also");
    entry.note = reader.optional_string("note").value_or("");
    entry.tradition = reader.optional_string("tradition").value_or("");
    entry.family = reader.optional_string("family").value_or("");
    entry.tonic_name = reader.optional_string("tonic_name").value_or("");
    read_course(reader, entry);
    if (has_size(kind)) {
        reader.required_string("interval");
        entry.interval = reader.optional_interval("interval", nullptr);
    } else {
        read_scale(reader, entry);
    }
    return entry;
}

} // namespace

Entry read_entry(std::string_view toml, const EntryText& where) {
    const Place place{where.file, where.line, 1};
    const toml::table file = toml_reader::parse(toml, where.file, where.line);
    for (const auto& [key, node] : file) {
        const auto* list = node.as_array();
        if (!list || list->size() != 1 || !list->front().is_table() || file.size() != 1)
            throw error(message::bad_entry, key.str(), place, "it must be one [[kind]] table");
        return read_fields({*list->front().as_table(), where.file, where.line},
                           parse_kind(key.str(), place));
    }
    throw error(message::bad_entry, "", place, "it is empty");
}

} // namespace sectio
