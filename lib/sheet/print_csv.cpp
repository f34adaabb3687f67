#include <sectio/sheet/print.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

namespace sectio {

namespace {

using Record = std::vector<std::string>;

constexpr std::array<std::pair<std::string_view, std::string_view>, 5> ascii_signs{
    {{"♯", "#"}, {"♭", "b"}, {"\U0001D12A", "##"}, {"\U0001D12B", "bb"}, {"−", "-"}}};

std::string ascii(std::string text) {
    for (const auto& [sign, plain] : ascii_signs)
        for (std::size_t at; (at = text.find(sign)) != std::string::npos;)
            text.replace(at, sign.size(), plain);
    return text;
}

/// A figure as a plain number: "−3.9" is -3.9, "+3.9" is 3.9.
std::string number(const std::string& figure) {
    const std::string text = ascii(figure);
    return text.starts_with('+') ? text.substr(1) : text;
}

/// RFC 4180 section 2, rules 5 to 7.
std::string field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos)
        return text;
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

std::string record(const Record& fields) {
    std::string line;
    for (std::size_t i = 0; i < fields.size(); ++i)
        line += (i ? "," : "") + field(fields[i]);
    return line + "\r\n";
}

Record header(const Sheet& sheet) {
    Record fields{"degree",     "name", "written_note",   "interval", "cents", "uncertainty_cents",
                  "next_cents", "note", "deviation_cents"};
    for (const SheetDivision& d : sheet.divisions)
        for (const char* what : {"step_{}", "step_{}_cents", "error_{}_cents"})
            fields.push_back(fmt::format(fmt::runtime(what), d.expression));
    return fields;
}

Record fields_of(const SheetRow& row) {
    Record fields{row.number,       row.name,          row.written_note,
                  row.interval,     number(row.cents), number(row.uncertainty),
                  number(row.next), ascii(row.note),   number(row.deviation)};
    for (const SheetStep& s : row.steps)
        fields.insert(fields.end(), {number(s.step), number(s.size), number(s.error)});
    return fields;
}

} // namespace

std::string print_csv(const Sheet& sheet) {
    std::string out = record(header(sheet));
    for (const SheetRow& row : sheet.rows)
        out += record(fields_of(row));
    return out;
}

} // namespace sectio
