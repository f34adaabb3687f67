// Templates at 1:1: what stands on which part.

#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_template.hpp>
#include <sectio/scale/load.hpp>

#include <catch2/catch.hpp>
#include <support/intervals.hpp>

#include <algorithm>

using namespace sectio;

namespace {

/// How many lines go across the neck of each part, `y` mm from its upper edge.
std::vector<std::ptrdiff_t> across(const std::vector<page::Drawing>& parts, double y) {
    std::vector<std::ptrdiff_t> counts;
    for (const page::Drawing& part : parts)
        counts.push_back(
            std::count_if(part.strokes.begin(), part.strokes.end(), [&](const auto& s) {
                return s.x1 == 56 && s.x2 == 109 && std::abs(s.y1 - y) < 1e-9 && s.y2 == s.y1;
            }));
    return counts;
}

} // namespace

TEST_CASE("A fret where two parts of a template meet is on both") {
    // Parts of 200 mm begin 10 mm above the nut and share 20 mm: the second begins at 170 mm, where
    // the octave of a string of 340 mm lies, the first ends at 190 mm.
    const auto parts = template_parts(340);
    REQUIRE(parts.size() == 2);
    CHECK(parts[0].begin == -10);
    CHECK(parts[0].end == 190);
    CHECK(parts[1].begin == 170);
    CHECK(parts[1].end == 350);
    const FretPlan plan = plan_frets(parse_degrees("3/2", "test"),
                                     {{"1/1", Interval(), Length::millimetres(340)}}, {});
    const auto drawings = template_drawings(plan, plan.boards.at(0), Length());
    // Heights begin 20 mm below the edge of the paper.
    CHECK(across(drawings, 20 + 170 + 10) == std::vector<std::ptrdiff_t>{1, 0});  // the octave
    CHECK(across(drawings, 20) == std::vector<std::ptrdiff_t>{0, 1});             // the same
    CHECK(across(drawings, 20 + 10) == std::vector<std::ptrdiff_t>{1, 0});        // the nut
    CHECK(across(drawings, 20 + 340 - 170) == std::vector<std::ptrdiff_t>{0, 1}); // the bridge
    // Where the parts are laid together, no line strikes the octave or its words through.
    for (const page::Drawing& part : drawings) {
        const double octave = &part == &drawings[0] ? 20 + 170 + 10 : 20;
        const auto is_joint = [](const auto& s) { return s.x1 == 30 && s.y1 == s.y2; };
        CHECK(std::count_if(part.strokes.begin(), part.strokes.end(), is_joint) == 2);
        for (const auto& s : part.strokes)
            if (is_joint(s))
                CHECK(std::abs(s.y1 - octave) >= 3);
    }
}

TEST_CASE("Parts of a template cover every string with a margin, each as long as paper bears") {
    for (const double length : {10.0, 180.0, 180.5, 340.0, 620.0, 1500.0}) {
        CAPTURE(length);
        const auto parts = template_parts(length);
        CHECK(parts.front().begin == -10);
        CHECK(parts.back().end == Approx(length + 10));
        for (std::size_t i = 0; i < parts.size(); ++i) {
            CHECK(parts[i].end - parts[i].begin <= 200);
            CHECK(parts[i].end > parts[i].begin);
            if (i > 0)
                CHECK(parts[i].begin == Approx(parts[i - 1].end - template_overlap));
        }
    }
    CHECK(template_parts(180).size() == 1);
    CHECK(template_parts(180.5).size() == 2);
}
