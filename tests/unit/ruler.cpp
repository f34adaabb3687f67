// The ruler on a page: every mark in its place, and no two of its numbers over one another.

#include <sectio/print/ruler.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <map>

using namespace sectio::page;

namespace {

constexpr double left = 20, width = 480;

TypesetPage drawn(const Ruler& ruler) {
    Typesetter type;
    TypesetPage page;
    CHECK(draw_ruler(ruler, type, page, left, 30, width) > 0);
    return page;
}

Ruler ruler(Ruler::Line line) {
    Ruler made;
    made.marks = {{0, "1", "low"}, {0.5, "2", "mid"}, {0.9, "3", "high"}};
    made.lines = {std::move(line)};
    return made;
}

/// Places of the strokes of this width, from left to right, each once.
std::vector<double> upright(const TypesetPage& page, double stroke_width) {
    std::vector<double> places;
    for (const Stroke& s : page.strokes)
        if (s.x1 == s.x2 && s.width == stroke_width)
            places.push_back(s.x1);
    std::sort(places.begin(), places.end());
    places.erase(std::unique(places.begin(), places.end()), places.end());
    return places;
}

/// The middles of the numbers above the rule: what stands highest, but for the heading at the left.
std::vector<double> numbers(const TypesetPage& page) {
    double top = 1e9;
    for (const auto& t : page.texts)
        top = std::min(top, t.y + t.text.baseline());
    std::vector<double> middles;
    for (const auto& t : page.texts)
        if (t.x > left + 1 && std::abs(t.y + t.text.baseline() - top) < 0.1)
            middles.push_back(t.x + t.text.width() / 2);
    std::sort(middles.begin(), middles.end());
    return middles;
}

void check_apart(const TypesetPage& page) {
    std::map<long, std::vector<std::pair<double, double>>> lines; // by baseline
    for (const auto& t : page.texts) {
        CHECK(t.x >= left);
        CHECK(t.x + t.text.width() <= left + width);
        lines[std::lround(t.y + t.text.baseline())].push_back({t.x, t.x + t.text.width()});
    }
    for (auto& [y, texts] : lines) {
        std::sort(texts.begin(), texts.end());
        for (std::size_t i = 1; i < texts.size(); ++i)
            CHECK(texts[i - 1].second < texts[i].first);
    }
}

} // namespace

TEST_CASE("A ruler of equal steps has them all, numbered where there is room") {
    for (const long count : {5L, 12L, 53L, 171L}) {
        CAPTURE(count);
        const TypesetPage page =
            drawn(ruler({std::to_string(count), 1.0 / static_cast<double>(count), count}));
        check_apart(page);
        const auto numbered = upright(page, 0.8);
        const auto middles = numbers(page);
        REQUIRE(numbered.size() >= 2);
        REQUIRE(middles.size() == numbered.size());
        for (std::size_t i = 0; i < numbered.size(); ++i)
            CHECK(middles[i] == Approx(numbered[i]).margin(3));
        // The numbered ones are equally many steps apart, but for the last.
        const double whole = numbered.back() - numbered.front();
        for (std::size_t i = 2; i + 1 < numbered.size(); ++i)
            CHECK(numbered[i] - numbered[i - 1] == Approx(numbered[1] - numbered[0]));
        if (count <= 53) {
            const auto short_ticks = upright(page, 0.5);
            for (long k = 0; k <= count; ++k) {
                const double x =
                    numbered.front() + whole * static_cast<double>(k) / static_cast<double>(count);
                CHECK(std::any_of(short_ticks.begin(), short_ticks.end(),
                                  [&](double tick) { return std::abs(tick - x) < 0.01; }));
            }
        }
        if (count <= 12)
            CHECK(numbered.size() == static_cast<std::size_t>(count) + 1);
        else
            CHECK(numbered.size() < static_cast<std::size_t>(count) + 1);
    }
}

TEST_CASE("Unequal marks are numbered in their places, but for those without room") {
    const std::vector<double> wide{0, 0.2, 0.45, 0.8, 1};
    const TypesetPage all = drawn(ruler({"Well tempered", 0, 0, {}, wide}));
    check_apart(all);
    const auto middles = numbers(all);
    const auto numbered = upright(all, 0.8);
    REQUIRE(middles.size() == wide.size());
    REQUIRE(numbered.size() == wide.size());
    for (std::size_t i = 0; i < wide.size(); ++i) {
        CHECK(numbered[i]
              == Approx(numbered[0] + wide[i] * (numbered.back() - numbered[0])).margin(0.01));
        CHECK(middles[i] == Approx(numbered[i]).margin(3));
    }
    const TypesetPage close = drawn(ruler({"Well tempered", 0, 0, {}, {0, 0.5, 0.501, 0.502, 1}}));
    check_apart(close);
    CHECK(numbers(close).size() == 3);
    CHECK(upright(close, 0.5).size() >= 5); // the others have their ticks
}

TEST_CASE("A line is headed by its number of steps, unequal ones by their name alone") {
    const auto heading = [](const Ruler::Line& line) {
        const TypesetPage page = drawn(ruler(line));
        return std::min_element(page.texts.begin(), page.texts.end(),
                                [](const auto& a, const auto& b) { return a.x < b.x; })
            ->text.width();
    };
    const std::vector<double> places{0, 0.4, 1};
    CHECK(heading({"12", 1.0 / 12, 12}) > heading({"12", 0, 0, {}, places}) + 10);
    CHECK(heading({"of 3/2", 1.0 / 7, 7}) < heading({"of 3/2 steps", 1.0 / 7, 7}) - 10);
}

TEST_CASE("Names of degrees stand on a ruler while they have room") {
    Ruler named = ruler({"12", 1.0 / 12, 12});
    const auto texts = [](const TypesetPage& page) { return page.texts.size(); };
    const std::size_t with_names = texts(drawn(named));
    for (Ruler::Mark& mark : named.marks)
        mark.name = std::string(60, 'm');
    CHECK(texts(drawn(named)) == with_names - 3);
}
