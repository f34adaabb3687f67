// The page of DEVELOPERS.md, which tests/checks/library.py compares with this, and what it prints.

#include <sectio/interval/expression.hpp>
#include <sectio/print/print.hpp>

#include <catch2/catch.hpp>

using namespace sectio;

namespace {

page::Page fifths_page(const std::vector<Interval>& fifths) {
    page::Table table{"fifths", "", {}, {}};
    table.add(fifths, page::Column{"Fifth", page::ColumnKind::words}.keyed("interval"),
              [](const Interval& fifth) { return fifth; });
    table.add(fifths, page::Column{"Cents"}.keyed("cents"),
              [](const Interval& fifth) { return page::cents(fifth); });
    page::Page page;
    page.title = "Fifths";
    page.blocks = {page::Facts{"", "", {{"Count", page::count(fifths.size()), "count"}}}, table};
    return page;
}

} // namespace

TEST_CASE("The page that DEVELOPERS.md shows is text, JSON and CSV") {
    const page::Page page = fifths_page({parse_interval("3/2"), parse_interval("31of53")});
    page::PrintOptions in_a_line;
    in_a_line.one_line = true;
    CHECK(print_json(page, in_a_line)
          == R"({"count":2,"fifths":[{"interval":"3/2","cents":"701.955"},)"
             R"({"interval":"31of53","cents":"701.887"}]})"
             "\n");
    CHECK(print_csv(page) == "interval,cents\r\n3/2,701.955\r\n31of53,701.887\r\n");
}
