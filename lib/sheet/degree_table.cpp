#include <sectio/interval/expression.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sheet/systems.hpp>

#include <fmt/format.h>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// "53 steps", and "13 of 3/1" for another period than the octave.
std::string group_heading(const EqualDivision& division) {
    const std::string name = division_name(division);
    return name.find(' ') == std::string::npos ? name + " steps" : name;
}

/// As it was written; of a place that was measured and computed, whose exact expression has many
/// factors, the size as far as the measurement supports it.
page::Expression interval_cell(const Degree& degree) {
    constexpr std::size_t longest = 16;
    constexpr int digits = 1;
    const page::Expression as_written{degree.interval, degree.written};
    if (!degree.uncertainty)
        return as_written;
    const std::string exact = to_expression(degree.interval);
    const bool reckoned = degree.written.empty() || degree.written == exact;
    if (!reckoned || exact.size() <= longest)
        return as_written;
    return {degree.interval, degree.interval.cents(borne_digits(degree.uncertainty, digits)) + "c"};
}

/// The table of degrees under construction.
class DegreeTable {
  public:
    DegreeTable(const Comparison& comparison, bool frequencies)
        : c_(comparison), rows_(rows_of(comparison)), frequencies_(frequencies) {}

    page::Table make(const std::vector<ComparedSystem>& systems) {
        table_.key = "degrees";
        what_it_is();
        where_it_lies();
        for (std::size_t i = 0; i < c_.divisions.size(); ++i)
            against(i);
        add_systems(table_, c_, systems);
        what_it_rests_on();
        if (c_.closing)
            table_.rows.back().key = "period";
        return std::move(table_);
    }

  private:
    template <typename MakeCell>
    void add(Column column, MakeCell cell) {
        table_.add(rows_, std::move(column), cell);
    }

    void what_it_is() {
        add(Column{"No.", ColumnKind::key}.keyed("", "degree"),
            [](const SheetRow& r) { return page::count(r.number); });
        add(Column{}.keyed("index", "").hidden(),
            [](const SheetRow& r) { return page::count(r.number > 0 ? r.number - 1 : r.number); });
        add(Column{"Name", ColumnKind::words}.keyed("name"),
            [](const SheetRow& r) { return r.degree->degree.name; });
        add(Column{"Written", ColumnKind::words}.keyed("written_note"),
            [](const SheetRow& r) { return page::WrittenNote{r.degree->degree.note}; });
        add(Column{"Interval", ColumnKind::words}.keyed("interval", ""),
            [](const SheetRow& r) { return interval_cell(r.degree->degree); });
        add(Column{}.keyed("", "interval").hidden(), [](const SheetRow& r) {
            return page::Expression{r.degree->degree.interval, r.degree->degree.written};
        });
        add(Column{}.keyed("written", "").hidden(),
            [](const SheetRow& r) { return r.degree->degree.written; });
    }

    void where_it_lies() {
        add(Column{"Cents"}.keyed("cents"), [](const SheetRow& r) {
            return page::cents(r.degree->degree.interval).borne_by(half_width(r.degree));
        });
        add(Column{"±"}.keyed(c_.scale().measured() ? "uncertainty_cents" : "",
                              "uncertainty_cents"),
            [](const SheetRow& r) {
                const auto width = half_width(r.degree);
                return width ? Cell(page::margin(*width)) : Cell();
            });
        add(Column{"Next"}.keyed("next_cents"), [](const SheetRow& r) {
            if (!r.degree->next)
                return Cell();
            return Cell(page::cents(*r.degree->next)
                            .borne_by(half_width(r.degree))
                            .borne_by(half_width(r.next)));
        });
        const Column hertz = Column{"Hz"}.keyed("hz");
        add(frequencies_ ? hertz : hertz.hidden(), [](const SheetRow& r) {
            return page::hertz(r.degree->pitch, r.degree->degree.uncertainty).shown_with(2);
        });
        const std::string group = "Key, deviation";
        add(Column{"", ColumnKind::note, group, 0, true}.keyed("note"),
            [](const SheetRow& r) { return page::Note{r.degree->note}; });
        add(Column{"cents", ColumnKind::figure, group, 0, true}.keyed("deviation_cents"),
            [](const SheetRow& r) { return deviation(r); });
    }

