// SCALE as commands take it, and files written whole or not at all.

#include "support/paths.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/messages.hpp>

#include <catch2/catch.hpp>

#include <sstream>
#include <stdexcept>

using namespace sectio;

namespace {

Scale load(const std::string& text, const std::string& input = "") {
    std::istringstream in(input);
    return load_scale(text, Catalogue::installed(), in);
}

Message failure(const std::string& text) {
    try {
        load(text);
    } catch (const Error& e) {
        return e.id();
    }
    return sectio::message::empty_expression;
}

} // namespace

TEST_CASE("SCALE is an id, a name, a file, standard input or a list") {
    CHECK(load("rast").name == "Rast");
    CHECK(load("Hüseynî").id == "huseyni");
    CHECK(load("huseyni").degrees.size() == 7);
    CHECK(load("3/2").degrees.size() == 2);
    CHECK(load("-", "name = \"in\"\ndegrees = [\"3/2\"]").name == "in");
    const support::TempDir dir;
    support::write_file(dir / "a.toml", "name = \"file\"\ndegrees = [\"3/2\"]");
    CHECK(load((dir / "a.toml").string()).name == "file");
}

TEST_CASE("A number is so many equal steps, of the octave or of another period") {
    CHECK(load("31").degrees.size() == 31);
    CHECK(load(" 31 ").degrees[18].interval == Interval::from_steps(18, 31));
    CHECK(*load("31").period == Interval::octave());
    CHECK(load("13(3/1)").degrees.size() == 13);
    CHECK(*load("13(3/1)").period == parse_interval("3/1"));
    CHECK(load("7of12").degrees.size() == 2); // an interval
    CHECK(failure("0") == sectio::message::zero_division);
    CHECK(failure("10001") == sectio::message::too_many_degrees);
}

TEST_CASE("Blanks may separate what reads alone, and numbers without a unit are told as such") {
    CHECK(load("9/8 5/4  3/2").degrees.size() == 4);
    CHECK(load("D4 F#4 A4").degrees.size() == 3);
    CHECK(load("440Hz 550Hz±1Hz").degrees.size() == 2);
    CHECK(load("2 x 9/8").degrees.size() == 2); // one interval
    CHECK(load("7 of 12").degrees.size() == 2);
    CHECK(failure("100,200,300") == sectio::message::size_needs_unit);
    CHECK(failure("9/8 x5/4 3/2") != sectio::message::size_needs_unit);
    CHECK(load("100c,200c,300c").degrees.size() == 4);
}

TEST_CASE("A name means the entry of this id, then of this name, then of another name") {
    for (const char* name : {"Segâh", "SEGAH", "segâh", "Segah"})
        CHECK(load(name).id == "segah"); // another name of the Persian one too
    for (const char* name : {"Sûznâk", "Suznak", "sûznâk"})
        CHECK(load(name).id == "suznak");
    const Catalogue& catalogue = Catalogue::installed();
    std::istringstream in;
    for (const Entry& entry : catalogue.all()) {
        if (entry.scale() == nullptr)
            continue;
        CHECK(load(entry.id).id == entry.id);
        CHECK(load(entry.name).id == entry.id);
    }
}

TEST_CASE("Where two entries are called alike, the id is asked for") {
    const auto scale = [](const std::string& id, const std::string& names) {
        return "[[scale]]\nid = '" + id + "'\n" + names + "\nsource = 's'\ndegrees = ['3/2']\n";
    };
    const support::TempDir dir;
    support::write_file(dir / "own.toml", scale("one", "name = 'One'\nalso = ['Twin', 'Three']")
                                              + scale("two", "name = 'Two'\nalso = ['Twín']")
                                              + scale("three", "name = 'Third'"));
    const Catalogue catalogue(dir.path());
    std::istringstream in;
    CHECK(load_scale("Three", catalogue, in).id == "three");
    try {
        load_scale("twin", catalogue, in);
        FAIL("one was taken");
    } catch (const Error& e) {
        CHECK(e.id() == sectio::message::name_shared);
        CHECK(e.message().find("one and two") != std::string::npos);
    }
}

TEST_CASE("What SCALE is not is said with advice") {
    CHECK(failure("raast") == sectio::message::unknown_scale);
    CHECK(failure("absent.toml") == sectio::message::cannot_read);
    CHECK(failure("syntonic-comma") == sectio::message::not_a_scale);
    CHECK(failure("9/8,,5/4") == sectio::message::empty_expression);
}

TEST_CASE("Names are compared without case and diacritics") {
    CHECK(folded("Hüseynî") == folded("HUSEYNI"));
    CHECK(folded("Uşşâk") == "ussak");
    CHECK(folded("Karcığar") == "karcigar");
    CHECK(folded("quarter-comma") == "quarter comma");
}

TEST_CASE("Plain letters fold as they do beside others") {
    for (char c = 1; c > 0 && c < 127; ++c) {
        const std::string text = "A" + std::string(1, c) + "b";
        INFO(static_cast<int>(c));
        CHECK(folded(text) + "e" == folded(text + "é"));
    }
}

TEST_CASE("A division of more steps than a scale may have is refused") {
    CHECK(as_scale(EqualDivision(12)).degrees.size() == 12);
    CHECK(as_scale(EqualDivision(1)).degrees.size() == 1);
    CHECK_THROWS_AS(as_scale(EqualDivision(1'000'000)), Error);
}

TEST_CASE("A file is written whole or not at all") {
    const support::TempDir dir;
    const auto file = dir / "out.txt";
    write_whole(file, "first");
    write_whole(file, "second");
    CHECK(support::read_file(file) == "second");
    CHECK_THROWS_AS(write_whole(dir / "absent" / "x", "x"), Error);
    CHECK(std::distance(support::fs::directory_iterator(dir.path()), {}) == 1);
}

TEST_CASE("A file that is replaced keeps its permissions, and a link its target") {
    namespace fs = support::fs;
    const support::TempDir dir;
    write_whole(dir / "kept.txt", "first");
    fs::permissions(dir / "kept.txt", fs::perms::owner_read | fs::perms::owner_write);
    fs::create_symlink("kept.txt", dir / "link.txt");
    write_whole(dir / "link.txt", "second");
    CHECK(fs::is_symlink(dir / "link.txt"));
    CHECK_FALSE(fs::is_symlink(dir / "kept.txt"));
    CHECK(support::read_file(dir / "kept.txt") == "second");
    CHECK(fs::status(dir / "kept.txt").permissions()
          == (fs::perms::owner_read | fs::perms::owner_write));
    fs::create_symlink("new.txt", dir / "dangling.txt"); // to a file that is yet to be written
    write_whole(dir / "dangling.txt", "third");
    CHECK(fs::is_symlink(dir / "dangling.txt"));
    CHECK(support::read_file(dir / "new.txt") == "third");
    fs::create_symlink("round.txt", dir / "round.txt"); // to itself
    CHECK_THROWS_AS(write_whole(dir / "round.txt", "x"), Error);
}

TEST_CASE("What fails while it is written leaves the old file as it was") {
    const support::TempDir dir;
    write_whole(dir / "out.txt", "old");
    const auto fails = [](const Sink& sink) {
        sink(std::string(1 << 20, 'x'));
        throw std::runtime_error("the maker failed");
    };
    CHECK_THROWS_AS(write_whole(dir / "out.txt", fails), std::runtime_error);
    CHECK(support::read_file(dir / "out.txt") == "old");
    CHECK(std::distance(support::fs::directory_iterator(dir.path()), {}) == 1);
}
