#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/scale.hpp>
#include <sectio/scale/toml_intervals.hpp>
#include <sectio/scale/tuned_scale.hpp>

namespace sectio {

namespace {

constexpr std::string_view scale_keys = "name, source, tonic, reference, period, degrees, remarks";

/// Reads the tonic and the reference once, so that a wrong one is said with its place in the file.
void check_pitches(const TomlReader& reader, const Scale& scale) {
    Pitch a4 = Pitch::concert_a();
    if (scale.reference)
        a4 = parse_reference(*scale.reference, reader.place_of("reference"));
    if (scale.tonic)
        parse_tonic(*scale.tonic, a4, reader.place_of("tonic"));
}

} // namespace

Scale read_scale_file(std::string_view toml, const std::string& file_name, const NameLookup& names,
                      DegreeOrder order) {
    if (toml.size() > limits::scale_file_bytes)
        throw error(message::file_too_large, "", Place{file_name}, limits::scale_file_bytes);
    const TomlValue document = parse_toml(toml, file_name);
    const TomlReader reader(document);
    reader.allow_only(scale_keys);
    Scale scale;
    scale.name = reader.required_text("name");
    if (scale.name.find_first_not_of(" \t\n") == std::string::npos)
        throw error(message::empty_name, "", reader.find("name")->place);
    scale.source = reader.optional_text("source").value_or("");
    scale.tonic = reader.optional_text("tonic");
    scale.reference = reader.optional_text("reference");
    scale.remarks = reader.strings("remarks");
    check_pitches(reader, scale);
    read_degrees(reader, scale, interval_reader(names), order);
    return scale;
}

} // namespace sectio
