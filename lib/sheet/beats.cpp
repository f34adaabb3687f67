#include <sectio/approx/near_ratios.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/sheet/beats.hpp>
#include <sectio/sheet/compared.hpp>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

struct Against {
    const ComparedDegree* degree;
    std::size_t number;
    Interval way; ///< from the drone
    std::optional<Interval> ratio;
};

/// How far the half width of a pitch may move its q-th partial, in Hz.
std::optional<page::HalfWidth> beats_half_width(const Against& a) {
    const auto& width = a.degree->degree.uncertainty;
    if (!width || !a.ratio || a.way.is_unison()) // one string does not beat with itself
        return std::nullopt;
    const auto partial = Interval::from_ratio(a.ratio->ratio()->denominator());
    return half_width_in_hertz(a.degree->pitch + partial, *width);
}

std::vector<Against> degrees_against(const Comparison& c, const Pitch& drone,
                                     std::optional<unsigned> limit) {
    std::vector<Against> out;
    for (const ComparedDegree& d : c.degrees) {
        const Interval way = d.pitch - drone;
        out.push_back({&d, out.size() + 1, way, simple_ratio(way, limit)});
    }
    return out;
}

} // namespace

std::optional<Interval> simple_ratio(const Interval& interval, std::optional<unsigned> limit) {
    NearBounds simplest;
    simplest.most = 1;
    simplest.prime_limit = limit;
    const auto found =
        near_ratios(interval, Interval::from_cents(Rational(near_ratio_cents)), simplest);
    return found.empty() ? std::nullopt : std::optional(found.front());
}

page::Number beats(const Pitch& pitch, const Pitch& drone, const Rational& ratio) {
    return page::Number(beats_per_second(pitch, drone, ratio.denominator(), ratio.numerator()));
}

page::Table drone_table(const Comparison& c, const Pitch& drone, std::optional<unsigned> limit) {
    const std::string hertz = page::hertz(drone).in("Hz").shown_with(2).for_people({});
    page::Table table{"drone", "Against a drone of " + hertz, {}, {}};
    const auto rows = degrees_against(c, drone, limit);
    const auto add = [&](const Column& column, auto cell) { table.add(rows, column, cell); };
    add(Column{"No.", ColumnKind::key}.keyed("degree"),
        [](const Against& a) { return page::count(a.number); });
    add(Column{"Name", ColumnKind::words}.keyed("name"),
        [](const Against& a) { return a.degree->degree.name; });
    add(Column{"Cents"}.keyed("cents"),
        [](const Against& a) { return page::cents(a.way).borne_by(half_width(a.degree)); });
    add(Column{"Simple ratio", ColumnKind::note}.keyed("ratio"),
        [](const Against& a) { return Cell(a.ratio); });
    add(Column{"off by"}.keyed("error_cents"), [](const Against& a) {
        return a.ratio
                   ? Cell(page::cents(*a.ratio - a.way).borne_by(half_width(a.degree)).with_sign())
                   : Cell();
    });
    add(Column{"Beats per second", ColumnKind::figure, "", 0, true}.keyed("beats"),
        [&](const Against& a) {
            const auto ratio = a.ratio ? a.ratio->ratio() : std::nullopt;
            return ratio ? Cell(beats(a.degree->pitch, drone, *ratio)
                                    .shown_with(2)
                                    .borne_by(beats_half_width(a)))
                         : Cell();
        });
    if (c.scale().measured())
        add(Column{"±"}.keyed("beats_uncertainty"), [](const Against& a) {
            const auto width = beats_half_width(a);
            return width ? Cell(page::margin(*width).shown_with(2)) : Cell();
        });
    return table;
}

} // namespace sectio
