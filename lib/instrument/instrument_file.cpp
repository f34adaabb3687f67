#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/base/toml.hpp>
#include <sectio/instrument/fret_text.hpp>
#include <sectio/instrument/instrument.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/instrument/quantity.hpp>
#include <sectio/interval/expression.hpp>

#include <algorithm>

namespace sectio {

namespace {

constexpr std::string_view instrument_keys =
    "name, kind, source, reference, strings, frets, compensation, action, remarks";
constexpr std::string_view string_keys =
    "name, open, length, fretted, gauge, tension, unit_mass, modulus, compensation";
constexpr std::string_view fret_keys = "nut, bridge, name";

Length positive_length(std::string_view text, const Place& place) {
    return parse_positive_length(text, place).figure;
}

auto quantity(std::span<const QuantityUnit> units) {
    return [units](std::string_view text, const Place& place) {
        return parse_quantity(text, units, place);
    };
}

Length any_length(std::string_view text, const Place& place) {
    return parse_length(text, place);
}

bool flag(const TomlReader& reader, std::string_view key, bool otherwise) {
    const TomlValue* value = reader.find(key);
    if (!value)
        return otherwise;
    if (const bool* yes = std::get_if<bool>(&value->value))
        return *yes;
    throw TomlReader::wrong_kind(*value, key, "true or false", "fretted = false");
}

InstrumentString read_string(const TomlReader& reader, std::size_t number) {
    reader.allow_only(string_keys);
    InstrumentString string;
    string.open = reader.optional("open", read_as<StatedPitch>);
    string.name = reader.optional_text("name").value_or(
        string.open ? string.open->text() : "string " + std::to_string(number));
    reader.required_text("length");
    string.length = *reader.optional("length", parse_positive_length);
    string.fretted = flag(reader, "fretted", true);
    string.gauge = reader.optional("gauge", positive_length);
    string.tension = reader.optional("tension", quantity(tension_units));
    string.unit_mass = reader.optional("unit_mass", quantity(unit_mass_units));
    string.modulus = reader.optional("modulus", quantity(modulus_units));
    string.compensation = reader.optional("compensation", any_length);
    return string;
}

void read_strings(const TomlReader& reader, Instrument& instrument) {
    constexpr std::string_view example = "strings = [{ open = \"D4\", length = \"612 mm\" }]";
    const TomlValue::List& list = reader.required_list("strings", example);
    if (list.empty())
        throw TomlReader::wrong_kind(*reader.find("strings"), "strings", "a list of tables",
                                     example);
    if (list.size() > limits::instrument_strings)
        throw error(message::too_many_strings, "", reader.find("strings")->place,
                    limits::instrument_strings);
    for (const TomlReader& string : reader.tables("strings", example))
        instrument.strings.push_back(read_string(string, instrument.strings.size() + 1));
}

FretReading read_fret(const TomlValue& value) {
    if (const std::string* text = value.text())
        return {"", parse_positive_length(*text, value.inside()), std::nullopt, value.place};
    if (!value.table())
        throw TomlReader::wrong_kind(value, "frets", "lengths in quotes or tables",
                                     "frets = [\"57.4 mm ± 0.5 mm\", { nut = \"112 mm\" }]");
    const TomlReader reader(value);
    reader.allow_only(fret_keys);
    reader.required_text("nut");
    return {reader.optional_text("name").value_or(""),
            *reader.optional("nut", parse_positive_length),
            reader.optional("bridge", parse_positive_length), value.place};
}

void read_frets(const TomlReader& reader, Instrument& instrument) {
    const TomlValue* value = reader.find("frets");
    if (!value)
        return;
    if (const std::string* text = value->text()) {
        instrument.fret_scale = *text;
        instrument.fret_scale_place = value->inside();
        return;
    }
    const TomlValue::List* list = value->list();
    if (!list)
        throw TomlReader::wrong_kind(*value, "frets", "a list of lengths, or a scale",
                                     "frets = [\"57.4 mm ± 0.5 mm\"]");
    if (list->size() > limits::scale_degrees)
        throw error(message::too_many_frets, "", value->place, limits::scale_degrees);
    for (const TomlValue& item : *list)
        instrument.frets.push_back(read_fret(item));
}

} // namespace

bool looks_like_instrument_file(std::string_view text) {
    const auto has_key = [text](std::string_view key) {
        for (std::size_t at = 0; (at = text.find(key, at)) != text.npos; at += key.size()) {
            const bool begins = at == 0 || text[at - 1] == '\n' || text[at - 1] == '[';
            const std::size_t next = text.find_first_not_of(" \t", at + key.size());
            if (begins && next != text.npos && (text[next] == '=' || text[next] == ']'))
                return true;
        }
        return false;
    };
    return has_key("strings") && !has_key("degrees");
}

Instrument read_instrument_file(std::string_view toml, const std::string& file_name) {
    if (toml.size() > limits::scale_file_bytes)
        throw error(message::file_too_large, "", Place{file_name}, limits::scale_file_bytes);
    return read_instrument(parse_toml(toml, file_name));
}

Instrument read_instrument(const TomlValue& document) {
    const TomlReader reader(document);
    reader.allow_only(instrument_keys);
    Instrument instrument;
    instrument.name = reader.required_text("name");
    if (trimmed(instrument.name).empty())
        throw error(message::instrument_unnamed, "", reader.place_of("name"));
    instrument.kind = reader.optional_text("kind").value_or("");
    instrument.source = reader.optional_text("source").value_or("");
    instrument.reference = reader.optional("reference", read_as<TuningReference>);
    instrument.remarks = reader.strings("remarks");
    read_strings(reader, instrument);
    read_frets(reader, instrument);
    instrument.compensation = reader.optional("compensation", any_length).value_or(Length());
    instrument.action = reader.optional("action", parse_positive_length);
    return instrument;
}

} // namespace sectio
