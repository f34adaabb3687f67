// Which rows of a table stand in which column of which page.

#include <sectio/print/split_rows.hpp>

#include <catch2/catch.hpp>

using namespace sectio::page;

namespace {

std::vector<std::size_t> ends(const std::vector<RowRange>& ranges) {
    std::vector<std::size_t> all;
    std::size_t begin = 0;
    for (const RowRange& range : ranges) {
        CHECK(range.begin == begin);
        CHECK(range.end > range.begin);
        begin = range.end;
        all.push_back(range.end);
    }
    return all;
}

std::vector<double> rows(std::size_t count, double height = 10) {
    return std::vector<double>(count, height);
}

using Ends = std::vector<std::size_t>;

} // namespace

TEST_CASE("Rows that fit stay together, and fill their page exactly") {
    CHECK(ends(split_rows(rows(10), 1, 100, 100)) == Ends{10});
    CHECK(ends(split_rows(rows(20), 1, 100, 100)) == Ends{10, 20});
    CHECK(ends(split_rows(rows(19), 1, 50, 100)) == Ends{5, 15, 19});
    CHECK(split_rows({}, 2, 100, 100).empty());
}

TEST_CASE("A last page that would be nearly empty shares the rows of the one before") {
    CHECK(ends(split_rows(rows(11), 1, 100, 100)) == Ends{6, 11});
    CHECK(ends(split_rows(rows(13), 1, 100, 100)) == Ends{7, 13});
    // A third of a page is enough.
    CHECK(ends(split_rows(rows(14), 1, 100, 100)) == Ends{10, 14});
    CHECK(ends(split_rows(rows(12), 1, 90, 90)) == Ends{9, 12});
    // The first page bears no more than its room.
    CHECK(ends(split_rows(rows(3), 1, 10, 100)) == Ends{1, 3});
    CHECK(ends(split_rows(rows(22), 1, 100, 100)) == Ends{10, 16, 22});
}

TEST_CASE("Columns beside one another are level on the last page and full on the others") {
    CHECK(ends(split_rows(rows(10), 2, 100, 100)) == Ends{5, 10});
    CHECK(ends(split_rows(rows(11), 2, 100, 100)) == Ends{6, 11});
    CHECK(ends(split_rows(rows(25), 2, 100, 100)) == Ends{10, 20, 23, 25});
    CHECK(ends(split_rows(rows(30), 3, 40, 100)) == Ends{4, 8, 12, 18, 24, 30});
    // A high row counts by its height.
    CHECK(ends(split_rows({50, 10, 10, 10, 10, 10}, 2, 100, 100)) == Ends{1, 6});
}

TEST_CASE("A row that is higher than a page stands alone") {
    CHECK(ends(split_rows({10, 300, 10}, 1, 100, 100)) == Ends{1, 2, 3});
    CHECK(height_of({1, 3}, {10, 300, 10}) == 310);
}
