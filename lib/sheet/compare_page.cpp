#include <sectio/scale/comparison.hpp>
#include <sectio/sheet/compare_page.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sheet/scale_distances.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

struct Pair {
    const Scale *a, *b;
    bool best; ///< moved to where it fits best
    Difference difference;
};

std::vector<Pair> pairs_of(const std::vector<Scale>& scales) {
    std::vector<Pair> pairs;
    for (std::size_t i = 0; i < scales.size(); ++i)
        for (std::size_t k = i + 1; k < scales.size(); ++k) {
            pairs.push_back({&scales[i], &scales[k], false, difference(scales[i], scales[k])});
            if (auto best = best_difference(scales[i], scales[k]))
                pairs.push_back({&scales[i], &scales[k], true, std::move(*best)});
        }
    return pairs;
}

/// What an error rests on: both degrees, where they were measured.
page::Number error_cell(const Pair& p, const DegreePair& d) {
    page::Number figure = page::cents(d.error).with_sign();
    if (const auto& width = p.a->degrees[d.a].uncertainty)
        figure = std::move(figure).borne_by(page::HalfWidth(*width));
    if (const auto& width = p.b->degrees[d.b].uncertainty)
        figure = std::move(figure).borne_by(page::HalfWidth(*width));
    return figure;
}

/// Errors over all rest on all.
page::Number borne_by_both(page::Number figure, const Pair& p) {
    for (const Scale* scale : {p.a, p.b})
        for (const Degree& degree : scale->degrees)
            if (degree.uncertainty)
                figure = std::move(figure).borne_by(page::HalfWidth(*degree.uncertainty));
    return figure;
}

page::Table pair_table(const std::vector<Pair>& pairs) {
    page::Table table{"pairs", "", {}, {}};
    const auto add = [&](const Column& column, auto cell) { table.add(pairs, column, cell); };
    const auto rms = [](const Pair& p) {
        return borne_by_both(page::Number(root_mean_square(p.difference.errors())), p);
    };
    if (pairs.size() > 1)
        add(Column{"No.", ColumnKind::key},
            [number = 0](const Pair&) mutable { return page::count(++number); });
    add(Column{"Scale", ColumnKind::words}.keyed("a"), [](const Pair& p) { return p.a->name; });
    add(Column{"against", ColumnKind::words}.keyed("b"), [](const Pair& p) { return p.b->name; });
    add(Column{"from", ColumnKind::words}.keyed("fit"),
        [](const Pair& p) { return p.best ? "best" : "tonic"; });
    add(Column{"degree"}.keyed("start_degree"),
        [](const Pair& p) { return page::count(p.difference.start_degree + 1); });
    add(Column{"offset"}.keyed("offset_cents"), [](const Pair& p) {
        return borne_by_both(page::cents(p.difference.offset), p).with_sign();
    });
    add(Column{"largest", ColumnKind::figure, "Error in cents"}.keyed("max_error_cents"),
        [](const Pair& p) { return borne_by_both(page::cents(p.difference.max_error), p); });
    add(Column{"RMS", ColumnKind::figure, "Error in cents", 0, true}.keyed("rms_error_cents"), rms);
    add(Column{"equal"}.keyed("common"),
        [](const Pair& p) { return page::count(p.difference.common); });
    return table;
}

/// The first scale where a tonic or a reference was asked for.
using Tuned = std::optional<TunedScale>;

page::Number deviation_cell(const TunedScale& scale, const DegreePair& d) {
    page::Number figure = page::cents(scale.degrees()[d.a].deviation).with_sign();
    const auto& width = scale.scale().degrees[d.a].uncertainty;
    return width ? std::move(figure).borne_by(page::HalfWidth(*width)) : figure;
}

/// For programs, the degrees of pair `index`; their keys where `tuned` is the scale that they are
/// of.
page::Table degrees_for_programs(const Pair& p, std::size_t index, const TunedScale* tuned) {
    page::Table table{fmt::format("pairs[{}].degrees", index), "", {}, {}};
    const auto add = [&](const char* key, auto cell) {
        table.add(p.difference.degrees, Column{}.keyed(key, "").hidden(), cell);
    };
    add("a", [](const DegreePair& d) { return page::count(d.a + 1); });
    add("b", [](const DegreePair& d) { return page::count(d.b + 1); });
    add("error_cents", [&](const DegreePair& d) { return error_cell(p, d); });
    if (tuned != nullptr) {
        add("note", [&](const DegreePair& d) { return page::Note{tuned->degrees()[d.a].note}; });
        add("deviation_cents", [&](const DegreePair& d) { return deviation_cell(*tuned, d); });
    }
    return table;
}

