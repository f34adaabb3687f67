#include <sectio/base/csv.hpp>
#include <sectio/print/check_page.hpp>
#include <sectio/print/print.hpp>

namespace sectio::page {

namespace {

using Record = std::vector<std::string>;

/// RFC 4180 section 2, rules 5 to 7.
std::string field(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == std::string::npos)
        return text;
    std::string quoted = "\"";
    for (const char c : text)
        quoted += c == '"' ? "\"\"" : std::string(1, c);
    return quoted + "\"";
}

/// A plain number, which a spreadsheet only reads.
bool is_decimal(const std::string& text) {
    return text.find_first_not_of("0123456789.", text.starts_with('-') ? 1 : 0) == text.npos;
}

std::string record(const Record& fields) {
    std::string line;
    for (std::size_t i = 0; i < fields.size(); ++i)
        line += (i ? "," : "") + field(fields[i]);
    return line + "\r\n";
}

/// Columns of a table that CSV holds.
struct Field {
    std::size_t column = 0;
    bool measured = false; ///< some of it is; then all digits stand in a field beside it
};

/// Goes through the table by rows, as it is made.
std::vector<Field> fields_of(const Table& table) {
    std::vector<Field> fields;
    for (std::size_t i = 0; i < table.columns.size(); ++i)
        if (!table.columns[i].field.empty())
            fields.push_back({i});
    Cell made;
    for (std::size_t row = 0; row < table.height(); ++row)
        for (Field& f : fields)
            f.measured = f.measured || table.at(row, f.column, made).measured();
    return fields;
}

/// A field. Words that a spreadsheet would run as a formula get the mark of text before them, which
/// read_rows() takes off again; numbers, intervals and notes stay as they are.
std::string value(const Cell& cell, const Digits& digits) {
    std::string text = for_programs(cell, digits);
    const auto& v = cell.value();
    const bool words = std::holds_alternative<Words>(v) || std::holds_alternative<File>(v)
                       || std::holds_alternative<List>(v) || std::holds_alternative<Map>(v)
                       || std::holds_alternative<Phrase>(v);
    return words && looks_like_formula(text) && !is_decimal(text) ? "'" + text : text;
}

std::string unborne(const Cell& cell, const Digits& digits) {
    const auto* figure = std::get_if<Number>(&cell.value());
    return figure ? figure->unborne(digits) : for_programs(cell, digits);
}

std::string table_csv(const Table& table, const std::vector<Field>& fields, const Digits& digits) {
    Record names;
    for (const Field& f : fields) {
        names.push_back(table.columns[f.column].field);
        if (f.measured)
            names.push_back(names.back() + "_exact");
    }
    std::string out = record(names);
    Cell made;
    for (std::size_t row = 0; row < table.height(); ++row) {
        if (table.people_only(row))
            continue;
        Record values;
        for (const Field& f : fields) {
            const Cell& cell = table.at(row, f.column, made);
            values.push_back(value(cell, digits));
            if (f.measured)
                values.push_back(unborne(cell, digits));
        }
        out += record(values);
    }
    return out;
}

std::string facts_csv(const Page& page, const Digits& digits) {
    std::string out = record({"key", "value"});
    for (const Block& block : page.blocks)
        if (const auto* facts = std::get_if<Facts>(&block))
            for (const Fact& fact : facts->facts)
                if (!fact.key.empty())
                    out += record({facts->key + (facts->key.empty() ? "" : ".") + fact.key,
                                   value(fact.cell, digits)});
    return out;
}

} // namespace

std::string print_csv(const Page& page, const PrintOptions& options) {
    check(page, options);
    const Digits digits = options.for_page(page);
    for (const Block& block : page.blocks)
        if (const auto* table = std::get_if<Table>(&block))
            if (const auto fields = fields_of(*table); !fields.empty())
                return table_csv(*table, fields, digits);
    return facts_csv(page, digits);
}

} // namespace sectio::page
