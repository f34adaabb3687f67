#include <sectio/scale/interval_report.hpp>
#include <sectio/sheet/interval_cells.hpp>

#include <utility>

namespace sectio {

namespace {

page::Cell exponent_cell(const Rational& exponent) {
    if (exponent.denominator() == 1)
        return page::Count{exponent.numerator()};
    return exponent_text(exponent);
}

/// Under names that are known: a copy into an initializer list is what GCC 12 warns of falsely.
void add(page::Map& map, const char* key, const std::string& words) {
    page::Cell cell(words);
    map.items.emplace_back(key, std::move(cell));
}

} // namespace

page::Cell factors_cell(const Factors& factors) {
    page::Map map;
    for (const Factor& f : factors) {
        page::Cell exponent = exponent_cell(f.exponent);
        map.items.emplace_back(f.base.str(), std::move(exponent));
    }
    return map;
}

page::Cell names_cell(const std::vector<Entry>& entries) {
    page::List list;
    for (const Entry& entry : entries) {
        page::Map map;
        add(map, "name", entry.name);
        add(map, "source", entry.source);
        add(map, "id", entry.id);
        list.items.emplace_back(std::move(map));
    }
    return list;
}

} // namespace sectio
