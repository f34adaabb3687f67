// The catalogue read through its index: as from the files, and never from an index of other files.

#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue_index.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>

#include <filesystem>

using namespace sectio;

namespace {

/// A folder data/catalogue with one file.
class Folder {
  public:
    explicit Folder(std::string_view toml) {
        std::filesystem::create_directories(catalogue());
        write_whole(catalogue() / "test.toml", toml);
    }
    std::filesystem::path catalogue() const { return folder_.path() / "catalogue"; }
    std::filesystem::path index() const { return folder_.path() / "catalogue.index"; }
    void make() const {
        write_whole(index(), make_index(catalogue_files(catalogue()), catalogue()));
    }

  private:
    support::TempDir folder_;
};

std::string said(std::string_view toml) {
    const Folder folder(toml);
    const auto error = support::error_of([&] { Catalogue(folder.catalogue()).all(); });
    return error ? support::name_of(error) + " " + std::to_string(error->place().line) + ":"
                       + std::to_string(error->place().column)
                 : "read";
}

constexpr std::string_view fifth = "[[interval]]\nid = 'fifth'\nname = 'Pure fifth'\n"
                                   "also = ['diapente']\nsource = 'test'\ninterval = '3/2'\n";

} // namespace

TEST_CASE("Every way to write TOML is read, single quotes and inner tables too") {
    const Folder folder(std::string(fifth)
                        + "[[scale]]\n  id = \"two\" # a remark\n  name = \"\"\"Two\"\"\"\n"
                          "  source = \"t\"\n  degrees = [\n '9/8', { interval = '3/2' } ]\n");
    const Catalogue catalogue(folder.catalogue());
    CHECK(catalogue.named("diapente").at(0).id == "fifth");
    CHECK(catalogue.of_size(Interval::from_ratio(3, 2)).size() == 1);
    CHECK(catalogue.find("two")->scale->degrees.size() == 3);
    CHECK(catalogue.all().size() == 2);
}

TEST_CASE("What is wrong with a catalogue is said with its place") {
    CHECK(said("[[interval]]\nid = \"abc\n") == "toml_syntax 2:10");
    CHECK(said("[[interval]]\nname = \"x\"\n") == "missing_key 1:1");
    CHECK(said("[[tuna]]\nid = \"x\"\n") == "unknown_kind 1:1");
    CHECK(said("id = \"x\"\n") == "unknown_kind 1:6");
    CHECK(said("interval = \"x\"\n") == "bad_entry 1:12");
    CHECK(said("[[interval]]\nid = 'a'\nname = 'a'\nsource = 's'\ninterval = '3/'\n")
          == "expected_denominator 5:15");
    CHECK(said("[[interval]]\nid = 'a'\nname = 'a'\nsource = 's'\n") == "missing_key 1:1");
}

TEST_CASE("An index answers like the files") {
    const auto files = catalogue_files(support::data_dir() / "catalogue");
    const std::string index = make_index(files, support::data_dir() / "catalogue");
    const auto entries = open_index(index, checksum(files));
    REQUIRE(entries);
    CHECK(entries->size() == Catalogue::installed().all().size());
    for (std::size_t i = 0; i < entries->size(); ++i)
        CHECK((*entries)[i].id == Catalogue::installed().all()[i].id);
}

TEST_CASE("An index of other files is not used") {
    const Folder folder(fifth);
    folder.make();
    const auto files = catalogue_files(folder.catalogue());
    CHECK(open_index(read_whole(folder.index(), 10'000), checksum(files)));
    write_whole(folder.catalogue() / "test.toml", std::string(fifth) + "# changed\n");
    CHECK_FALSE(open_index(read_whole(folder.index(), 10'000),
                           checksum(catalogue_files(folder.catalogue()))));
    write_whole(folder.catalogue() / "test.toml",
                "[[interval]]\nid = 'other'\nname = 'Other'\nsource = 's'\ninterval = '5/4'\n");
    CHECK(Catalogue(folder.catalogue()).find("other"));
    CHECK_FALSE(Catalogue(folder.catalogue()).find("fifth"));
}

TEST_CASE("A damaged index is not used, wherever it was cut") {
    const Folder folder(fifth);
    const auto files = catalogue_files(folder.catalogue());
    const std::string index = make_index(files, folder.catalogue());
    const std::size_t begin = index.find("fifth");
    for (std::size_t length = 0; length < index.size(); ++length) {
        const auto opened = open_index(index.substr(0, length), checksum(files));
        if (opened && length < begin)
            CHECK(opened->empty()); // cut exactly before the first entry
        else
            CHECK_FALSE(opened);
    }
}
