// What the desk asks for a button: the command that a user would type.

#include <sectio/base/limits.hpp>
#include <sectio/desk/messages.hpp>
#include <sectio/desk/question.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

#include <algorithm>
#include <set>

using namespace sectio::desk;

namespace {

const Question& question(std::string_view id) {
    return *std::find_if(questions().begin(), questions().end(),
                         [&](const Question& q) { return q.id == id; });
}

Thing file(const std::string& name, const std::string& kind) {
    return {1, name, "", kind, ""};
}

Thing text(const std::string& typed, const std::string& kind) {
    return {1, "", typed, kind, ""};
}

std::string command(std::string_view id, const std::vector<Thing>& things,
                    std::multimap<std::string, std::string> form = {},
                    const std::string& ending = "") {
    Asked asked{&question(id), {}, std::move(form), ending};
    for (const Thing& thing : things) {
        asked.things.push_back(&thing);
        asked.files.push_back(thing.file);
    }
    return shell_text(command_of(asked).words);
}

} // namespace

TEST_CASE("A button is the command that a user would type") {
    const Thing zither = file("my zither.toml", "scale"), rast = text("rast", "scale");
    CHECK(command("sheet", {rast}) == "sectio sheet rast");
    CHECK(command("sheet", {rast}, {{"tonic", "D4"}, {"paper", "a4"}, {"large", "yes"}}, ".pdf")
          == "sectio sheet rast --tonic D4 --large --out rast.pdf");
    CHECK(command("sheet", {zither}, {}, ".toml")
          == "sectio sheet 'my zither.toml' --out 'my zither-new.toml'");
    CHECK(command("compare", {zither, rast}, {{"with", "31"}})
          == "sectio compare 'my zither.toml' rast 31");
    CHECK(command("annotate", {file("tune.musicxml", "score")}, {{"scale", "rast"}}, ".musicxml")
          == "sectio annotate tune.musicxml --scale rast --out tune-marked.musicxml");
    CHECK(command("samples", {file("a.wav", "recording"), file("b.wav", "recording")}, {}, ".zip")
          == "sectio samples a.wav b.wav --out samples");
    CHECK(command("divisions", {rast}, {{"to", "72"}})
          == "sectio divisions --targets rast --to 72");
}

TEST_CASE("No file of the page is replaced by what is taken away, whatever is asked") {
    const Thing sound = file("z.wav", "recording");
    Asked asked{&question("measure-recording"), {&sound}, {}, ".toml", {"z.wav", "z.toml"}};
    CHECK(command_of(asked).out == "z-new.toml");
    asked.files.emplace_back("z-new.toml");
    CHECK(command_of(asked).out == "z-new-new.toml");
}

TEST_CASE("Nothing that is typed becomes an option or ends a quotation") {
    const Thing below = text("-5c,3/2", "scale");
    CHECK(command("sheet", {below}, {{"tonic", "D4"}}) == "sectio sheet --tonic D4 -- -5c,3/2");
    CHECK(command("sheet", {text("rast", "scale")}, {{"title", "--out=x"}})
          == "sectio sheet rast --title=--out=x");
    CHECK(command("sheet", {text("it's", "scale")}) == "sectio sheet 'it'\\''s'");
    CHECK(command("sheet", {text("rast", "scale")}, {{"out", "/tmp/x"}, {"all", "yes"}})
          == "sectio sheet rast");
}

TEST_CASE("What does not fit is not asked") {
    const auto refused = [](std::string_view id, const std::vector<Thing>& things,
                            const std::string& ending = "") {
        return support::name_of(support::error_of([&] { command(id, things, {}, ending); }));
    };
    const Thing rast = text("rast", "scale");
    CHECK(refused("sheet", {file("a.mid", "midi")}) == "desk_unfit");
    CHECK(refused("sheet", {}) == "desk_unfit");
    CHECK(refused("frets", {rast, rast}) == "desk_unfit");
    CHECK(refused("sheet", {rast}, ".exe") == "desk_unfit");
    CHECK(refused("sheet", {rast}, "../x.pdf") == "desk_unfit");
    const auto e = support::error_of([&] {
        command("sheet", {rast},
                {{"title", std::string(sectio::limits::desk_text_bytes + 1, 'a')}});
    });
    CHECK(support::name_of(e) == "desk_text_long");
}

TEST_CASE("Every question has a name of its own, and every kind of thing a question") {
    std::set<std::string_view> ids, kinds;
    for (const Question& each : questions()) {
        CHECK(ids.insert(each.id).second);
        kinds.insert(each.kinds.begin(), each.kinds.end());
        CHECK_FALSE(each.endings.empty());
    }
    CHECK(kinds
          == std::set<std::string_view>{"scale", "pitches", "instrument", "score", "midi",
                                        "messages", "recording", "track", "places", "interval"});
}

TEST_CASE("A typed text is never a file") {
    CHECK(recognise_text("rast").text == "rast");
    CHECK(recognise_text(" Rast \n").kind == "scale");
    CHECK(recognise_text("D4 E4-29c F4+50c").text == "D4, E4-29c, F4+50c");
    CHECK(recognise_text("D4\nE4-29c\r\nF4").kind == "pitches");
    CHECK(recognise_text("D4 E4 -29, F4: +50").text == "D4, E4-29c, F4+50c");
    CHECK(recognise_text("D4 0 E4 29 flat").kind == "pitches");
    CHECK(recognise_text("9/8, 5/4, 3/2").kind == "scale");
    CHECK(recognise_text("3/2").kind == "interval");
    CHECK(recognise_text("31").kind == "scale");
    CHECK(recognise_text("31/1").kind == "interval");
    CHECK(recognise_text("syntonic comma").kind == "interval");
    for (const char* path : {"/etc/passwd", "-", "data/examples/sundhall-zither.toml", "/", "."})
        CHECK(support::error_of([&] { recognise_text(path); }));
}

TEST_CASE("A name that two entries have is asked about, not taken for the first") {
    const auto shared = support::error_of([] { recognise_text("Bayati"); });
    CHECK(support::name_of(shared) == "name_shared");
    CHECK(recognise_text("suznak").text == "suznak"); // the id of one, a name of another
    CHECK(recognise_text("Segâh").text == "segah");   // the name of one, another name of another
}

TEST_CASE("What is typed is looked up in the catalogue") {
    const auto found = matches_of("rast", 5);
    REQUIRE_FALSE(found.empty());
    CHECK(found.front().id == "rast");
    CHECK(found.size() <= 5);
    CHECK(matches_of("no such thing at all", 5).empty());
    CHECK(matches_of(" ", 5).empty());
}
