// Repeats, endings and the finest time of a score, up to their limits.

#include "support/scores.hpp"

#include <sectio/score/document.hpp>
#include <sectio/score/score.hpp>
#include <sectio/tuning/play_order.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sectio;
using namespace sectio::tuning;

namespace {

score::Score with_note(const score::QuarterNotes& duration) {
    score::Score score;
    score.notes.emplace_back();
    score.notes.back().duration = duration;
    return score;
}

score::Bar bar_of(const std::string& barline) {
    const std::string text = support::score(
        {support::attributes() + support::note("D", 4) + "<barline>" + barline + "</barline>"});
    return score::read_score(score::document_of(text, "t")).bars.at(0);
}

} // namespace

TEST_CASE("Up to 31 passes of a repeat have endings of their own") {
    const score::Bar plain;
    score::Bar most, last;
    most.times = 31, most.passes = (1U << 30) - 1, most.ending_ends = true;
    last.passes = 1U << 30;
    const auto order = play_order({plain, most, last});
    CHECK(std::count(order.begin(), order.end(), 0U) == 31);
    CHECK(std::count(order.begin(), order.end(), 1U) == 30);
    CHECK(std::count(order.begin(), order.end(), 2U) == 1);
    CHECK(order.back() == 2);
}

TEST_CASE("A repeat is played as often as it says") {
    score::Bar bar;
    bar.times = 1000;
    CHECK(play_order({bar, {}}).size() == 1001);
}

TEST_CASE("Endings name their passes from 1 to 31") {
    const auto passes = [](const std::string& number) {
        return bar_of("<ending type=\"start\" number=\"" + number + "\"/>").passes;
    };
    CHECK(passes("1") == 1);
    CHECK(passes("1, 2") == 3);
    CHECK(passes("2,31") == (1U << 1 | 1U << 30));
    CHECK(passes("32") == 0);
    CHECK(passes("0, 1.5, 3") == 4);
    CHECK(passes("") == 0);
    CHECK_FALSE(bar_of("<ending type=\"start\" number=\"1\"/>").ending_ends);
    CHECK(bar_of("<ending type=\"stop\" number=\"1\"/>").ending_ends);
}

TEST_CASE("A repeat backward is played twice where nothing else is said") {
    CHECK(bar_of("<repeat direction=\"backward\"/>").times == 2);
    CHECK(bar_of("<repeat direction=\"backward\" times=\"31\"/>").times == 31);
    CHECK(bar_of("<repeat direction=\"backward\" times=\"32\"/>").times == 32);
    CHECK(bar_of("<repeat direction=\"backward\" times=\"9999999999\"/>").times
          == score::Bar::most_times);
    CHECK(bar_of("<repeat direction=\"backward\" times=\"0\"/>").times == 2);
    CHECK(bar_of("<repeat direction=\"forward\"/>").times == 0);
    CHECK(bar_of("<repeat direction=\"forward\"/>").repeat_begins);
}

TEST_CASE("A quarter has the fewest ticks from 480 on that hold every time exactly") {
    CHECK(ticks_for({}) == 480);
    CHECK(ticks_for(with_note({1, 1})) == 480);
    CHECK(ticks_for(with_note({1, 7})) == 483); // 69 times 7
    CHECK(ticks_for(with_note({1, 480})) == 480);
    CHECK(ticks_for(with_note({1, 481})) == 481);
    CHECK(ticks_for(with_note({1, 15'360})) == 15'360);
    CHECK(ticks_for(with_note({1, 15'361})) == 20'160); // more than MIDI files have: rounded
    score::Score score = with_note({1, 7});
    score.notes[0].onset = {1, 9};
    CHECK(ticks_for(score) == 504); // 8 times 63
    score.bars.emplace_back();
    score.bars[0].end = {1, 25};
    CHECK(ticks_for(score) == 1'575); // 63 times 25
}
