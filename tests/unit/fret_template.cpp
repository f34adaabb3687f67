// Templates at 1:1: what stands on which part.

#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/instrument/fret_template.hpp>
#include <sectio/instrument/measured_frets.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/load.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
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
    const auto drawings = template_drawings(plan, plan.boards.at(0));
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

TEST_CASE("Each string of an instrument file has its own saddle on the template") {
    const auto sheet = [](const std::string& of_b, const std::string& asked = "") {
        FretRequest request;
        request.instrument = read_instrument_file(
            "name = \"x\"\ncompensation = \"3 mm\"\nstrings = [\n"
            "{ name = \"a\", open = \"A4\", length = \"424 mm\" },\n"
            "{ name = \"b\", open = \"D4\", length = \"424 mm\", compensation = \""
                + of_b + "\" } ]\n",
            "x");
        if (!asked.empty())
            request.compensation = parse_length(asked, {});
        return fret_sheet(parse_degrees("9/8, 3/2", "test"), request);
    };
    const auto says = [](const FretSheet& of, const std::string& words) {
        return print_text(fret_page(of), {}).find(words) != std::string::npos;
    };
    CHECK(says(sheet("5 mm"), "  3 mm (a), 5 mm (b): the saddle"));
    CHECK(says(sheet("3 mm"), "  3 mm: the saddle"));
    CHECK(says(sheet("5 mm", "1 mm"), "  1 mm: the saddle"));
    CHECK_FALSE(says(sheet("5 mm", "0 mm"), "Compensation"));
    // The strings end at their saddles.
    const FretSheet both = sheet("-2 mm");
    const auto drawings = template_drawings(both.plan, both.plan.boards.at(0));
    const double begin = template_parts(427).back().begin;
    std::vector<double> ends;
    for (const auto& s : drawings.back().strokes)
        if (s.x1 == s.x2 && s.x1 > 50 && s.x1 < 120)
            ends.push_back(std::max(s.y1, s.y2) - 20 + begin);
    std::sort(ends.begin(), ends.end());
    REQUIRE(ends.size() == 2);
    CHECK(ends[0] == Approx(422));
    CHECK(ends[1] == Approx(427));
}

TEST_CASE("A saddle stands within a tenth of the string's length") {
    const auto refusal = [](const char* compensation) {
        FretRequest request;
        request.length = Length::millimetres(620);
        request.compensation = parse_length(compensation, {});
        return support::name_of(
            support::error_of([&] { fret_sheet(parse_degrees("3/2", "test"), request); }));
    };
    for (const char* within : {"62mm", "-62mm", "0mm"})
        CHECK(refusal(within) == "no error");
    for (const char* beyond : {"62.001mm", "-62.001mm", "-700mm", "99999m"})
        CHECK(refusal(beyond) == "compensation_too_far");
    MeasuredString string;
    string.length = {Length::millimetres(620), std::nullopt, Basis::ruler};
    string.compensation = Length::millimetres(63);
    const FretReading fret{"", {Length::millimetres(60), std::nullopt, Basis::ruler}, {}, {}};
    CHECK(support::name_of(support::error_of([&] { measure_frets(string, {fret}); }))
          == "compensation_too_far");
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
