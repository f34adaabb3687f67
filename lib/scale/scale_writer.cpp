#include <sectio/scale/scale_writer.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

/// A basic string of TOML 1.0.0: quotes, strokes and control characters escaped.
std::string toml_text(std::string_view text) {
    std::string result = "\"";
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (c == '"' || c == '\\')
            result += '\\';
        if (byte < 0x20 || byte == 0x7F)
            result += fmt::format("\\u{:04X}", static_cast<unsigned>(byte));
        else
            result += c;
    }
    return result + "\"";
}

std::string key_line(std::string_view key, const std::string& value) {
    return value.empty() ? "" : fmt::format("{} = {}\n", key, toml_text(value));
}

/// The words of an author stay where they mean the degree as it is.
std::string interval_text(const Degree& degree) {
    try {
        if (!degree.written.empty() && parse_interval(degree.written) == degree.interval)
            return degree.written;
    } catch (const Error&) { // a name of the catalogue, or a length on a string
    }
    return to_expression(degree.interval);
}

std::string degree_line(const Degree& degree) {
    std::string line = fmt::format("interval = {}", toml_text(interval_text(degree)));
    const auto add = [&line](std::string_view key, const std::string& value) {
        if (!value.empty())
            line += fmt::format(", {} = {}", key, toml_text(value));
    };
    add("name", degree.name);
    add("note", degree.note);
    if (degree.uncertainty)
        add("uncertainty", to_expression(*degree.uncertainty));
    return fmt::format("  {{ {} }},\n", line);
}

bool says_something(const Degree& degree) {
    return !degree.interval.is_unison() || !degree.name.empty() || !degree.note.empty()
           || degree.uncertainty;
}

std::string remarks(const Scale& scale) {
    if (scale.remarks.empty())
        return "";
    std::string text = "remarks = [\n";
    for (const std::string& remark : scale.remarks)
        text += fmt::format("  {},\n", toml_text(remark));
    return text + "]\n";
}

/// The period's own line, where it has a name or a note.
std::string closing_line(const Scale& scale) {
    const bool named = !scale.closing.name.empty() || !scale.closing.note.empty();
    if (!scale.period || !named)
        return "";
    Degree closing = scale.closing;
    closing.interval = *scale.period;
    return degree_line(closing);
}

} // namespace

std::string scale_file_text(const Scale& scale) {
    std::string text = key_line("name", scale.name) + key_line("source", scale.source)
                       + key_line("tonic", scale.tonic.value_or(""))
                       + key_line("reference", scale.reference.value_or(""))
                       + key_line("period", scale.period ? to_expression(*scale.period) : "none")
                       + remarks(scale) + "degrees = [\n";
    for (const Degree& degree : scale.degrees)
        if (says_something(degree))
            text += degree_line(degree);
    return text + closing_line(scale) + "]\n";
}

} // namespace sectio
