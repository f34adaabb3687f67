// How wide and how high a text is said to be, and where it is broken.

#include <sectio/print/typeset_pages.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sectio::page;

namespace {

constexpr const char* words = "Rast Dügâh Segâh Çârgâh";

} // namespace

TEST_CASE("A text is broken where it is wider than the width, at any size") {
    Typesetter type;
    for (const double size : {5.0, 10.0, 20.0, 14.3}) {
        const TextStyle style{size};
        const double whole = type.line(words, style).width();
        INFO(size);
        CHECK(type.lines(words, style, whole + 0.05).size() == 1);
        CHECK(type.lines(words, style, whole - 0.5).size() == 2);
        CHECK(type.wrapped(words, style, whole, 3).height()
              == Approx(type.line("0", style).height()).margin(0.01));
        CHECK(type.lines(words, style, whole / 2).front().find("Segâh") == std::string::npos);
    }
}

TEST_CASE("A broken text is as wide as its widest line and as high as its lines") {
    Typesetter type;
    for (const double size : {10.0, 23.0}) {
        const TextStyle style{size};
        const double width = type.line(words, style).width() * 0.6;
        const auto lines = type.lines(words, style, width);
        double widest = 0;
        for (std::string line : lines) {
            while (line.ends_with(' '))
                line.pop_back();
            widest = std::max(widest, type.line(line, style).width());
        }
        const TypesetText set = type.wrapped(words, style, width, 9);
        INFO(size);
        REQUIRE(lines.size() == 2);
        CHECK(set.width() == Approx(widest).margin(0.03 * size));
        CHECK(set.width() <= width);
        CHECK(set.height() == Approx(2 * type.line("0", style).height()).epsilon(0.02));
        CHECK(set.baseline() == Approx(type.line("0", style).baseline()).epsilon(0.02));
    }
}

TEST_CASE("What goes beyond the most lines ends with an ellipsis within the width") {
    Typesetter type;
    const TextStyle style{10};
    const double width = type.line("Rast Dügâh", style).width();
    const TypesetText cut = type.clipped(words, style, width);
    CHECK(cut.width() <= width + 0.01);
    CHECK(cut.width() > width / 2);
    CHECK(cut.height() == Approx(type.line("0", style).height()).epsilon(0.05));
}
