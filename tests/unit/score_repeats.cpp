// Repeats, endings and the finest time of a score, up to their limits.

#include "support/scores.hpp"

#include <sectio/score/document.hpp>
#include <sectio/score/score.hpp>
#include <sectio/tuning/performance.hpp>
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

Performance music_of(const std::string& bar) {
    const std::string text = support::score({support::attributes() + bar});
    const auto tuning = score::tuning_by_division(EqualDivision(12), "C4");
    return performance_of(score::read_score(score::document_of(text, "t")), {}, *tuning,
                          Pitch::concert_a());
}

std::string timed_note(const std::string& time_only, const std::string& step) {
    return "<note time-only=\"" + time_only + "\"><pitch><step>" + step
           + "</step><octave>4</octave></pitch><duration>4</duration></note>";
}

/// Keys in the order of playing, by one repeat of `bar`.
std::vector<int> keys_of(const std::string& bar, int times) {
    std::vector<int> keys;
    for (const PlayedNote& note : music_of(bar + "<barline><repeat direction=\"backward\" times=\""
                                           + std::to_string(times) + "\"/></barline>")
                                      .notes)
        keys.push_back(note.key);
    return keys;
}

} // namespace

TEST_CASE("Notes of some passes alone sound in those") {
    const std::string back = "<backup><duration>4</duration></backup>";
    const auto two = [&](const std::string& c, const std::string& g) {
        return timed_note(c, "C") + back + timed_note(g, "G");
    };
    CHECK(keys_of(two("1", "2"), 2) == std::vector<int>{60, 67});
    CHECK(keys_of(two("1, 3", "2,3"), 3) == std::vector<int>{60, 67, 60, 67});
    CHECK(keys_of(two("40", "41"), 40) == std::vector<int>{60});
    CHECK(keys_of(timed_note("", "C"), 2) == std::vector<int>{60, 60}); // names none: all
    CHECK(keys_of(timed_note("x", "C"), 2) == std::vector<int>{60, 60});
}

TEST_CASE("Tempo of some passes alone holds in those") {
    const Performance music =
        music_of("<sound tempo=\"90\"/><sound tempo=\"60\" time-only=\"2\"/>"
                 + support::note("C", 4) + "<barline><repeat direction=\"backward\"/></barline>");
    CHECK(music.words.at(0).events.size() == 3); // 90, 90 and 60
}

TEST_CASE("Up to 31 passes of a repeat have endings of their own") {
    const score::Bar plain;
    score::Bar most, last;
    most.times = 31, most.passes = (1U << 30) - 1, most.ending_ends = true;
    last.passes = 1U << 30;
    const auto order = play_order({plain, most, last});
    const auto count = [&](std::uint32_t bar) {
        return std::count_if(order.begin(), order.end(),
                             [&](const PlayedBar& played) { return played.bar == bar; });
    };
    CHECK(count(0) == 31);
    CHECK(count(1) == 30);
    CHECK(count(2) == 1);
    CHECK(order.back() == PlayedBar{2, 31});
}

TEST_CASE("A repeat is played as often as it says") {
    score::Bar bar;
    bar.times = 1000;
    const auto order = play_order({bar, {}});
    REQUIRE(order.size() == 1001);
    CHECK(order[999] == PlayedBar{0, 1000});
    CHECK(order[1000] == PlayedBar{1, 1});
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
