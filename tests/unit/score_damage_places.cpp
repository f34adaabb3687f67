// Where a damaged score is damaged: the line and the column of the first byte that cannot be, as
// counted by hand, also where the quick reader had read the document up to there.

#include <sectio/base/error.hpp>
#include <sectio/score/document.hpp>
#include <sectio/score/score.hpp>

#include <support/errors.hpp>
#include <support/scores.hpp>

using namespace sectio;

namespace {

/// The score with `from` made `to` at its first place.
std::string damaged(const std::string& from, const std::string& to) {
    std::string text = "<?xml version=\"1.0\"?>\n<score-partwise>\n"
                       "<part-list><score-part id=\"P1\"/></part-list>\n"
                       "<part id=\"P1\">\n <measure number=\"1\">\n"
                       "  <note><rest/><duration>1</duration></note>\n"
                       " </measure>\n</part>\n</score-partwise>\n";
    const auto at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

std::string place_of(const std::string& bytes) {
    const auto error =
        support::error_of([&] { score::read_score(score::document_of(bytes, "walk.musicxml")); });
    return error ? std::string(error->what()).substr(0, std::string(error->what()).find(": "))
                 : "no error";
}

} // namespace

TEST_CASE("A damaged score is refused at the line and column of the damage") {
    CHECK(place_of(damaged("<rest/>", "<rest/>")) == "no error");
    CHECK(place_of(damaged("</note>", "</nose>")) == "walk.musicxml:6:40");
    CHECK(place_of(damaged("<rest/>", "<rest/")) == "walk.musicxml:6:15");
    CHECK(place_of(damaged("1</duration>", "&x;</duration>")) == "walk.musicxml:6:26");
    CHECK(place_of(damaged("1</duration>", "\x01</duration>")) == "walk.musicxml:6:26");
    CHECK(place_of(damaged("1</duration>", "1\xFF</duration>")) == "walk.musicxml:6:27");
    CHECK(place_of(damaged("number=\"1\"", "number=\"1\" number=\"1\"")) == "walk.musicxml:5:22");
    CHECK(place_of(damaged("</score-partwise>\n", "")) == "walk.musicxml:9:1");
    CHECK(place_of(damaged("</score-partwise>\n", "</score-partwise>\n<x/>"))
          == "walk.musicxml:10:1");
}