    /// For who reads the table as a scale again.
    void what_it_rests_on() {
        const std::optional<Interval> period = c_.scale().period;
        const auto& signs = c_.scale().signs;
        const auto every_row = [&](const char* field, const Cell& cell) {
            add(Column{}.keyed("", field).hidden(), [&](const SheetRow&) { return cell; });
        };
        every_row("reference_hz", page::hertz(c_.tuned.a4()));
        every_row("period", period ? Cell(page::Expression{*period, ""}) : Cell("none"));
        every_row("tonic", c_.tonic_written());
        every_row("reference", reference_text(c_.tuned.a4()));
        every_row("signs", signs ? std::string(text(*signs)) : "");
    }

    static page::Number deviation(const SheetRow& r) {
        return page::cents(r.degree->deviation).borne_by(half_width(r.degree)).with_sign();
    }

    /// The columns of division `i`; people do not see steps that are the keys themselves.
    void against(std::size_t i) {
        const EqualDivision& division = c_.divisions[i];
        const bool keys = steps_are_keys(c_, division);
        const std::string at = fmt::format("against[{}].", i),
                          name = for_programs(division_cell(division), {});
        const auto column = [&](const char* head, const char* key, const std::string& field) {
            Column made{head, ColumnKind::figure, group_heading(division), i + 1};
            made = made.keyed(at + key, field);
            return keys || *head == '\0' ? made.hidden() : made;
        };
        add(column("", "division", ""), [&](const SheetRow&) { return division_cell(division); });
        add(column("step", "step", "step_" + name),
            [i](const SheetRow& r) { return page::Count{r.degree->against[i].step}; });
        add(column("", "step_cents", "step_" + name + "_cents"),
            [i](const SheetRow& r) { return page::cents(r.degree->against[i].size); });
        add(column("error", "error_cents", "error_" + name + "_cents"), [i](const SheetRow& r) {
            return page::cents(r.degree->against[i].error)
                .borne_by(half_width(r.degree))
                .with_sign();
        });
        add(column("", "note", ""), [](const SheetRow& r) { return page::Note{r.degree->note}; });
        add(column("", "deviation_cents", ""), [](const SheetRow& r) { return deviation(r); });
    }

    const Comparison& c_;
    std::vector<SheetRow> rows_;
    bool frequencies_;
    page::Table table_;
};

} // namespace

std::string reference_text(const Pitch& a4) {
    constexpr int a4_key = 69, digits = 9;
    for (int key = a4_key; key > a4_key - 12; --key) {
        const Pitch pitch = a4 + Interval::from_steps(key - a4_key, 12);
        const auto hertz = pitch.above_hertz().ratio();
        const std::string exact = hertz ? exact_decimal(*hertz) : "";
        if (!exact.empty())
            return usual_note(key).text() + " = " + exact + " Hz";
    }
    return "A4 = " + a4.hertz(digits) + " Hz";
}

std::vector<SheetRow> rows_of(const Comparison& c) {
    std::vector<SheetRow> rows;
    for (const ComparedDegree& d : c.degrees)
        rows.push_back({&d, nullptr, rows.size(), c.tuned.number(rows.size())});
    if (c.closing)
        rows.push_back({&*c.closing, nullptr, rows.size(), c.tuned.number(rows.size())});
    for (std::size_t i = 0; i + 1 < rows.size(); ++i)
        rows[i].next = rows[i + 1].degree;
    return rows;
}

std::optional<page::HalfWidth> half_width(const ComparedDegree* d) {
    if (!d || !d->degree.uncertainty)
        return std::nullopt;
    return *d->degree.uncertainty;
}

bool steps_are_keys(const Comparison& c, const EqualDivision& division) {
    return division == EqualDivision(12) && !c.degrees.empty() && tonic_of(c).deviation.is_unison();
}

std::string division_name(const EqualDivision& division) {
    return shortened(division.text());
}

page::Cell division_cell(const EqualDivision& division) {
    if (division.period() == Interval::octave())
        return page::Count{division.steps()};
    return division.steps().str() + "(" + to_expression(division.period()) + ")";
}

page::Table degree_table(const Comparison& comparison, const std::vector<ComparedSystem>& systems,
                         bool frequencies) {
    return DegreeTable(comparison, frequencies).make(systems);
}

} // namespace sectio
