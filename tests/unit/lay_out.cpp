// What stands on which page, and in which size of type.

#include <sectio/print/laid_table.hpp>
#include <sectio/print/lay_out.hpp>
#include <sectio/print/page_pen.hpp>
#include <sectio/print/page_table.hpp>
#include <sectio/print/shown_table.hpp>
#include <sectio/print/styles.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <algorithm>

using namespace sectio::page;

namespace {

Table table(std::size_t rows, const std::string& name = "short") {
    std::vector<std::size_t> numbers(rows);
    for (std::size_t i = 0; i < rows; ++i)
        numbers[i] = i + 1;
    Table t{"rows", "", {}, {}};
    t.add(numbers, Column{"No.", ColumnKind::key}.keyed("number"),
          [](std::size_t n) { return count(n); });
    t.add(numbers, Column{"Name", ColumnKind::words}.keyed("name"),
          [&](std::size_t) { return name; });
    return t;
}

Paragraphs notes(int paragraphs) {
    Paragraphs all;
    for (int i = 0; i < paragraphs; ++i)
        all.paragraphs.push_back({Role::note, fmt::format("Note {}.", i)});
    return all;
}

TypesetDocument laid(std::vector<Block> blocks, bool large = false,
                     const sectio::Paper& paper = sectio::a4_paper) {
    Page page;
    page.title = "Leaves";
    page.blocks = std::move(blocks);
    PrintOptions options;
    options.large = large;
    options.paper = paper;
    return lay_out(page, options);
}

/// Distance of the first rules below rows: with one line a row it says the size of type.
double row_pitch(const TypesetDocument& document) {
    std::vector<double> rules;
    for (const Stroke& s : document.pages.front().strokes)
        if (s.width < 0.4)
            rules.push_back(s.y1);
    REQUIRE(rules.size() > 1);
    return rules[1] - rules[0];
}

} // namespace

TEST_CASE("Words after a table make its type smaller, so that they stay on its page") {
    const double alone = row_pitch(laid({table(20)}));
    const TypesetDocument with_words = laid({table(20), notes(25)});
    CHECK(row_pitch(with_words) < 0.95 * alone);
    CHECK(with_words.pages.size() == 1);
    // More than any type makes room for go on the next page, and the type is large again.
    const TypesetDocument too_many = laid({table(20), notes(60)});
    CHECK(row_pitch(too_many) == Approx(alone));
    CHECK(too_many.pages.size() == 2);
}

TEST_CASE("On lying paper words stand beside a table, which keeps its large type") {
    const TypesetDocument alone = laid({table(8)}, false, sectio::card_paper);
    const TypesetDocument card = laid({table(8), notes(24)}, false, sectio::card_paper);
    CHECK(row_pitch(card) == Approx(row_pitch(alone)));
    CHECK(card.pages.size() == 1);
    const auto& texts = card.pages.front().texts;
    CHECK(std::count_if(texts.begin(), texts.end(),
                        [&](const auto& text) {
                            return text.x > card.width / 10 && text.y > card.height / 8
                                   && text.x + text.text.width() < card.width;
                        })
          >= 24);
    // Below it goes on over the whole width.
    const TypesetDocument more =
        laid({table(8), notes(24), NewPage{"Next"}, notes(1)}, false, sectio::card_paper);
    CHECK(more.pages.back().texts.size() > 2);
    CHECK(row_pitch(more) == Approx(row_pitch(alone)));
}

TEST_CASE("Rows stand closer before a few words take a page of their own") {
    constexpr double usual = 15.7; // of 9.5 points, the smallest type of a table
    double closest = usual;
    for (int count = 15; count < 35; ++count)
        if (const TypesetDocument document = laid({table(24), notes(count)});
            document.pages.size() == 1)
            closest = std::min(closest, row_pitch(document));
    CHECK(closest < 0.95 * usual);
}

TEST_CASE("A last page that a few words would have takes the table above them along") {
    const auto depth = [](const TypesetDocument& document) { // of what stands above the foot
        double low = 0;
        for (const PlacedText& t : document.pages.back().texts)
            low = std::max(low, t.y < document.height - 60 ? t.y : 0);
        return low / document.height;
    };
    int with_table = 0;
    for (const auto& paper : {sectio::a4_paper, sectio::card_paper})
        for (int count = 1; count < 20; ++count) {
            const TypesetDocument document = laid({table(30), table(4), notes(count)}, true, paper);
            CAPTURE(count, document.width);
            if (document.pages.size() > 1)
                CHECK(depth(document) > 0.25);
            const auto& strokes = document.pages.back().strokes;
            with_table += std::count_if(strokes.begin(), strokes.end(),
                                        [](const Stroke& s) { return s.width == 0.3; })
                                  == 4
                              ? 1
                              : 0;
        }
    CHECK(with_table > 0);
}

TEST_CASE("A page from which a table goes on is full") {
    PagePen pen(Page{}, sectio::a4_paper, "");
    const Styles usual = styles(false);
    LaidTable laid(shown(table(200, std::string(90, 'w')), {}), pen, usual, usual.comfortable);
    laid.draw(laid.following());
    pen.finish();
    REQUIRE(pen.filled().size() > 2);
    for (std::size_t page = 0; page + 1 < pen.filled().size(); ++page)
        CHECK(pen.filled()[page] > 0.5);
    CHECK(pen.filled().back() > 0.1);
}

TEST_CASE("Words of the next part count for no table before it") {
    const double alone = row_pitch(laid({table(20)}));
    const TypesetDocument parts = laid({table(20), NewPage{"Next"}, notes(25)});
    CHECK(row_pitch(parts) == Approx(alone));
    CHECK(parts.pages.size() == 2);
}

