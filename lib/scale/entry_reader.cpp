#include <sectio/scale/entry_reader.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/toml_intervals.hpp>

namespace sectio {

namespace {

constexpr std::string_view entry_keys =
    "id, name, also, source, note, interval, period, degrees, division, first_note, tradition, "
    "tonic_name, dominant, direction, family, second_dominant, begins, mobile, form_of, common";

/// `division = 53` with an optional period, or degrees.
void read_scale(const TomlReader& reader, Entry& entry, const ReadInterval& read) {
    if (const auto steps = reader.optional_count("division")) {
        const auto period = optional_interval(reader, "period", read);
        entry.division.emplace(Integer(*steps), period.value_or(Interval::octave()));
        entry.scale = as_scale(*entry.division);
    } else {
        entry.scale = to_scale(read_degrees(reader, read));
    }
    entry.scale->id = entry.id;
    entry.scale->name = entry.name;
    entry.scale->source = entry.source;
    if (!entry.note.empty())
        entry.scale->remarks.push_back(entry.note);
    Degree& tonic = entry.scale->degrees[entry.scale->tonic_index()];
    if (!entry.tonic_name.empty() && tonic.name.empty())
        tonic.name = entry.tonic_name;
    tonic.note = reader.optional_text("first_note").value_or("");
}

/// What is known of the course of melodies in a scale.
void read_course(const TomlReader& reader, Entry& entry, const ReadInterval& read) {
    entry.dominant = reader.optional_count("dominant");
    entry.second_dominant = reader.optional_count("second_dominant");
    entry.begins = reader.optional_count("begins");
    entry.direction = reader.optional_text("direction").value_or("");
    entry.form_of = reader.optional_text("form_of").value_or("");
    entry.mobile = intervals(reader, "mobile", read);
    entry.common = reader.yes("common");
}

} // namespace

Entry read_entry(const TomlValue& table, EntryKind kind, const ReadInterval& read) {
    const TomlReader reader(table);
    reader.allow_only(entry_keys);
    Entry entry;
    entry.kind = kind;
    entry.id = reader.required_text("id");
    entry.name = reader.required_text("name");
    entry.source = reader.required_text("source");
    entry.also = reader.strings("also");
    entry.note = reader.optional_text("note").value_or("");
    entry.tradition = reader.optional_text("tradition").value_or("");
    entry.family = reader.optional_text("family").value_or("");
    entry.tonic_name = reader.optional_text("tonic_name").value_or("");
    read_course(reader, entry, read);
    if (has_size(kind)) {
        reader.required_text("interval");
        entry.interval = optional_interval(reader, "interval", read);
    } else {
        read_scale(reader, entry, read);
    }
    return entry;
}

} // namespace sectio
