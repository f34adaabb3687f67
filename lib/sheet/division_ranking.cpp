#include <sectio/interval/expression.hpp>
#include <sectio/sheet/division_ranking.hpp>
#include <sectio/sheet/error_chart.hpp>
#include <sectio/sheet/sheet.hpp>

#include <fmt/format.h>

#include <map>
#include <memory>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// The figures of all divisions, each found once for so many digits: three columns show it, and
/// every format that is printed.
class Rows {
  public:
    explicit Rows(const ErrorTable& table) : table_(table) {}

    const ErrorRow& at(std::int64_t division, int digits) {
        const auto found = rows_.find({division, digits});
        if (found != rows_.end())
            return found->second;
        return rows_.emplace(std::pair(division, digits), table_.row(division, digits))
            .first->second;
    }

  private:
    ErrorTable table_;
    std::map<std::pair<std::int64_t, int>, ErrorRow> rows_;
};

constexpr int usual_digits = 3;

page::Table target_table(const DivisionRanking& ranking) {
    const auto& targets = ranking.table.targets();
    page::Table table{"targets", "", {}, {}};
    table.add(targets, Column{}.keyed("interval", "").hidden(),
              [](const Interval& target) { return target; });
    table.add(targets, Column{}.keyed("cents", "").hidden(),
              [](const Interval& target) { return page::cents(target); });
    return table;
}

page::Table division_table(const DivisionRanking& ranking) {
    const auto rows = std::make_shared<Rows>(ranking.table);
    page::Table table{"divisions", "", {}, {}};
    const auto add = [&](const Column& column, auto cell) {
        table.add(ranking.divisions, column, cell);
    };
    const auto error = [&](std::string ErrorRow::*figure) {
        return [rows, figure](std::int64_t division) {
            return page::Figure([rows, figure, division](int digits) {
                       return rows->at(division, digits).*figure;
                   })
                .shown_with(usual_digits);
        };
    };
    const auto& targets = ranking.table.targets();
    add(Column{"division"}, [](std::int64_t n) { return page::count(n); });
    add(Column{}.keyed("division").hidden(), [&](std::int64_t n) {
        return division_cell(EqualDivision(Integer(n), ranking.table.period()));
    });
    add(Column{"maximum"}.keyed("max_error_cents"), error(&ErrorRow::max_error_cents));
    add(Column{"RMS"}.keyed("rms_error_cents"), error(&ErrorRow::rms_error_cents));
    add(Column{"in steps"}.keyed("max_error_steps"), error(&ErrorRow::max_error_steps));
    add(Column{"worst", ColumnKind::words}, [rows, targets](std::int64_t n) {
        const auto worst = rows->at(n, usual_digits).worst;
        return worst ? Cell(targets[*worst]) : Cell("-");
    });
    add(Column{}.keyed("worst").hidden(), [rows, targets](std::int64_t n) {
        const auto worst = rows->at(n, usual_digits).worst;
        return worst ? Cell(targets[*worst]) : Cell();
    });
    add(Column{"consistent", ColumnKind::words}, [rows](std::int64_t n) {
        const auto consistent = rows->at(n, usual_digits).consistent;
        return Cell(!consistent ? "-" : *consistent ? "yes" : "no");
    });
    add(Column{}.keyed("consistent").hidden(), [rows](std::int64_t n) {
        const auto consistent = rows->at(n, usual_digits).consistent;
        return consistent ? Cell(page::YesNo{*consistent}) : Cell();
    });
    return table;
}

std::string title(const DivisionRanking& ranking) {
    constexpr const char* records[]{", records of the maximum error", ", records of the RMS error",
                                    ", records of the maximum error in steps"};
    const std::size_t count = ranking.table.targets().size();
    return fmt::format("{} {} ({}), divisions of {}{}", count, count == 1 ? "target" : "targets",
                       ranking.targets, to_expression(ranking.table.period()),
                       ranking.records ? records[static_cast<std::size_t>(*ranking.records)] : "");
}

} // namespace

page::Page division_ranking_page(const DivisionRanking& ranking) {
    page::Page page;
    page.kind = "divisions";
    page.title = title(ranking);
    page.blocks.emplace_back(page::Facts{"", "", {{"", ranking.table.period(), "period"}}});
    if (auto chart = error_chart(ranking))
        page.blocks.emplace_back(std::move(*chart));
    page.blocks.emplace_back(target_table(ranking));
    page.blocks.emplace_back(division_table(ranking));
    page.blocks.emplace_back(page::Paragraphs{
        "",
        "",
        {{page::Role::note, "Errors in cents; the largest in steps of the division, too: half a "
                            "step at most. Consistent: where targets add up to a target, their "
                            "steps add up to its."}}});
    return page;
}

} // namespace sectio
