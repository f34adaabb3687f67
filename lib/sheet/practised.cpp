#include <sectio/scale/references.hpp>
#include <sectio/sheet/practised.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

using page::Cell;
using page::Column;

std::string name_of(const PractisedDegree& practised, const Scale& scale) {
    const std::string& name = scale.degrees[static_cast<std::size_t>(practised.degree) - 1].name;
    return name.empty() ? fmt::format("degree {}", practised.degree) : name;
}

/// "−45.3 to −22.6 cents", or one figure.
std::vector<Cell> moved(const PractisedDegree& practised) {
    std::vector<Cell> parts;
    if (practised.from != practised.to) {
        parts.emplace_back(page::cents(practised.from).with_sign());
        parts.emplace_back("to");
    }
    parts.emplace_back(page::cents(practised.to).with_sign().in("cents"));
    return parts;
}

page::Phrase sentence(const PractisedDegree& practised, const Scale& scale,
                      const Catalogue& catalogue) {
    page::Phrase phrase;
    phrase.parts.emplace_back(name_of(practised, scale));
    phrase.parts.emplace_back("by");
    for (Cell& part : moved(practised))
        phrase.parts.push_back(std::move(part));
    phrase.parts.emplace_back("after " + with_references(practised.source, catalogue));
    return phrase;
}

} // namespace

page::List practised_line(const Entry& entry, const Catalogue& catalogue) {
    page::List list;
    list.between = "; ";
    for (const PractisedDegree& practised : entry.practised())
        list.items.emplace_back(sentence(practised, *entry.scale(), catalogue));
    return list;
}

page::Table practised_table(const Entry& entry, const std::string& key) {
    page::Table table{key, "", {}, {}};
    const auto add = [&](const char* name, auto cell) {
        table.add(entry.practised(), Column{}.keyed(name, "").hidden(), cell);
    };
    add("degree", [](const PractisedDegree& p) { return page::count(p.degree); });
    add("from", [](const PractisedDegree& p) { return p.from; });
    add("to", [](const PractisedDegree& p) { return p.to; });
    add("from_cents", [](const PractisedDegree& p) { return page::cents(p.from); });
    add("to_cents", [](const PractisedDegree& p) { return page::cents(p.to); });
    add("source", [](const PractisedDegree& p) { return p.source; });
    return table;
}

} // namespace sectio
