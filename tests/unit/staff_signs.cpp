// Signs of accidentals that are drawn by strokes.

#include <sectio/print/print.hpp>
#include <sectio/sheet/staff_signs.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <regex>
#include <string>
#include <utility>
#include <vector>

using namespace sectio;

namespace {

struct Drawn {
    page::Drawing drawing;
    double width = 0;
};

Drawn sign(const char* name, double right, double y) {
    Drawn drawn;
    drawn.width = StaffPen(drawn.drawing).sign(*score::sign_named(name), right, y);
    return drawn;
}

} // namespace

TEST_CASE("Sharps of several stems and bars stand about their line, with bars that rise") {
    const auto [name, stems, bars] =
        GENERATE(table<const char*, int, int>({{"quarter-sharp", 1, 2},
                                               {"slash-quarter-sharp", 1, 3},
                                               {"slash-sharp", 2, 3},
                                               {"three-quarters-sharp", 3, 2}}));
    CAPTURE(name);
    const Drawn drawn = sign(name, 50, 20);
    int upright = 0, rising = 0;
    double stem_heights = 0, bar_heights = 0;
    for (const auto& s : drawn.drawing.strokes) {
        if (s.x1 == s.x2) {
            ++upright;
            stem_heights += (s.y1 + s.y2) / 2 - 20;
            CHECK(s.x1 < 50);
            CHECK(s.x1 > 50 - drawn.width);
        } else {
            ++rising;
            bar_heights += (s.y1 + s.y2) / 2 - 20;
            CHECK(s.x1 == Approx(50 - drawn.width));
            CHECK(s.x2 == Approx(50));
            CHECK((s.y1 - s.y2) / drawn.width == Approx(0.25)); // y grows downwards
        }
    }
    CHECK(upright == stems);
    CHECK(rising == bars);
    CHECK(stem_heights == Approx(0).margin(1e-9));
    CHECK(bar_heights == Approx(0).margin(1e-9));
}

TEST_CASE("A flat is mirrored for a quarter tone, and crossed by its slashes") {
    const auto marks = [](const char* name) {
        const Drawn drawn = sign(name, 50, 20);
        int mirrored = 0;
        for (const auto& label : drawn.drawing.labels)
            mirrored += label.mirrored ? 1 : 0;
        return std::to_string(drawn.drawing.labels.size()) + " glyphs, " + std::to_string(mirrored)
               + " mirrored, " + std::to_string(drawn.drawing.strokes.size()) + " strokes";
    };
    CHECK(marks("flat") == "1 glyphs, 0 mirrored, 0 strokes");
    CHECK(marks("quarter-flat") == "1 glyphs, 1 mirrored, 0 strokes");
    CHECK(marks("three-quarters-flat") == "2 glyphs, 1 mirrored, 0 strokes");
    CHECK(marks("slash-flat") == "1 glyphs, 0 mirrored, 1 strokes");
    CHECK(marks("double-slash-flat") == "1 glyphs, 0 mirrored, 2 strokes");
}

namespace {

/// Left and right ends of every glyph of a page with a flat, from its own origin.
std::vector<std::pair<double, double>> glyph_ends(bool mirrored) {
    page::Drawing drawing;
    drawing.width = 50, drawing.height = 20;
    page::Drawing::Label flat{20, 10, "♭", 40};
    flat.music = true, flat.mirrored = mirrored;
    drawing.labels.push_back(flat);
    page::Page page;
    page.blocks.emplace_back(std::move(drawing));
    const std::string svg = print_svg(page);
    std::vector<std::pair<double, double>> all;
    static const std::regex outline("<(?:symbol|g id=\"glyph)[^>]*>\\s*<path[^>]* d=\"([^\"]*)\""),
        point("(-?[0-9.]+) (-?[0-9.]+)");
    for (std::sregex_iterator g(svg.begin(), svg.end(), outline), end; g != end; ++g) {
        const std::string path = (*g)[1];
        std::pair<double, double> ends{1e9, -1e9};
        for (std::sregex_iterator p(path.begin(), path.end(), point); p != end; ++p) {
            const double x = std::stod((*p)[1]);
            ends = {std::min(ends.first, x), std::max(ends.second, x)};
        }
        all.push_back(ends);
    }
    return all;
}

} // namespace

TEST_CASE("A mirrored sign is as wide as the sign, left for right") {
    const auto plain = glyph_ends(false), mirrored = glyph_ends(true);
    REQUIRE(plain.size() == mirrored.size());
    int turned = 0;
    for (std::size_t i = 0; i < plain.size(); ++i)
        if (std::abs(plain[i].first - mirrored[i].first) > 0.01) {
            ++turned;
            CHECK(mirrored[i].first == Approx(-plain[i].second).margin(0.01));
            CHECK(mirrored[i].second == Approx(-plain[i].first).margin(0.01));
        }
    CHECK(turned > 0);
}
