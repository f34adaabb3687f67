#include <sectio/page/page.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

/// "against[1].error_cents" as the name of a field: "against_1_error_cents".
std::string as_field(std::string key) {
    std::string field;
    for (const char c : key)
        if (c != ']')
            field += c == '.' || c == '[' ? '_' : c;
    return field;
}

} // namespace

Column Column::keyed(std::string json_key) const {
    std::string csv_field = as_field(json_key);
    return keyed(std::move(json_key), std::move(csv_field));
}

Column Column::keyed(std::string json_key, std::string csv_field) const {
    Column column = *this;
    column.key = std::move(json_key);
    column.field = std::move(csv_field);
    return column;
}

Column Column::hidden() const {
    Column column = *this;
    column.shown = false;
    return column;
}

} // namespace sectio::page