std::string named(const Scale& scale, std::size_t index) {
    const std::string& name = scale.degrees[index].name;
    return std::to_string(index + 1) + (name.empty() ? "" : " " + name);
}

/// Two scales degree by degree, both ways of laying them side by side.
page::Table degree_columns(const std::vector<Pair>& pairs, const Tuned& first) {
    page::Table table{"", "Degree by degree", {}, {}};
    const auto& degrees = pairs.front().difference.degrees;
    const Scale& a = *pairs.front().a;
    table.add(degrees, Column{"Degree", ColumnKind::words},
              [&](const DegreePair& d) { return named(a, d.a); });
    table.add(degrees, Column{"Cents"}, [&](const DegreePair& d) {
        const Degree& degree = a.degrees[d.a];
        const auto& width = degree.uncertainty;
        return page::cents(degree.interval)
            .borne_by(width ? std::optional<page::HalfWidth>(*width) : std::nullopt);
    });
    if (first) {
        const std::string group = "Key, deviation";
        table.add(degrees, Column{"", ColumnKind::note, group, 0, true},
                  [&](const DegreePair& d) { return page::Note{first->degrees()[d.a].note}; });
        table.add(degrees, Column{"cents", ColumnKind::figure, group, 0, true},
                  [&](const DegreePair& d) { return deviation_cell(*first, d); });
    }
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        const Pair& p = pairs[i];
        const std::string group = p.best ? "where they fit best" : "from the same tonic";
        table.add(degrees, Column{"nearest", ColumnKind::words, group, i + 1},
                  [&](const DegreePair& d) { return named(*p.b, p.difference.degrees[d.a].b); });
        table.add(degrees, Column{"error", ColumnKind::figure, group, i + 1},
                  [&](const DegreePair& d) { return error_cell(p, p.difference.degrees[d.a]); });
    }
    return table;
}

/// Their names, as long as these make a line.
std::string title_of(const std::vector<Scale>& scales) {
    constexpr std::size_t most_named = 3;
    if (scales.size() > most_named)
        return fmt::format("{} scales compared", scales.size());
    std::string title;
    for (const Scale& scale : scales)
        title += (title.empty() ? "" : " · ") + scale.name;
    return title;
}

page::Facts tonic_facts(const TunedScale& scale) {
    return {"",
            "",
            {{"Tonic", scale.tonic().written(), "tonic"},
             {"", page::hertz(scale.tonic().pitch), "tonic_hz"},
             {"Reference pitch", page::hertz(scale.a4()).in("Hz"), "reference_hz"}}};
}

page::Paragraphs remarks() {
    return {
        "",
        "",
        {{page::Role::note,
          "Error: the nearest degree of the second minus the degree of the first, in cents; the "
          "largest and the RMS error are those of all degrees of the first."},
         {page::Role::note,
          "Best: the second moved as a whole to where the RMS error is smallest; the degree "
          "named then lies at the tonic of the first, so many cents above it. Equal: degrees "
          "that are exactly the same."}}};
}

} // namespace

page::Page compare_page(const std::vector<Scale>& scales, const TuningOptions& options) {
    if (scales.empty())
        throw error(message::nothing_to_compare_with, "", {});
    const std::vector<Pair> pairs = pairs_of(scales);
    Tuned first;
    if (options.tonic || options.reference)
        first = tuned(scales.front(), options);
    page::Page page;
    page.kind = "comparison";
    page.title = title_of(scales);
    if (first)
        page.blocks.emplace_back(tonic_facts(*first));
    page.blocks.emplace_back(scales_drawing(scales));
    page.blocks.emplace_back(pair_table(pairs));
    for (std::size_t i = 0; i < pairs.size(); ++i) {
        const bool of_first = first && pairs[i].a == &scales.front();
        page.blocks.emplace_back(degrees_for_programs(pairs[i], i, of_first ? &*first : nullptr));
    }
    if (scales.size() == 2)
        page.blocks.emplace_back(degree_columns(pairs, first));
    else
        for (page::Table& table : distance_tables(scales))
            page.blocks.emplace_back(std::move(table));
    page.blocks.emplace_back(remarks());
    return page;
}

} // namespace sectio