TEST_CASE("A part that has room begins below the one before, another on its own page") {
    const TypesetDocument below = laid({table(5), NewPage{"Next"}, table(5)});
    CHECK(below.pages.size() == 1);
    REQUIRE(below.outline.size() == 2);
    CHECK(below.outline[1].text == "Next");
    CHECK(below.outline[1].page == 1);
    const TypesetDocument own = laid({table(20), NewPage{"Next"}, table(20)});
    CHECK(own.pages.size() == 2);
    CHECK(own.outline.at(1).page == 2);
    // One that takes several pages does not want the first of them whole.
    const TypesetDocument long_one = laid({table(5), NewPage{"Next"}, notes(120)});
    CHECK(long_one.outline.at(1).page == 1);
    CHECK(laid({table(20), NewPage{"Next"}, notes(120)}).outline.at(1).page == 2);
}

TEST_CASE("A long narrow table stands in columns, a short one does not") {
    const auto lefts = [](const TypesetDocument& document) {
        std::vector<double> all;
        for (const Stroke& s : document.pages.front().strokes)
            all.push_back(s.x1);
        std::sort(all.begin(), all.end());
        all.erase(std::unique(all.begin(), all.end()), all.end());
        return all.size();
    };
    CHECK(lefts(laid({table(25)})) == 1);
    CHECK(lefts(laid({table(25), notes(20)})) == 1); // a smaller type rather than columns
    const TypesetDocument many = laid({table(84)});
    CHECK(lefts(many) > 1);
    CHECK(many.pages.size() == 1);
    // The columns of a table that fills the width end where a single one would.
    const auto right = [](const TypesetDocument& document) {
        double farthest = 0;
        for (const Stroke& s : document.pages.front().strokes)
            farthest = std::max({farthest, s.x1, s.x2});
        return farthest;
    };
    const double whole = right(laid({table(25, std::string(200, 'i'))}));
    CHECK(right(laid({table(120, std::string(30, 'm'))})) <= whole + 0.1);
}

TEST_CASE("Each block of a table says which row it is: by its key, or by its first words") {
    const Column mark{"", ColumnKind::words}, name{"Scale", ColumnKind::words}, number{"RMS"};
    const auto blocks = [](std::vector<Column> columns, const std::vector<double>& widths) {
        return cut_into_blocks({std::move(columns), {}}, widths, 100);
    };
    using Blocks = std::vector<ColumnBlock>;
    CHECK(blocks({mark, name, number, number}, {3, 50, 40, 40}) == Blocks{{0, 1, 2}, {1, 3}});
    CHECK(blocks({mark, name, number, number}, {3, 51, 40, 40}) == Blocks{{0, 1, 2}, {3}});
    const Column key{"No.", ColumnKind::key};
    CHECK(blocks({key, name, number, number}, {5, 50, 40, 40}) == Blocks{{0, 1, 2}, {0, 3}});
    const Column named{"Name", ColumnKind::words};
    CHECK(blocks({key, named, number, number}, {5, 30, 40, 40}) == Blocks{{0, 1, 2}, {0, 1, 3}});
}

TEST_CASE("Type is made smaller before a table is cut into blocks, as far as it reads well") {
    const auto blocks = [](std::size_t columns) {
        Table wide = table(5);
        for (std::size_t i = 0; i < columns; ++i) {
            Column column{"C♯", ColumnKind::note, "from the tonic", 1};
            wide.columns.push_back(std::move(column));
            for (Row& row : wide.rows)
                row.cells.emplace_back(std::string("B♭4"));
        }
        const TypesetDocument document = laid({wide});
        const auto& strokes = document.pages.front().strokes;
        return std::count_if(strokes.begin(), strokes.end(),
                             [](const Stroke& s) { return s.width == 0.8; });
    };
    CHECK(blocks(6) == 1);
    CHECK(blocks(11) == 1); // at 14 points it would be two
    CHECK(blocks(16) == 2);
}

TEST_CASE("A title is made smaller and broken, not cut") {
    const auto height = [](const std::string& title) {
        Page page;
        page.title = title;
        const TypesetDocument document = lay_out(page, {});
        return document.pages.front().texts.front().text.height();
    };
    std::string title;
    for (int i = 0; i < 40; ++i)
        title += "scales and ";
    const double one = height("Rast");
    CHECK(height(title) > 3 * 0.7 * one);
    title += title;
    CHECK(height(title) > 6 * 0.6 * one);
}

TEST_CASE("Widths are cut only where there is less room than they take") {
    CHECK(levelled({30}, {1}, 30) == std::vector<double>{30});
    const auto cut = levelled({10, 30}, {1, 1}, 30);
    CHECK(cut[0] == Approx(10));
    CHECK(cut[1] == Approx(20));
    CHECK(levelled({10, 30}, {1, 25}, 30)[1] == Approx(25));
}

TEST_CASE("A matrix is set tight where all its columns then stand side by side") {
    const auto blocks = [](std::size_t columns) {
        Table wide = table(5);
        for (std::size_t i = 0; i < columns; ++i) {
            Column column{"C♯", ColumnKind::note, "", i + 1};
            wide.columns.push_back(std::move(column));
            for (Row& row : wide.rows)
                row.cells.emplace_back(std::string("B♭4"));
        }
        const TypesetDocument document = laid({wide});
        std::ptrdiff_t heads = 0;
        for (const auto& page : document.pages)
            heads += std::count_if(page.strokes.begin(), page.strokes.end(),
                                   [](const Stroke& s) { return s.width == 0.8; });
        return heads;
    };
    for (std::size_t columns = 8; columns <= 21; ++columns)
        CHECK(blocks(columns) == 1);
    CHECK(blocks(22) == 2);
}
