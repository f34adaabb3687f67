// Drawings of true size on pages of paper: what each page shows, and where.
//
// A4 has 172 mm between its margins of 24 and 14 mm, and neighbouring pages share 10 mm; so page
// k shows the drawing from 162 k mm to 162 k + 172 mm.

#include <sectio/print/lay_out.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <optional>

using namespace sectio;
using namespace sectio::page;

namespace {

constexpr double mm = points_of_mm(1);
constexpr double mark = 1.25; ///< the width of the strokes looked for, in millimetres

Drawing of_size(double width, double height) {
    Drawing drawing;
    drawing.width = width, drawing.height = height;
    drawing.true_size = true;
    return drawing;
}

TypesetDocument laid(const Drawing& drawing) {
    Page page;
    page.title = "Leaves";
    page.blocks = {drawing};
    return lay_out(page, {});
}

/// The pages one after the other, those in a row before those below: the marked strokes of each.
/// Leaves in one row are on paper of their own.
std::vector<std::vector<Stroke>> marked(const Drawing& drawing) {
    std::vector<std::vector<Stroke>> pages;
    for (const TypesetPage& sheet : laid(drawing).pages) {
        pages.emplace_back();
        for (const Stroke& s : sheet.strokes)
            if (std::abs(s.width - mark * mm) < 1e-9)
                pages.back().push_back(s);
    }
    return pages;
}

void check_stroke(const Stroke& s, double x1, double y1, double x2, double y2) {
    CHECK(s.x1 / mm == Approx(x1).margin(1e-6));
    CHECK(s.y1 / mm == Approx(y1).margin(1e-6));
    CHECK(s.x2 / mm == Approx(x2).margin(1e-6));
    CHECK(s.y2 / mm == Approx(y2).margin(1e-6));
}

std::vector<double> dashed(const TypesetPage& sheet) {
    std::vector<double> at;
    for (const Stroke& s : sheet.strokes)
        if (s.dash > 0)
            at.push_back(s.x1 / mm);
    return at;
}

} // namespace

TEST_CASE("A wide drawing goes on from page to page with 10 mm in common") {
    Drawing drawing = of_size(400, 200);
    drawing.strokes = {{0, 50, 400, 50, mark}};
    const auto pages = marked(drawing);
    REQUIRE(pages.size() == 3); // 172 + 162 are 334 mm, another 162 more than enough
    for (const auto& page : pages)
        REQUIRE(page.size() == 1);
    const double top = pages[1][0].y1 / mm;
    check_stroke(pages[0][0], 24, pages[0][0].y1 / mm, 24 + 172, pages[0][0].y1 / mm);
    check_stroke(pages[1][0], 24, top, 24 + 172, top);
    check_stroke(pages[2][0], 24, top, 24 + 400 - 324, top);
}

TEST_CASE("A drawing as wide as the paper is one page, and a little wider two") {
    CHECK(laid(of_size(172, 200)).pages.size() == 1);
    CHECK(laid(of_size(172.1, 200)).pages.size() == 2);
    Drawing drawing = of_size(334, 200);
    drawing.strokes = {{0, 50, 334, 50, mark}};
    CHECK(marked(drawing).size() == 2);
    drawing.width = 334.1;
    CHECK(marked(drawing).size() == 3);
}

TEST_CASE("Joining lines stand where the neighbour begins and where it ends") {
    const TypesetDocument document = laid(of_size(400, 200));
    REQUIRE(document.pages.size() == 3);
    const auto check = [](std::vector<double> found, const std::vector<double>& wanted) {
        REQUIRE(found.size() == wanted.size());
        for (std::size_t i = 0; i < found.size(); ++i)
            CHECK(found[i] == Approx(wanted[i]));
    };
    check(dashed(document.pages[0]), {24 + 172});
    check(dashed(document.pages[1]), {24 + 10, 24 + 172});
    check(dashed(document.pages[2]), {24 + 10});
}

