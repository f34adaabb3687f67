#include <sectio/scale/scale_file_text.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

/// A basic string of TOML 1.0: quotes, backslashes and control characters are escaped.
std::string toml_string(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            out += fmt::format("\\{}", c);
        else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)
            out += fmt::format("\\u{:04X}", static_cast<unsigned char>(c));
        else
            out += c;
    }
    return out + '"';
}

std::string line(std::string_view key, const std::string& value) {
    return fmt::format("{} = {}\n", key, toml_string(value));
}

std::string degree_text(const Degree& degree) {
    const std::string interval =
        toml_string(degree.written.empty() ? to_expression(degree.interval) : degree.written);
    std::string more;
    if (!degree.name.empty())
        more += ", name = " + toml_string(degree.name);
    if (!degree.note.empty())
        more += ", note = " + toml_string(degree.note);
    if (degree.uncertainty)
        more += ", uncertainty = " + toml_string(to_expression(*degree.uncertainty));
    return more.empty() ? interval : "{ interval = " + interval + more + " }";
}

/// 1/1 at the beginning is understood, and a period without name and note too.
std::string degrees_text(const Scale& scale) {
    std::string out = "degrees = [\n";
    for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
        const Degree& degree = scale.degrees[i];
        const bool understood =
            i == 0 && degree.interval.is_unison() && degree.name.empty() && degree.note.empty();
        if (!understood)
            out += "  " + degree_text(degree) + ",\n";
    }
    if (scale.period && !(scale.closing.name.empty() && scale.closing.note.empty()))
        out += "  " + degree_text(scale.closing) + ",\n";
    return out + "]\n";
}

} // namespace

std::string scale_file_text(const Scale& scale) {
    std::string out = line("name", scale.name);
    if (!scale.source.empty())
        out += line("source", scale.source);
    if (scale.tonic)
        out += line("tonic", *scale.tonic);
    if (scale.reference)
        out += line("reference", *scale.reference);
    out += line("period", scale.period ? to_expression(*scale.period) : "none");
    if (!scale.remarks.empty()) {
        out += "remarks = [\n";
        for (const std::string& remark : scale.remarks)
            out += "  " + toml_string(remark) + ",\n";
        out += "]\n";
    }
    return out + degrees_text(scale);
}

} // namespace sectio
