// The parts of the page that can be wrong without looking wrong: places, blocks, intervals of
// marks.

#include <sectio/print/print.hpp>
#include <sectio/print/ruler.hpp>
#include <sectio/print/shown_table.hpp>
#include <sectio/print/spread.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/sheet/sheet.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <random>
#include <set>

using namespace sectio;
using namespace sectio::page;

namespace {

void check_apart(const std::vector<double>& middles, const std::vector<double>& widths, double low,
                 double high) {
    CHECK(middles.front() - widths.front() / 2 >= low - 1e-9);
    CHECK(middles.back() + widths.back() / 2 <= high + 1e-9);
    for (std::size_t i = 1; i < middles.size(); ++i)
        CHECK(middles[i] - middles[i - 1] >= (widths[i] + widths[i - 1]) / 2 - 1e-9);
}

ShownTable wide_table(std::size_t parts) {
    ShownTable table;
    table.columns.push_back({"No.", ColumnKind::key});
    table.columns.push_back({"Cents"});
    for (std::size_t part = 1; part <= parts; ++part)
        for (const char* head : {"step", "error"})
            table.columns.push_back({head, ColumnKind::figure, "steps", part});
    return table;
}

} // namespace

TEST_CASE("Labels that have room stay where they belong") {
    const std::vector<double> places{10, 50, 90};
    CHECK(spread(places, {20, 20, 20}, 0, 100) == places);
}

TEST_CASE("Labels that collide are moved by equal ways") {
    const auto middles = spread({50, 50}, {10, 10}, 0, 100);
    CHECK(middles[0] == Approx(45));
    CHECK(middles[1] == Approx(55));
}

TEST_CASE("Labels never overlap and never leave the ruler") {
    std::mt19937 random(20260321);
    std::uniform_real_distribution<double> place(0, 480), width(4, 9);
    for (int round = 0; round < 200; ++round) {
        std::vector<double> places(1 + round % 53), widths(places.size());
        std::generate(places.begin(), places.end(), [&] { return place(random); });
        std::generate(widths.begin(), widths.end(), [&] { return width(random); });
        std::sort(places.begin(), places.end());
        check_apart(spread(places, widths, 0, 480), widths, 0, 480);
    }
}

TEST_CASE("Marks stand at ones, fives and tens, as on a ruler") {
    CHECK(mark_interval(8, 53, 12) == 5);
    CHECK(mark_interval(20, 53, 12) == 1);
    CHECK(mark_interval(1.5, 300, 12) == 10);
    CHECK(mark_interval(0.1, 5000, 12) == 500);
    CHECK(mark_interval(8, 17, 12) == 2);
}

TEST_CASE("A wide table is cut into blocks that fit, hold every part once and repeat the number") {
    const ShownTable table = wide_table(12);
    const std::vector<double> widths(table.columns.size(), 30);
    const auto blocks = cut_into_blocks(table, widths, 300);
    CHECK(blocks.size() == 3);
    std::multiset<std::size_t> seen;
    for (const ColumnBlock& block : blocks) {
        CHECK(static_cast<double>(block.size()) * 30 <= 300);
        CHECK(block.front() == 0);
        seen.insert(block.begin(), block.end());
    }
    for (std::size_t i = 1; i < table.columns.size(); ++i)
        CHECK(seen.count(i) == 1);
}

TEST_CASE("A name after the number is repeated with it, where it leaves room") {
    ShownTable table = wide_table(2);
    table.columns.insert(table.columns.begin() + 1, {"Name", ColumnKind::words});
    CHECK(cut_into_blocks(table, {30, 60, 30, 90, 90, 90, 90}, 320)
          == std::vector<ColumnBlock>{{0, 1, 2, 3, 4}, {0, 1, 5, 6}});
    CHECK(cut_into_blocks(table, {30, 110, 30, 60, 60, 60, 60}, 320)
          == std::vector<ColumnBlock>{{0, 1, 2, 3, 4}, {0, 5, 6}});
}

