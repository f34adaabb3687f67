#include <sectio/approx/continued_fraction.hpp>
#include <sectio/base/argument.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/scale/references.hpp>
#include <sectio/sheet/interval_cells.hpp>
#include <sectio/sheet/interval_page.hpp>
#include <sectio/sheet/sheet.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

using page::Cell;
using page::Column;

page::Number size_of(const Interval& interval) {
    return page::cents(interval).shown_with(usual_digits);
}

/// The factors that withstood the search, each by its digits: "a factor of 190 digits".
std::string unsplit(const Factors& factors) {
    std::string text;
    for (const Factor& f : factors)
        if (!f.prime)
            text += fmt::format("{}a factor of {} digits", text.empty() ? "" : ", ",
                                f.base.str().size());
    return text;
}

std::string factors_of(const IntervalReport& report) {
    const std::string left = unsplit(report.factors);
    return factors_text(report.factors)
           + (left.empty() ? "" : "  (not split into primes: " + left + ")");
}

/// "[0; 1, 1, 2, 2, …] in 2/1"
std::string quotients_text(const ContinuedFraction& fraction, const Interval& measure) {
    std::string text;
    for (std::size_t i = 0; i < fraction.quotients.size(); ++i)
        text += (i == 0 ? "" : i == 1 ? "; " : ", ") + fraction.quotients[i].str();
    return fmt::format("[{}{}] in {}", text, fraction.ended ? "" : ", …", to_expression(measure));
}

std::string convergents_text(const ContinuedFraction& fraction) {
    std::string text;
    for (const Approximant& a : convergents(fraction))
        text += fmt::format("{}{}/{}", text.empty() ? "" : " ", a.steps.str(), a.divisions.str());
    return text;
}

Cell step_words(const ComparedStep& step) {
    return page::Phrase{{"step", page::Count{step.step}, "=", size_of(step.size).in("cents,"),
                         "error", size_of(step.error).with_sign().in("cents")}};
}

Cell near_words(const IntervalReport& report) {
    page::List list;
    for (const Interval& ratio : report.near_ratios) {
        Cell phrase = page::Phrase{{ratio, size_of(ratio - report.interval).with_sign()}};
        list.items.push_back(std::move(phrase));
    }
    return list;
}

/// For people.
page::Facts shown_facts(const IntervalReport& report, const ReportRequest& request,
                        const Catalogue& catalogue) {
    page::Facts facts{"", report.input, {}};
    const auto add = [&](std::string label, Cell cell) {
        facts.facts.push_back({std::move(label), std::move(cell), ""});
    };
    add("interval", report.interval);
    if (Interval::from_ratio(16, 1) < report.interval // beyond the partials that have names
        && report.input.find_first_not_of("0123456789") == std::string::npos)
        add("caution",
            fmt::format("a number alone is a ratio; cents are written {}c", report.input));
    add("size", size_of(report.interval).in("cents"));
    add("factors", factors_of(report));
    for (const Entry& entry : report.names)
        add("known as",
            fmt::format("{} ({})", entry.name, with_references(entry.source, catalogue)));
    for (std::size_t i = 0; i < request.divisions.size(); ++i)
        add("in " + request.divisions[i].text(), step_words(report.steps[i]));
    if (!report.near_ratios.empty())
        add("near", near_words(report));
    if (request.quotients > 0) {
        add("quotients", quotients_text(report.fraction, request.measure));
        add("steps/of", convergents_text(report.fraction));
    }
    return facts;
}

/// The members of an object, one by one.
class Members {
  public:
    Members& with(const char* key, Cell cell) {
        map_.items.emplace_back(key, std::move(cell));
        return *this;
    }
    Cell object() { return std::move(map_); }

  private:
    page::Map map_;
};

Cell steps_cell(const IntervalReport& report, const ReportRequest& request) {
    page::List list;
    for (std::size_t i = 0; i < request.divisions.size(); ++i) {
        const ComparedStep& step = report.steps[i];
        list.items.push_back(Members()
                                 .with("division", division_cell(request.divisions[i]))
                                 .with("step", page::Count{step.step})
                                 .with("step_cents", page::cents(step.size))
                                 .with("error_cents", page::cents(step.error))
                                 .object());
    }
    return list;
}

Cell near_cell(const IntervalReport& report) {
    page::List list;
    for (const Interval& ratio : report.near_ratios)
        list.items.push_back(Members()
                                 .with("ratio", ratio)
                                 .with("cents", page::cents(ratio))
                                 .with("error_cents", page::cents(ratio - report.interval))
                                 .object());
    return list;
}

/// The continued fraction with its convergents, as steps of divisions of the measure.
Cell fraction_cell(const IntervalReport& report, const Interval& measure) {
    page::List quotients, fractions;
    for (const Integer& q : report.fraction.quotients)
        quotients.items.push_back(page::Count{q});
    for (const Approximant& a : convergents(report.fraction))
        fractions.items.push_back(Members()
                                      .with("steps", page::Count{a.steps})
                                      .with("divisions", page::Count{a.divisions})
                                      .object());
    return Members()
        .with("measure", measure)
        .with("quotients", std::move(quotients))
        .with("ended", page::YesNo{report.fraction.ended})
        .with("convergents", std::move(fractions))
        .object();
}

/// For programs, and as the one table of CSV.
page::Table for_programs(const std::vector<IntervalReport>& reports, const ReportRequest& request) {
    page::Table table{"intervals", "", {}, {}};
    const auto add = [&](const char* key, const char* field, auto cell) {
        table.add(reports, Column{}.keyed(key, field).hidden(), cell);
    };
    using Report = IntervalReport;
    add("input", "input", [](const Report& r) { return r.input; });
    add("interval", "interval", [](const Report& r) { return r.interval; });
    add("ratio", "ratio",
        [](const Report& r) { return r.interval.is_ratio() ? Cell(r.interval) : Cell(); });
    add("cents", "cents", [](const Report& r) { return page::cents(r.interval); });
    add("factors", "", [](const Report& r) { return factors_cell(r.factors); });
    add("factors_complete", "",
        [](const Report& r) { return page::YesNo{unsplit(r.factors).empty()}; });
    add("names", "", [](const Report& r) { return names_cell(r.names); });
    add("prime_limit", "prime_limit",
        [](const Report& r) { return r.prime_limit ? Cell(page::Count{*r.prime_limit}) : Cell(); });
    add("steps", "", [&](const Report& r) { return steps_cell(r, request); });
    add("near_ratios", "", near_cell);
    if (request.quotients > 0)
        add("continued_fraction", "",
            [&](const Report& r) { return fraction_cell(r, request.measure); });
    return table;
}

} // namespace

page::Page interval_page(const std::vector<IntervalReport>& reports, const ReportRequest& request,
                         const Catalogue& catalogue) {
    for (const IntervalReport& report : reports)
        check_argument(report.steps.size() == request.divisions.size(), "a report",
                       "what report() made for this request");
    page::Page page;
    page.kind = "intervals";
    page.title = reports.size() == 1 ? reports.front().input : "Intervals";
    page.blocks.emplace_back(for_programs(reports, request));
    for (const IntervalReport& report : reports)
        page.blocks.emplace_back(shown_facts(report, request, catalogue));
    if (reports.size() == 1) // its title says it
        std::get<page::Facts>(page.blocks.back()).heading.clear();
    return page;
}

} // namespace sectio
