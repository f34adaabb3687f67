// Characters that command terminals or turn lines around are shown, not sent.

#include <sectio/base/error.hpp>
#include <sectio/base/visible.hpp>
#include <sectio/page/figures.hpp>
#include <sectio/scale/messages.hpp>

#include <catch2/catch.hpp>

using namespace sectio;

TEST_CASE("Controls are named and all else stays") {
    CHECK(visible("Hüseynî مقام ♯ 🎵") == "Hüseynî مقام ♯ 🎵");
    CHECK(visible("a\u202Eb") == "a<U+202E>b");
    CHECK(visible("\u2066x\u2069\u200F\u061C") == "<U+2066>x<U+2069><U+200F><U+061C>");
    CHECK(visible("\x1b[31m\x7f") == "<U+001B>[31m<U+007F>");
    CHECK(visible("\u0085") == "<U+0085>");
    CHECK(visible(std::string_view("\0", 1)) == "<U+0000>");
    CHECK(visible("\u2028\u200D\u2010") == "\u2028\u200D\u2010"); // no controls of these kinds
    CHECK(visible("\xE2\x80") == "\xE2\x80");                     // cut short
}

TEST_CASE("An error and a page send no control to the terminal") {
    const Error error = sectio::error(message::unknown_scale, "a\u202E\x1b[2J", {"SCALE"}, "");
    CHECK(std::string(error.what()).find("`a<U+202E><U+001B>[2J`") != std::string::npos);
    CHECK(error.piece() == "a\u202E\x1b[2J");
    CHECK(one_line("a\u202Eb\nc") == "a<U+202E>b c");
}
