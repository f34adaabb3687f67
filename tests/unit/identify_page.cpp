// An identification on its page: the verdict in words, the table, and the chart to scale.

#include "support/intervals.hpp"
#include "support/json.hpp"

#include <sectio/identify/candidate_chart.hpp>
#include <sectio/identify/identify_page.hpp>
#include <sectio/print/print.hpp>

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

using namespace sectio;

namespace {

const LibraryScale* scale(const std::string& id) {
    for (const LibraryScale& s : ScaleLibrary::installed().scales())
        if (s.entry.id == id)
            return &s;
    return nullptr;
}

Candidate candidate(const std::string& id, double probability, bool named) {
    Candidate c;
    c.scale = scale(id);
    REQUIRE(c.scale != nullptr);
    c.probability = probability;
    c.named = named;
    c.matched = 3;
    c.of = 4;
    return c;
}

/// Rast from its first pitch, made up: 0, 204, 386 and 702 cents.
Identification example() {
    Identification answer;
    answer.verdict = Verdict::ambiguous;
    answer.candidates = {candidate("rast", 0.5, true), candidate("mahur", 0.25, true),
                         candidate("hicaz", 0.125, false)};
    answer.candidates[0].worst_cents = -1.5;
    answer.candidates[1].tonic_cents = -100;
    answer.none_probability = 0.0625;
    answer.others_probability = 0.0625;
    for (const char* cents : {"0c", "204c", "386c", "702c"})
        answer.pitches.push_back(
            {support::interval(cents), {{"9/8", support::interval("-0.09c"), 0.5}}});
    return answer;
}

std::string said(const Identification& answer) {
    return page::print_text(identify_page(answer), {});
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Numbers in brackets are explained where there are any") {
    Identification answer = example();
    answer.by_progression = true;
    CHECK_FALSE(has(said(answer), "In brackets"));
    answer.candidates[2].progression = {"the melody ends on the tonic (+0.0)"}; // is not shown
    CHECK_FALSE(has(said(answer), "In brackets"));
    answer.candidates[0].progression = {"the melody ends on the tonic (+0.0)"};
    CHECK(has(said(answer), "In brackets"));
}

TEST_CASE(
    "The verdict names the scales that it rests on, and all of the same pitches, or how many") {
    Identification answer = example();
    const auto title = [&] { return identify_page(answer).title; };
    CHECK(title() == "ambiguous: Rast; Mahur");
    answer.candidates[0].namesakes = {scale("huseyni")};
    CHECK(title() == "ambiguous: Rast or Hüseynî; Mahur");
    answer.candidates[0].namesakes = {scale("huseyni"), scale("neva")};
    CHECK(title() == "ambiguous: Rast, Hüseynî or Nevâ; Mahur");
    CHECK(has(said(answer), "The same pitches have\nRast, Hüseynî, Nevâ\n"));
    answer.candidates[0].namesakes = {scale("thaat-todi"), scale("neva")};
    CHECK(title()
          == "ambiguous: Rast (Turkish makam), Toḍī thāṭ (Hindustani) or Nevâ (Turkish makam); "
             "Mahur");
    answer.candidates[0].namesakes.assign(9, scale("neva"));
    answer.candidates[1].named = false;
    answer.verdict = Verdict::fits;
    CHECK(title() == "fits: Rast or one of nine others of the same pitches");
    answer.candidates[0].namesakes.assign(10, scale("neva"));
    CHECK(title() == "fits: Rast or one of 10 others of the same pitches");
    answer.candidates[0].namesakes.assign(4, scale("neva"));
    CHECK(title() == "fits: Rast or one of four others of the same pitches");
    answer.verdict = Verdict::none;
    CHECK(title() == "none: no scale of the catalogue accounts for these pitches");
}

TEST_CASE("Rows carry the star, the figures and what is left of the probability") {
    const Identification answer = example();
    const auto json = support::json_of(page::print_json(identify_page(answer), {}));
    CHECK(json.at("verdict") == "ambiguous");
    REQUIRE(json.at("candidates").size() == 3);
    CHECK(json["candidates"][0].at("id") == "rast");
    CHECK(json["candidates"][0].at("matched") == 3);
    CHECK(json["candidates"][0].at("of") == 4);
    CHECK(json["candidates"][0].at("worst_cents") == "-1.500");
    CHECK(json["candidates"][0].at("named") == true);
    CHECK(json["candidates"][2].at("named") == false);
    CHECK(json["pitches"][1]["cents"] == "204.000");
    CHECK(json["pitches"][1]["readings"][0]["expression"] == "9/8");
    const std::string text = said(answer);
    CHECK(has(text, "*  Rast"));
    CHECK(has(text, "   Hicaz"));
    CHECK_FALSE(has(text, "*  Hicaz"));
    CHECK(has(text, "None of the catalogue  6.2 %"));
    CHECK(has(text, "All others"));
    CHECK(has(text, "12.5 %"));
    Identification all = answer;
    all.others_probability = 0;
    CHECK_FALSE(has(said(all), "All others"));
}

TEST_CASE("The chart has every pitch and every degree at its place") {
    const Identification answer = example();
    const auto chart = candidate_chart(answer);
    REQUIRE(chart);
    // One scale of lengths for all: the distance of two pitches tells it.
    std::vector<page::Drawing::Stroke> pitches;
    for (const auto& s : chart->strokes)
        if (s.x1 == s.x2 && s.width > 0.5)
            pitches.push_back(s);
    REQUIRE(pitches.size() == 4);
    const double unit = (pitches[3].x1 - pitches[0].x1) / 702;
    CHECK(pitches[1].x1 == Approx(pitches[0].x1 + 204 * unit));
    CHECK(pitches[2].x1 == Approx(pitches[0].x1 + 386 * unit));
    const auto marked = [&](double cents, double y_above) {
        return std::any_of(chart->strokes.begin(), chart->strokes.end(), [&](const auto& s) {
            return s.x1 == s.x2 && s.dash == 0 && s.width < 0.5 && s.y1 > y_above
                   && s.y1 < y_above + 11 && std::abs(s.x1 - pitches[0].x1 - cents * unit) < 0.01;
        });
    };
    const double first = pitches[0].y2;
    for (const double commas : {0, 9, 17, 22, 31})
        CHECK(marked(commas * 1200 / 53, first)); // Rast, 0 9 17 22 31 …
    CHECK_FALSE(marked(13 * 1200 / 53.0, first));
    CHECK(marked(9 * 1200 / 53.0 - 100, first + 11)); // Mahur lies 100 cents lower
    for (const auto& s : chart->strokes) {
        CHECK(std::min(s.x1, s.x2) >= 0);
        CHECK(std::max(s.x1, s.x2) <= chart->width);
        CHECK(std::max(s.y1, s.y2) <= chart->height);
    }
    // Numbers stand below the marks that they count, names beside their rows.
    int numbered = 0;
    for (const auto& label : chart->labels) {
        CHECK(label.y <= chart->height);
        if (label.anchor != page::Drawing::Anchor::middle)
            continue;
        ++numbered;
        const auto at =
            std::find_if(chart->strokes.begin(), chart->strokes.end(), [&](const auto& s) {
                return s.x1 == s.x2 && s.dash == 0 && std::abs(s.x1 - label.x) < 1e-9
                       && s.y2 < label.y && label.y - s.y2 < 4;
            });
        CHECK(at != chart->strokes.end());
    }
    CHECK(numbered >= 12);
    CHECK(chart->description == "4 pitches above the degrees of 3 scales");
    Identification alone = answer;
    alone.pitches.resize(1);
    CHECK_FALSE(candidate_chart(alone).has_value());
    alone = answer;
    alone.candidates.clear();
    CHECK_FALSE(candidate_chart(alone).has_value());
}

TEST_CASE("What parts the nearest scale from the pitches is said in words, or that nothing does") {
    Identification answer = example();
    answer.verdict = Verdict::none;
    CHECK(has(said(answer), "Nearest is Rast\nevery pitch lies on a degree"));
    answer.differences = {{2, support::interval("190c"), -14, true},
                          {4, support::interval("558c"), 60, false},
                          {6, std::nullopt, 0, false}};
    const std::string text = said(answer);
    CHECK(has(text, "Nearest is Rast; what differs"));
    CHECK(has(text, "lies beside it"));
    CHECK(has(text, "lies on no degree"));
    CHECK(has(text, "nothing lies on it"));
    CHECK_FALSE(has(text, "every pitch lies on a degree"));
}

TEST_CASE("A scale that begins anew within its octave is said to") {
    Identification answer = example();
    CHECK_FALSE(has(said(answer), "several degrees"));
    answer.candidates[0].equal_rotations = 2;
    CHECK(has(said(answer),
              "The same from several degrees\nRast has the same pitches from 2 of its 7 degrees"));
}