TEST_CASE("What lies outside a page is not on it, though its ends are on both sides") {
    Drawing drawing = of_size(334, 200);
    drawing.strokes = {{171, -10, 190, 5, mark},  // passes by the upper right corner of page 1
                       {250, 30, 250, 60, mark},  // upright, on page 2 alone
                       {100, 150, 200, 50, mark}, // slanting, on both
                       {30, 70, 30, 20, mark}};   // upright, from below, on page 1 alone
    drawing.dots = {{172, 80, 2}, {172.01, 90, 2}, {161.99, 100, 2}, {334, 110, 2}};
    const TypesetDocument document = laid(drawing);
    const auto pages = marked(drawing);
    REQUIRE(pages.size() == 2);
    REQUIRE(pages[0].size() == 2);
    REQUIRE(pages[1].size() == 3);
    // The slanting one at x = 172 is at 78 of 150 … 50, at x = 162 at 88.
    const double first = pages[0][1].y1 / mm - 70, second = pages[1][1].y1 / mm - 30;
    check_stroke(pages[0][0], 24 + 100, first + 150, 24 + 172, first + 78);
    check_stroke(pages[0][1], 24 + 30, first + 70, 24 + 30, first + 20);
    // The first one enters page 2 at the upper edge, two thirds of its way.
    check_stroke(pages[1][0], 24 + 171 + 19 * 2 / 3.0 - 162, second, 24 + 190 - 162, second + 5);
    check_stroke(pages[1][1], 24 + 250 - 162, second + 30, 24 + 250 - 162, second + 60);
    check_stroke(pages[1][2], 24, second + 88, 24 + 200 - 162, second + 50);
    REQUIRE(document.pages[0].dots.size() == 2);
    CHECK(document.pages[0].dots[0].x / mm == Approx(24 + 172));
    CHECK(document.pages[0].dots[0].y / mm == Approx(first + 80));
    CHECK(document.pages[0].dots[1].y / mm == Approx(first + 100));
    REQUIRE(document.pages[1].dots.size() == 3);
    CHECK(document.pages[1].dots[0].x / mm == Approx(24 + 172 - 162));
    CHECK(document.pages[1].dots[2].x / mm == Approx(24 + 172));
}

TEST_CASE("A high drawing goes on below, and a stroke is on the pages it touches") {
    Drawing drawing = of_size(100, 400);
    drawing.strokes = {{20, 0, 20, 400, mark}, {0, 300, 100, 300, mark}, {0, 100, 100, 100, mark}};
    auto pages = marked(drawing);
    REQUIRE(pages.size() == 3);
    CHECK(pages[0].empty()); // the title takes what a whole page needs
    pages.erase(pages.begin());
    REQUIRE(pages[0].size() == 2);
    REQUIRE(pages[1].size() == 2);
    const double shown = (pages[0][0].y2 - pages[0][0].y1) / mm;
    CHECK(shown > 230); // of the 267 mm between the margins, less the page's head and foot
    CHECK(shown < 260);
    CHECK((pages[1][0].y2 - pages[1][0].y1) / mm == Approx(400 - shown + 10));
    CHECK((pages[0][1].y1 - pages[0][0].y1) / mm == Approx(100));
    CHECK((pages[1][1].y1 - pages[1][0].y1) / mm == Approx(300 - (shown - 10)));
    check_stroke(pages[1][1], 24, pages[1][1].y1 / mm, 124, pages[1][1].y1 / mm);
}

TEST_CASE("Labels stand with their anchor at their place, on the page that has it") {
    Drawing drawing = of_size(334, 200);
    using Anchor = Drawing::Anchor;
    drawing.labels = {{100, 50, "Sundhall", 9, Anchor::left},
                      {100, 80, "Sundhall", 9, Anchor::middle},
                      {100, 110, "Sundhall", 9, Anchor::right},
                      {300, 50, "Sundhall", 9, Anchor::left}};
    const TypesetDocument document = laid(drawing);
    REQUIRE(document.pages.size() == 2);
    const auto labels = [&](std::size_t page) {
        std::vector<PlacedText> found;
        const double width = Typesetter().line("Sundhall", {9}).width();
        for (const PlacedText& text : document.pages[page].texts)
            if (std::abs(text.text.width() - width) < 1e-6)
                found.push_back(text);
        return found;
    };
    const auto on_first = labels(0), on_second = labels(1);
    REQUIRE(on_first.size() == 3);
    REQUIRE(on_second.size() == 1);
    const double width = on_first[0].text.width(), at = points_of_mm(124);
    CHECK(on_first[0].x == Approx(at));
    CHECK(on_first[1].x == Approx(at - width / 2));
    CHECK(on_first[2].x == Approx(at - width));
    CHECK((on_first[1].y - on_first[0].y) / mm == Approx(30));
    CHECK(on_second[0].x / mm == Approx(24 + 300 - 162));
}

TEST_CASE("A stroke along the edge of the drawing is on its page") {
    Drawing drawing = of_size(100, 100);
    drawing.strokes = {{0, 10, 0, 60, mark}, {10, 0, 60, 0, mark}};
    const auto pages = marked(drawing);
    REQUIRE(pages.size() == 1);
    CHECK(pages[0].size() == 2);
}
