#include <sectio/interval/expression.hpp>
#include <sectio/scale/entry_reader.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/practised_reader.hpp>
#include <sectio/scale/toml_intervals.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

constexpr std::string_view common_keys = "id, name, also, source, note";

/// The keys of one kind of entry.
std::string_view own_keys(EntryKind kind) {
    switch (kind) {
    case EntryKind::interval:
    case EntryKind::comma:
        return "interval";
    case EntryKind::scale:
        return "degrees, period, first_note, tradition, family, tonic_name, dominant, "
               "second_dominant, begins, direction, mobile, dwells_on, practised, form_of, common, "
               "most_used";
    case EntryKind::system:
        break;
    }
    return "degrees, period, division, first_note, tradition, tonic_name";
}

/// Whether its degrees are named by notes, none by a word of the trade.
bool has_notes_alone(const Scale& scale) {
    const auto& all = scale.degrees;
    return std::any_of(all.begin(), all.end(), [](const Degree& d) { return !d.note.empty(); })
           && std::all_of(all.begin(), all.end(), [](const Degree& d) { return d.name.empty(); });
}

/// Reads the entries of one table after the other.
struct EntryReader {
    const TomlReader& table;
    const Traditions& traditions;
    const ReadInterval& read;

    std::string text(std::string_view key) const { return table.optional_text(key).value_or(""); }

    Interval size() const {
        table.required_text("interval");
        return *optional_interval(table, "interval", read);
    }

    /// `scale` as the entry presents it.
    Degrees degrees(Scale scale, const Entry& entry) const {
        Degrees all{std::move(scale), traditions.tradition(table), text("tonic_name")};
        all.scale.id = entry.id;
        all.scale.name = entry.name;
        all.scale.source = entry.source;
        all.scale.signs = traditions.signs(all.tradition);
        if (!entry.note.empty())
            all.scale.remarks.push_back(entry.note);
        Degree& tonic = all.scale.degrees[all.scale.tonic_index()];
        const bool named_by_note = !table.optional_text("first_note") && has_notes_alone(all.scale);
        const char* note = named_by_note ? "tonic_name" : "first_note";
        tonic.note = text(note);
        if (!tonic.note.empty())
            parse_note_name(tonic.note, table.place_of(note));
        if (!named_by_note && tonic.name.empty())
            tonic.name = all.tonic_name;
        return all;
    }

    MelodicProgression progression() const {
        MelodicProgression progression{
            table.optional_count("dominant"), table.optional_count("second_dominant"),
            table.optional_count("begins"),   {},
            intervals(table, "mobile", read), table.optional_count("dwells_on")};
        if (const auto direction = table.optional_text("direction"))
            progression.direction = parse_direction(*direction, table.place_of("direction"));
        return progression;
    }

    /// Where theory writes its first degree; C4 is understood.
    std::optional<StatedPitch> written_tonic(const Degrees& all) const {
        auto tonic = traditions.tonic(all.tradition, all.tonic_name);
        const std::string& note = all.scale.degrees[all.scale.tonic_index()].note;
        if (!tonic && !note.empty())
            tonic = parse_tonic(note);
        return tonic == StatedPitch("C4") ? std::nullopt : tonic;
    }

    ScaleFacts scale(const Entry& entry) const {
        ScaleFacts facts{degrees(to_scale(read_degrees(table, read)), entry),
                         traditions.family(table),
                         progression(),
                         {},
                         text("form_of"),
                         table.yes("common"),
                         table.yes("most_used")};
        facts.scale.tonic = written_tonic(facts);
        facts.practised = read_practised(table, facts.scale, read);
        return facts;
    }

    /// `division = 53` with an optional period, or degrees.
    SystemFacts system(const Entry& entry) const {
        const auto steps = table.optional_count("division");
        if (!steps)
            return {degrees(to_scale(read_degrees(table, read)), entry), std::nullopt};
        const auto period = optional_interval(table, "period", read);
        const EqualDivision division(Integer(*steps), period.value_or(Interval::octave()));
        return {degrees(as_scale(division), entry), division};
    }

    Entry::Facts facts(EntryKind kind, const Entry& entry) const {
        switch (kind) {
        case EntryKind::interval:
            return IntervalFacts{size()};
        case EntryKind::comma:
            return CommaFacts{size()};
        case EntryKind::scale:
            return scale(entry);
        case EntryKind::system:
            break;
        }
        return system(entry);
    }
};

} // namespace

Entry read_entry(const TomlValue& table, EntryKind kind, const Traditions& traditions,
                 const ReadInterval& read) {
    const TomlReader reader(table);
    reader.allow_only(fmt::format("{}, {}", common_keys, own_keys(kind)));
    Entry entry;
    entry.id = reader.required_text("id");
    if (!is_id(entry.id))
        throw error(message::bad_id, entry.id, reader.place_of("id"));
    entry.name = reader.required_text("name");
    entry.source = reader.required_text("source");
    entry.also = reader.strings("also");
    entry.note = reader.optional_text("note").value_or("");
    entry.facts = EntryReader{reader, traditions, read}.facts(kind, entry);
    return entry;
}

} // namespace sectio
