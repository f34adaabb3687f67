#include <sectio/base/argument.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/sheet/division_ranking.hpp>
#include <sectio/sheet/error_chart.hpp>
#include <sectio/sheet/interval_cells.hpp>
#include <sectio/sheet/sheet.hpp>

#include <fmt/format.h>

#include <memory>

namespace sectio {

namespace {

using page::Cell;
using page::Column;
using page::ColumnKind;

/// The figures of a ranking's divisions, of which the last is kept: a printer asks for a row's
/// columns one after another.
class Rows {
  public:
    explicit Rows(const DivisionRanking& ranking)
        : table_(ranking.table), divisions_(ranking.divisions), progress_(ranking.progress) {
        for (const Interval& target : table_.targets())
            targets_.push_back(to_expression(target));
    }

    std::size_t count() const { return divisions_.size(); }
    Integer steps(std::size_t row) const { return divisions_[row]; }
    EqualDivision division(std::size_t row) const {
        return EqualDivision(Integer(divisions_[row]), table_.period());
    }
    const Interval& target(std::size_t i) const { return table_.targets()[i]; }
    const std::string& target_text(std::size_t i) const { return targets_[i]; }
    const ErrorRow& at(std::size_t row) {
        if (!last_ || last_->division != divisions_[row]) {
            last_ = table_.row(divisions_[row]);
            if (progress_)
                progress_(static_cast<double>(row + 1) / static_cast<double>(count()));
        }
        return *last_;
    }

  private:
    ErrorTable table_;
    std::vector<std::int64_t> divisions_;
    Progress progress_;
    std::vector<std::string> targets_; ///< as people read them, each written once
    std::optional<ErrorRow> last_;
};

page::Table target_table(const DivisionRanking& ranking) {
    const auto& targets = ranking.table.targets();
    page::Table table{"targets", "", {}, {}};
    table.add(targets, Column{}.keyed("interval", "").hidden(),
              [](const Interval& target) { return target; });
    table.add(targets, Column{}.keyed("cents", "").hidden(),
              [](const Interval& target) { return page::cents(target); });
    return table;
}

/// The table of divisions under construction; its rows are made when they are printed.
class DivisionTable {
  public:
    explicit DivisionTable(const DivisionRanking& ranking)
        : rows_(std::make_shared<Rows>(ranking)) {}

    page::Table make() {
        table_.key = "divisions";
        add(Column{"division"},
            [](Rows& rows, std::size_t i) { return Cell(page::Count{rows.steps(i)}); });
        add(Column{}.keyed("division").hidden(),
            [](Rows& rows, std::size_t i) { return division_cell(rows.division(i)); });
        error("maximum", "max_error_cents", &ErrorRow::max_error_cents);
        error("RMS", "rms_error_cents", &ErrorRow::rms_error_cents);
        error("in steps", "max_error_steps", &ErrorRow::max_error_steps);
        worst();
        consistent();
        return std::move(table_);
    }

  private:
    template <typename MakeCell>
    void add(const Column& column, MakeCell cell) {
        table_.add_later(rows_->count(), column,
                         [rows = rows_, cell](std::size_t i) { return cell(*rows, i); });
    }

    void error(const char* head, const char* key, Real ErrorRow::*figure) {
        add(Column{head}.keyed(key), [figure](Rows& rows, std::size_t i) {
            return Cell(page::Number(rows.at(i).*figure).shown_with(usual_digits));
        });
    }

    void worst() {
        add(Column{"worst", ColumnKind::words}, [](Rows& rows, std::size_t i) {
            const auto& worst = rows.at(i).worst;
            return Cell(worst ? rows.target_text(*worst) : "-");
        });
        add(Column{}.keyed("worst").hidden(), [](Rows& rows, std::size_t i) {
            const auto& worst = rows.at(i).worst;
            return worst ? Cell(rows.target(*worst)) : Cell();
        });
    }

    void consistent() {
        add(Column{"consistent", ColumnKind::words}, [](Rows& rows, std::size_t i) {
            const auto& consistent = rows.at(i).consistent;
            return Cell(!consistent ? "-" : *consistent ? "yes" : "no");
        });
        add(Column{}.keyed("consistent").hidden(), [](Rows& rows, std::size_t i) {
            const auto& consistent = rows.at(i).consistent;
            return consistent ? Cell(page::YesNo{*consistent}) : Cell();
        });
    }

    std::shared_ptr<Rows> rows_;
    page::Table table_;
};

std::string title(const DivisionRanking& ranking) {
    constexpr const char* records[]{", records of the maximum error", ", records of the RMS error",
                                    ", records of the maximum error in steps"};
    const std::size_t count = ranking.table.targets().size();
    return fmt::format("{} {} ({}), divisions of {}{}", count, count == 1 ? "target" : "targets",
                       ranking.targets, to_expression(ranking.table.period()),
                       ranking.records ? row_for(records, *ranking.records) : "");
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
    page.blocks.emplace_back(DivisionTable(ranking).make());
    page.blocks.emplace_back(page::Paragraphs{
        "",
        "",
        {{page::Role::note, "Errors in cents; the largest in steps of the division, too: half a "
                            "step at most. Consistent: where targets add up to a target, their "
                            "steps add up to its."}}});
    return page;
}

} // namespace sectio
