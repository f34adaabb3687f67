#include <sectio/base/limits.hpp>
#include <sectio/page/figures.hpp>
#include <sectio/sheet/sheet.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

/// What the rows are made with.
struct Maker {
    const Comparison& comparison;
    int digits;
    Interval span; ///< of the ruler

    int borne(const ComparedDegree& d) const { return borne_digits(d.degree.uncertainty, digits); }
    /// Of the figures that every degree has a part in.
    int borne_by_all() const {
        int least = digits;
        for (const ComparedDegree& d : comparison.degrees)
            least = std::min(least, borne(d));
        return least;
    }
};

/// Where the ruler ends: at the period, or at the highest degree of a set without one.
Interval ruler_span(const Comparison& c) {
    if (c.scale.period)
        return *c.scale.period;
    Interval highest;
    for (const ComparedDegree& d : c.degrees)
        highest = std::max(highest, d.degree.interval);
    return highest;
}

double fraction_of(const Interval& part, const Interval& whole) {
    return part.is_unison() || whole.is_unison() ? 0
                                                 : part.estimate().value / whole.estimate().value;
}

SheetRow make_row(const Maker& maker, const ComparedDegree& d, std::size_t index, int next_digits) {
    const int digits = maker.borne(d);
    SheetRow row;
    row.number = std::to_string(index + 1);
    row.name = one_line(d.degree.name);
    row.written_note = one_line(d.degree.note);
    row.interval = one_line(d.degree.written);
    row.cents = cents_text(d.degree.interval, digits);
    if (d.degree.uncertainty)
        row.uncertainty = margin_cents(*d.degree.uncertainty, digits);
    row.note = d.note.text(true);
    row.deviation = signed_cents(d.deviation, digits);
    if (d.next)
        row.next = cents_text(*d.next, std::min(digits, next_digits));
    for (const ComparedStep& s : d.against)
        row.steps.push_back({true_minus(s.step.str()), cents_text(s.size, maker.digits),
                             signed_cents(s.error, digits)});
    row.place = std::clamp(fraction_of(d.degree.interval, maker.span), 0.0, 1.0);
    return row;
}

std::vector<SheetRow> make_rows(const Maker& maker) {
    std::vector<const ComparedDegree*> all;
    for (const ComparedDegree& d : maker.comparison.degrees)
        all.push_back(&d);
    if (maker.comparison.closing)
        all.push_back(&*maker.comparison.closing);
    std::vector<SheetRow> rows;
    for (std::size_t i = 0; i < all.size(); ++i)
        rows.push_back(make_row(maker, *all[i], i,
                                i + 1 < all.size() ? maker.borne(*all[i + 1]) : maker.digits));
    return rows;
}

/// True where step k of the division is the k-th key above the tonic: 12 steps of the octave from a
/// tonic that is a key itself.
bool steps_are_keys(const Comparison& c, const EqualDivision& division) {
    return division == EqualDivision(12) && !c.degrees.empty()
           && c.degrees.front().deviation.is_unison();
}

SheetDivision make_division(const Maker& maker, const EqualDivision& division,
                            const DivisionSummary& summary, const std::vector<SheetRow>& rows) {
    const int digits = maker.borne_by_all();
    const std::string steps = division.steps().str();
    const bool octave = division.period() == Interval::octave();
    SheetDivision out;
    out.text = shortened(division.text());
    out.expression = octave ? steps : steps + "(" + to_expression(division.period()) + ")";
    out.keys = steps_are_keys(maker.comparison, division);
    out.max_error = cents_text(summary.max_error, digits);
    out.rms = summary.rms_cents(digits);
    if (summary.worst < rows.size()) {
        out.worst = rows[summary.worst].number;
        out.worst_name = rows[summary.worst].name;
    }
    return out;
}

std::vector<SheetDivision> make_divisions(const Maker& maker, const std::vector<SheetRow>& rows) {
    const Comparison& c = maker.comparison;
    std::vector<SheetDivision> out;
    for (std::size_t i = 0; i < c.divisions.size() && i < c.summaries.size(); ++i)
        out.push_back(make_division(maker, c.divisions[i], c.summaries[i], rows));
    return out;
}

/// Names of the keys from the tonic up, as the degrees spell them where one lies there.
std::vector<std::string> key_names(const Comparison& c, long count) {
    const int tonic = key_of(c.degrees.front().note);
    std::vector<std::string> names;
    for (int key = tonic; key <= tonic + count; ++key) {
        const auto spelled = std::find_if(c.degrees.begin(), c.degrees.end(),
                                          [&](const auto& d) { return key_of(d.note) == key; });
        const bool ends = (key - tonic) % 12 == 0;
        const NoteInOctave note = ends                         ? c.degrees.front().note
                                  : spelled != c.degrees.end() ? spelled->note
                                                               : usual_note(key);
        names.push_back(note.name.text(true));
    }
    return names;
}

