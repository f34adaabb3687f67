// Characters that command terminals or turn lines around are shown, not sent.

#include <sectio/base/error.hpp>
#include <sectio/base/visible.hpp>
#include <sectio/page/numbers.hpp>
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
    CHECK(visible("\u2028\u2029") == "<U+2028><U+2029>");
    CHECK(visible("\u200D\u2010") == "\u200D\u2010"); // no controls of these kinds
    CHECK(visible("\uFFFD") == "\uFFFD");
    CHECK(visible("\uFFFE\uFDD0\U0001FFFF") == "<U+FFFE><U+FDD0><U+1FFFF>");
    CHECK(visible("\xE2\x80") == "<byte E2><byte 80>"); // cut short
    CHECK(visible("a\x9B 31m") == "a<byte 9B> 31m");    // a terminal of 8 bits would obey
}

TEST_CASE("An error and a page send no control to the terminal") {
    const Error error = sectio::error(message::unknown_scale, "a\u202E\x1b[2J", {"SCALE"}, "");
    CHECK(std::string(error.what()).find("`a<U+202E><U+001B>[2J`") != std::string::npos);
    const Error worded = sectio::error(message::unknown_tradition, "", {"a\x1b"}, "b\u202E\x9B");
    const std::string said = worded.what();
    CHECK(said.starts_with("a<U+001B>: "));
    CHECK(said.find("write one of: b<U+202E><byte 9B>;") != std::string::npos);
    CHECK(error.piece() == "a\u202E\x1b[2J");
    CHECK(one_line("a\u202Eb\nc") == "a<U+202E>b c");
}
