// What went wrong is told on the desk in its own words.

#include <sectio/desk/messages.hpp>
#include <sectio/desk/trouble.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

namespace message = sectio::message;
using sectio::Error;
using sectio::desk::trouble_text;

namespace {

const sectio::desk::Question* question(std::string_view id) {
    const auto& all = sectio::desk::questions();
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const auto& q) { return q.id == id; });
    REQUIRE(found != all.end());
    return &*found;
}

} // namespace

TEST_CASE("The desk's words for what went wrong name fields, and no commands") {
    const auto told = [](const std::string& cure, const sectio::Place& place = {}) {
        return trouble_text(Error(message::desk_unfit, "this is wrong", cure, "x", place),
                            question("frets"));
    };
    CHECK(told("add --length 620mm") == "this is wrong: `x`; add “Length of the strings” 620mm");
    CHECK(told("add --length 620mm, or --instrument with a file") == "this is wrong: `x`");
    CHECK(told("run `sectio catalogue`") == "this is wrong: `x`");
    CHECK(told("look scales up with `sectio catalogue --kind scale`, or write intervals")
          == "this is wrong: `x`; find a scale by typing a part of its name, or write intervals");
    CHECK(told("leave it out", {"--length", 0, 1})
          == "“Length of the strings”: this is wrong: `x`; leave it out");
    CHECK(told("", {"SCALE", 0, 5}) == "this is wrong: `x`");
    CHECK(told("", {"mine.csv", 3, 5}) == "mine.csv:3:5: this is wrong: `x`");
    CHECK(trouble_text(Error(message::desk_unfit, "no", "add --length 620mm", "", {}), nullptr)
          == "no");
}

TEST_CASE("Errors that commands tell as JSON stand beside lines that are none") {
    const std::string json =
        R"({"error":{"exit_code":2,"id":"x","what":"no length","piece":"","where":)"
        R"({"source":"a.csv","line":2,"column":null},"cure":"add --length 620mm"}})";
    CHECK(trouble_text(json + "\nplain {\n" + json + "\n", question("frets"))
          == "a.csv:2:0: no length; add “Length of the strings” 620mm\nplain {\na.csv:2:0: no "
             "length; add “Length of the strings” 620mm");
    CHECK(trouble_text("", nullptr).empty());
}
