#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/toml_intervals.hpp>
#include <sectio/scale/tuned_scale.hpp>

namespace sectio {

namespace {

constexpr std::string_view scale_keys =
    "name, source, tonic, reference, period, signs, degrees, remarks";

} // namespace

PitchList read_scale_document(const TomlValue& document, const NameLookup& names) {
    const TomlReader reader(document);
    reader.allow_only(scale_keys);
    const std::string& name = reader.required_text("name");
    if (name.find_first_not_of(" \t\n") == std::string::npos)
        throw error(message::empty_name, "", reader.find("name")->place);
    PitchList list;
    list.reference = reader.optional("reference", read_as<TuningReference>);
    list.tonic = reader.optional("tonic", parse_tonic);
    PitchList read = read_degrees(reader, interval_reader(names));
    read.name = name;
    read.source = reader.optional_text("source").value_or("");
    read.tonic = list.tonic;
    read.reference = list.reference;
    if (const auto signs = reader.optional_text("signs"))
        read.signs = parse_sign_style(*signs, reader.place_of("signs"));
    read.remarks = reader.strings("remarks");
    return read;
}

Scale read_scale_file(std::string_view toml, const std::string& file_name,
                      const NameLookup& names) {
    if (toml.size() > limits::scale_file_bytes)
        throw error(message::file_too_large, "", Place{file_name}, limits::scale_file_bytes);
    return to_scale(read_scale_document(parse_toml(toml, file_name), names));
}

} // namespace sectio
