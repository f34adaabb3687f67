// What is counted of files whose names are known.

#include <sectio/identify/collection_page.hpp>
#include <sectio/identify/library.hpp>
#include <sectio/print/print.hpp>

#include <catch2/catch.hpp>
#include <support/json.hpp>

using namespace sectio;

TEST_CASE("Files with labels are counted by label, and by what was said of their first name") {
    const ScaleLibrary library = ScaleLibrary::installed().among({"rast"});
    const LibraryScale& named = library.scales().front();
    const auto file = [&](const char* label, double probability, std::size_t rank) {
        NamedFile one{.file = "tune", .label = label, .rank = rank};
        one.names = {{.scales = {&named}, .probability = probability}};
        return one;
    };
    const auto json = support::json_of(page::print_json(
        collection_page({file("A", 0.65, 1), file("A", 0.61, 2), file("B", 0.99, 0)})));
    REQUIRE(json["confusion"].size() == 2);
    CHECK(json["confusion"][0]["label"] == "A");
    CHECK(json["confusion"][0]["files"] == 2);
    CHECK(json["confusion"][0]["first"] == 1);
    CHECK(json["confusion"][0]["among_three"] == 2);
    CHECK(json["confusion"][1]["among_three"] == 0);
    REQUIRE(json["reliability"].size() == 2); // of ten tenths those that a file lies in
    CHECK(json["reliability"][0]["files"] == 2);
    CHECK(json["reliability"][1]["files"] == 1);
}