TEST_CASE("A part wider than the page is cut, and a column of it has a block of its own") {
    CHECK(cut_into_blocks(wide_table(2), {30, 30, 200, 150, 400, 30}, 300)
          == std::vector<ColumnBlock>{{0, 1}, {0, 2}, {0, 3}, {0, 4}, {0, 5}});
    CHECK(cut_into_blocks(wide_table(2), {30, 30, 200, 70, 400, 30}, 300)
          == std::vector<ColumnBlock>{{0, 1}, {0, 2, 3}, {0, 4}, {0, 5}});
}

TEST_CASE("The name is left out where only that keeps a part whole") {
    ShownTable table = wide_table(1);
    table.columns.insert(table.columns.begin() + 1, {"Name", ColumnKind::words});
    CHECK(cut_into_blocks(table, {30, 60, 30, 130, 130}, 300)
          == std::vector<ColumnBlock>{{0, 1, 2}, {0, 3, 4}});
    CHECK(cut_into_blocks(table, {30, 60, 30, 100, 100}, 300)
          == std::vector<ColumnBlock>{{0, 1, 2}, {0, 1, 3, 4}});
}

TEST_CASE("What comes before the parts is cut too where it is wider than the page") {
    CHECK(cut_into_blocks(wide_table(0), {100, 250}, 300) == std::vector<ColumnBlock>{{0}, {0, 1}});
}

TEST_CASE("Columns under one heading stay in one block where a block holds them") {
    ShownTable table = wide_table(0);
    table.columns.push_back({"note", ColumnKind::note, "Key"});
    table.columns.push_back({"cents", ColumnKind::figure, "Key"});
    CHECK(cut_into_blocks(table, {30, 190, 60, 60}, 300)
          == std::vector<ColumnBlock>{{0, 1}, {0, 2, 3}});
    CHECK(cut_into_blocks(table, {30, 190, 160, 160}, 300)
          == std::vector<ColumnBlock>{{0, 1}, {0, 2}, {0, 3}});
}

TEST_CASE("A heading spans the columns of its own group and part only") {
    const ShownTable table = wide_table(2);
    CHECK(group_end(table, {0, 1, 2, 3, 4, 5}, 0) == 1); // without a group, a column stands alone
    CHECK(group_end(table, {0, 1, 2, 3, 4, 5}, 2) == 4);
    CHECK(group_end(table, {0, 4, 5}, 1) == 3);
}

TEST_CASE("The table leaves out what nobody gave, and the steps that are the keys") {
    const auto heads = [](const std::string& tonic) {
        ComparisonOptions options;
        options.tonic = tonic;
        std::vector<std::string> all;
        const Page sheet = sheet_page(compare(parse_degrees("3/2", "test"), options));
        for (const Column& c : shown(std::get<Table>(sheet.blocks[2]), {}).columns)
            all.push_back(c.group.empty() ? c.head : c.group + ": " + c.head);
        return all;
    };
    CHECK(heads("D4")
          == std::vector<std::string>{"No.", "Interval", "Cents", "Next",
                                      "Key, deviation: ", "Key, deviation: cents", "53 steps: step",
                                      "53 steps: error"});
    CHECK(heads("D4+20c").size() == 10);
}

TEST_CASE("Paper is known by its name, in any case") {
    CHECK(parse_paper("A4").height == Approx(841.89).margin(0.005)); // ISO 216: 210 mm x 297 mm
    CHECK(parse_paper("letter").width == 612);
    CHECK_THROWS_AS(parse_paper("foolscap"), Error);
}

TEST_CASE("Paper takes six digits, and refuses more") {
    PrintOptions options;
    options.digits = 7;
    const Page sheet = sheet_page(compare(parse_degrees("3/2", "test")));
    CHECK_THROWS_AS(print_pdf(sheet, options), Error);
    CHECK(print_csv(sheet, options).find("701.9550009") != std::string::npos);
}