std::vector<RulerLine> make_ruler(const Maker& maker) {
    std::vector<RulerLine> lines;
    if (!(maker.span > Interval()))
        return lines;
    for (const EqualDivision& division : maker.comparison.divisions) {
        const Interval step = division.at(1);
        const Integer count = whole_periods(maker.span, step);
        RulerLine line{shortened(division.text()),
                       fraction_of(step, maker.span),
                       count > limits::ruler_marks ? 0 : count.convert_to<long>(),
                       {}};
        if (steps_are_keys(maker.comparison, division))
            line.names = key_names(maker.comparison, line.count);
        lines.push_back(std::move(line));
    }
    return lines;
}

std::string pitch_fact(const Comparison& c, int digits) {
    if (c.degrees.empty())
        return hertz_text(c.tonic);
    const ComparedDegree& tonic = c.degrees.front();
    const std::string off =
        tonic.deviation.is_unison() ? "" : signed_cents(tonic.deviation, digits) + " cents ";
    return tonic.note.text(true) + " " + off + hertz_text(c.tonic);
}

std::string division_list(const std::vector<SheetDivision>& divisions) {
    std::string list;
    for (std::size_t i = 0; i < divisions.size(); ++i)
        list += (i == 0 ? "" : i + 1 == divisions.size() ? " and " : ", ") + divisions[i].text;
    return list + " equal steps";
}

std::vector<SheetFact> make_facts(const Maker& maker, const std::vector<SheetDivision>& divisions) {
    const Comparison& c = maker.comparison;
    std::vector<SheetFact> facts{{"Tonic", pitch_fact(c, maker.digits)},
                                 {"Reference pitch", "A4 " + hertz_text(c.a4)}};
    if (c.scale.period)
        facts.push_back({"Period", shortened(to_expression(*c.scale.period)) + ", "
                                       + cents_text(*c.scale.period, maker.digits) + " cents"});
    else
        facts.push_back({"Period", "none"});
    facts.push_back({"Degrees", std::to_string(c.degrees.size())});
    if (!divisions.empty())
        facts.push_back({"Compared with", division_list(divisions)});
    return facts;
}

std::vector<std::string> make_notes(const Comparison& c, const Sheet& sheet) {
    std::vector<std::string> notes{
        "Cents, 1200 to the octave, correctly rounded. Next: from this degree to the one above it.",
        "Key: the nearest of 12 equal steps from A4 " + hertz_text(c.a4)
            + ". Deviation: degree minus key, + where the degree is higher."};
    if (!sheet.divisions.empty())
        notes.push_back("Step and error: the nearest equal step, counted from the tonic, and step "
                        "minus degree: − where the step is too low. A degree exactly half way "
                        "takes the lower step. Largest and RMS error leave the tonic and the "
                        "period out.");
    for (const SheetDivision& division : sheet.divisions)
        if (division.keys)
            notes.push_back("The 12 steps are the keys themselves: their error is the deviation "
                            "with its sign turned.");
    if (sheet.measured)
        notes.push_back("± is the uncertainty of a measured degree in cents, rounded up; figures "
                        "that rest on it are shown no finer.");
    return notes;
}

constexpr const char* string_caution =
    "Raising a string's pitch can break it: raise it little by little and protect your eyes.";

} // namespace

Sheet make_sheet(const Comparison& comparison, const SheetOptions& options) {
    check_digits(options.digits);
    const Maker maker{comparison, options.digits, ruler_span(comparison)};
    Sheet sheet;
    sheet.title = one_line(comparison.scale.name);
    sheet.source = one_line(comparison.scale.source);
    sheet.date = one_line(options.date);
    sheet.digits = options.digits;
    sheet.measured = comparison.scale.measured();
    sheet.rows = make_rows(maker);
    sheet.divisions = make_divisions(maker, sheet.rows);
    sheet.facts = make_facts(maker, sheet.divisions);
    sheet.ruler = make_ruler(maker);
    sheet.notes = make_notes(comparison, sheet);
    for (const std::string& remark : comparison.scale.remarks)
        sheet.remarks.push_back(one_line(remark));
    if (options.strings.value_or(sheet.measured))
        sheet.cautions.push_back(string_caution);
    return sheet;
}

} // namespace sectio
