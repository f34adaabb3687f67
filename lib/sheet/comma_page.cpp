#include <sectio/approx/bound_text.hpp>
#include <sectio/division/val.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/sheet/comma_page.hpp>
#include <sectio/sheet/interval_cells.hpp>

#include <fmt/format.h>

#include <unordered_map>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// 2^40 for a power of two, else digits.
std::string bound_text(const Integer& bound) {
    const std::size_t bits = bit_length(bound) - 1;
    return bits > 9 && bound == Integer(1) << static_cast<unsigned>(bits)
               ? fmt::format("2^{}", bits)
               : bound.str();
}

std::string title(const CommaList& list) {
    const CommaBounds& bounds = list.bounds;
    std::string text =
        fmt::format("{} {} of the {}", list.count, list.count == 1 ? "comma" : "commas",
                    PrimeChoice{bounds.prime_limit, bounds.only}.text());
    if (bounds.tempered_out_in)
        text += " tempered out in " + bounds.tempered_out_in->text();
    text += fmt::format(", larger than {}, smaller than {}", list.above, list.below);
    if (bounds.max_product)
        text += ", product of both terms up to " + bound_text(*bounds.max_product);
    if (bounds.max_term)
        text += ", terms up to " + bound_text(*bounds.max_term);
    return text;
}

page::Facts bounds_for_programs(const CommaBounds& bounds) {
    const auto whole = [](const std::optional<Integer>& bound) {
        return bound ? Cell(page::Count{*bound}) : Cell();
    };
    page::List primes;
    for (const unsigned prime : PrimeChoice{bounds.prime_limit, bounds.only}.primes())
        primes.items.push_back(page::count(prime));
    return {"bounds",
            "",
            {{"", primes, "primes"},
             {"", bounds.above, "above"},
             {"", bounds.below, "below"},
             {"", whole(bounds.max_product), "max_product"},
             {"", whole(bounds.max_term), "max_term"}}};
}

/// Entries of the catalogue by the expression of their interval.
class Names {
  public:
    explicit Names(const Catalogue& catalogue) {
        for (Entry& entry : catalogue.sizes())
            entries_[to_expression(*entry.interval())].push_back(std::move(entry));
    }
    const std::vector<Entry>& of(const Interval& interval) const {
        static const std::vector<Entry> none;
        const auto found = entries_.find(to_expression(interval));
        return found == entries_.end() ? none : found->second;
    }

  private:
    std::unordered_map<std::string, std::vector<Entry>> entries_;
};

/// What the division makes of each comma: by the val, and the nearest step.
void add_steps(page::Table& table, const std::vector<Interval>& commas, const CommaBounds& bounds) {
    const EqualDivision& division = *bounds.tempered_out_in;
    const Val map(division, bounds.prime_limit);
    std::vector<CommaSteps> steps;
    for (const Interval& comma : commas)
        steps.push_back(steps_of_comma(comma, division, map));
    table.add(steps, Column{}.keyed("steps_by_primes").hidden(), [](const CommaSteps& s) {
        return s.by_primes ? Cell(page::Count{*s.by_primes}) : Cell();
    });
    table.add(steps, Column{}.keyed("nearest_step").hidden(),
              [](const CommaSteps& s) { return page::Count{s.nearest}; });
    table.add(steps, Column{"", ColumnKind::words}, [](const CommaSteps& s) {
        return s.by_primes && *s.by_primes != s.nearest ? fmt::format(
                   "nearest step {}, by primes {}", s.nearest.str(), s.by_primes->str())
                                                        : std::string();
    });
}

page::Table comma_table(const char* key, const std::string& heading,
                        const std::vector<Interval>& commas, const CommaBounds& bounds,
                        const Names& names) {
    page::Table table{key, heading, {}, {}};
    table.add(commas, Column{"cents"}.keyed("cents"),
              [](const Interval& c) { return page::cents(c).shown_with(usual_digits); });
    table.add(commas, Column{"comma", ColumnKind::words}.keyed("ratio"),
              [](const Interval& c) { return c; });
    table.add(commas, Column{"factors", ColumnKind::words},
              [](const Interval& c) { return factors_text(c.prime_factors()); });
    table.add(commas, Column{}.keyed("factors").hidden(),
              [](const Interval& c) { return factors_cell(c.prime_factors()); });
    table.add(commas, Column{"known as", ColumnKind::words}, [&](const Interval& c) {
        std::string text;
        for (const Entry& entry : names.of(c))
            text += (text.empty() ? "" : "; ") + entry.name;
        return text;
    });
    table.add(commas, Column{}.keyed("names").hidden(),
              [&](const Interval& c) { return names_cell(names.of(c)); });
    if (bounds.tempered_out_in)
        add_steps(table, commas, bounds);
    return table;
}

} // namespace

page::Page comma_page(const CommaList& list, const Catalogue& catalogue) {
    const Names names(catalogue);
    page::Page page;
    page.kind = "commas";
    page.title = title(list);
    page.blocks.emplace_back(page::Facts{"", "", {{"", page::count(list.count), "count"}}});
    page.blocks.emplace_back(bounds_for_programs(list.bounds));
    page.blocks.emplace_back(comma_table("commas", "", list.commas, list.bounds, names));
    page.blocks.emplace_back(
        comma_table("basis", list.bounds.tempered_out_in ? "Basis of all tempered out" : "",
                    list.basis, list.bounds, names));
    return page;
}

} // namespace sectio
