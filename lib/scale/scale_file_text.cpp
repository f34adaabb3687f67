#include <sectio/base/utf8.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/scale_file_text.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

/// A basic string of TOML 1.0: quotes, strokes and controls escaped. A byte that is no UTF-8, as a
/// file's name may have, is U+FFFD, as in JSON.
std::string in_quotes(std::string_view text) {
    std::string out = "\"";
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t length = utf8_length(text, at);
        const auto byte = static_cast<unsigned char>(text[at]);
        if (length == 0)
            out += "\uFFFD";
        else if (byte == '"' || byte == '\\')
            out += fmt::format("\\{}", text[at]);
        else if (byte < 0x20 || byte == 0x7F)
            out += fmt::format("\\u{:04X}", byte);
        else
            out += text.substr(at, length);
        at += std::max<std::size_t>(length, 1);
    }
    return out + '"';
}

/// As it was written, where that says the same without a catalogue beside it.
std::string expression(const Degree& degree) {
    try {
        if (!degree.written.empty() && parse_interval(degree.written) == degree.interval)
            return degree.written;
    } catch (const Error&) { // a name of the catalogue, say
    }
    return to_expression(degree.interval);
}

/// A half width in cents, as people think of it, where that is a finite decimal.
std::string half_width_text(const Interval& half_width) {
    const auto cents = half_width.exact_cents();
    const std::string decimal = cents ? exact_decimal(*cents) : "";
    return decimal.empty() ? to_expression(half_width) : decimal + "c";
}

std::string degree_text(const Degree& degree) {
    const std::string interval = in_quotes(expression(degree));
    std::string more;
    if (!degree.name.empty())
        more += ", name = " + in_quotes(degree.name);
    if (!degree.note.empty())
        more += ", note = " + in_quotes(degree.note);
    if (degree.uncertainty)
        more += ", uncertainty = " + in_quotes(half_width_text(*degree.uncertainty));
    return more.empty() ? interval : "{ interval = " + interval + more + " }";
}

std::string list_text(std::string_view key, const std::vector<std::string>& items) {
    std::string text = fmt::format("{} = [\n", key);
    for (const std::string& item : items)
        text += "  " + item + ",\n";
    return text + "]\n";
}

std::vector<std::string> degree_texts(const Scale& scale) {
    std::vector<std::string> items;
    for (const Degree& degree : scale.degrees)
        items.push_back(degree_text(degree));
    if (scale.period && !(scale.closing.name.empty() && scale.closing.note.empty()))
        items.push_back(degree_text(scale.closing));
    return items;
}

} // namespace

std::string scale_file_text(const Scale& scale) {
    if (scale.degrees.size() < 2 && !scale.period)
        throw error(message::no_degrees, "", {});
    std::string text = fmt::format("name = {}\n", in_quotes(scale.name));
    const auto add = [&](std::string_view key, const std::string& value) {
        text += fmt::format("{} = {}\n", key, in_quotes(value));
    };
    if (!scale.source.empty())
        add("source", scale.source);
    if (scale.tonic)
        add("tonic", scale.tonic->text());
    if (scale.reference)
        add("reference", scale.reference->text());
    add("period", scale.period ? to_expression(*scale.period) : "none");
    if (scale.signs)
        add("signs", std::string(sectio::text(*scale.signs)));
    if (!scale.remarks.empty()) {
        std::vector<std::string> remarks;
        for (const std::string& remark : scale.remarks)
            remarks.push_back(in_quotes(remark));
        text += list_text("remarks", remarks);
    }
    return text + list_text("degrees", degree_texts(scale));
}

} // namespace sectio
