#include <sectio/base/limits.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/sheet/compared.hpp>
#include <sectio/sheet/parts.hpp>
#include <sectio/sheet/systems.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

/// The largest division that is looked at, and how many are taken of the best by either error.
constexpr std::int64_t bound = 72;
constexpr std::int64_t most = 4;

/// The degrees that a division of the period can miss.
Targets targets_of(const Comparison& c, const Interval& period) {
    Targets targets;
    for (const ComparedDegree& d : c.degrees) {
        const auto periods = exact_quotient(d.degree.interval, period);
        if (!periods || !is_whole(*periods))
            targets.intervals.push_back(d.degree.interval);
    }
    return targets;
}

/// The best up to the bound by either error and the divisions asked for, by number.
std::vector<EqualDivision> chosen(const Comparison& c, const Targets& targets,
                                  const Interval& period) {
    const ErrorTable table(targets, period);
    std::vector<Integer> numbers;
    for (const ErrorKind kind : {ErrorKind::max, ErrorKind::rms})
        for (const std::int64_t n : table.best(kind, {1, bound}, most))
            numbers.emplace_back(n);
    for (const EqualDivision& d : c.divisions)
        if (d.period() == period)
            numbers.push_back(d.steps());
    std::sort(numbers.begin(), numbers.end());
    numbers.erase(std::unique(numbers.begin(), numbers.end()), numbers.end());
    numbers.resize(std::min(numbers.size(), limits::compared_divisions));
    std::vector<EqualDivision> out;
    for (const Integer& n : numbers)
        out.emplace_back(n, period);
    return out;
}

} // namespace

Blocks errors_part(const Comparison& c, const SheetOptions&) {
    const Interval period = c.scale().period.value_or(Interval::octave());
    const Targets targets = targets_of(c, period);
    if (targets.intervals.empty())
        return {page::Paragraphs{
            "",
            "",
            {{page::Role::note, "Every equal division has all of this scale: its tonic and whole "
                                "periods."}}}};
    page::Table table = summary_table(compare(c.tuned, chosen(c, targets, period)), {});
    table.key = "errors";
    return {table, page::Paragraphs{"",
                                    "",
                                    {{page::Role::note,
                                      fmt::format("The {} best divisions of up to {} steps by the "
                                                  "largest error and by the RMS error, and those "
                                                  "asked for.",
                                                  most, bound)}}}};
}

} // namespace sectio
