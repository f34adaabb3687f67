// The catalogue read through its index: as from the files, and never from an index of other files.

#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/catalogue_index.hpp>
#include <sectio/scale/entry_bytes.hpp>
#include <sectio/scale/load.hpp>

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

/// A scale with degrees at 9/8, 5/4 and 3/2 of which `list` says where performers sound them; the
/// list begins in column 14 of line 6.
std::string practised_scale(std::string_view list, std::string_view more = "") {
    return "[[scale]]\nid = 'a'\nname = 'a'\nsource = 's'\nform_of = 'b'\npractised = ["
           + std::string(list)
           + "]\ncommon = true\nmost_used = true\ndegrees = ['9/8', '5/4', '3/2']\n"
           + std::string(more);
}

} // namespace

TEST_CASE("Every way to write TOML is read, single quotes and inner tables too") {
    const Folder folder(std::string(fifth)
                        + "[[scale]]\n  id = \"two\" # a remark\n  name = \"\"\"Two\"\"\"\n"
                          "  source = \"t\"\n  degrees = [\n '9/8', { interval = '3/2' } ]\n");
    const Catalogue catalogue(folder.catalogue());
    CHECK(catalogue.named("diapente").at(0).id == "fifth");
    CHECK(catalogue.of_size(Interval::from_ratio(3, 2)).size() == 1);
    CHECK(catalogue.find("two")->scale()->degrees.size() == 3);
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

TEST_CASE("An id of the catalogue is a word that may stand for a file name") {
    const auto with_id = [](const std::string& id) {
        return said("[[interval]]\nid = \"" + id
                    + "\"\nname = 'a'\nsource = 's'\ninterval = '3/2'\n");
    };
    CHECK(with_id("pure-fifth-2") == "read");
    for (const char* id : {"../../evil", "a/b", ".a", "a.b", "Fifth", "a b", "quinte-é", "", "12"})
        CHECK(with_id(id) == "bad_id 2:7");
}

TEST_CASE("A slip in a direction, a tradition or a family is refused with the words allowed") {
    const std::string declared = "[[tradition]]\nname = 'Turkish'\nfamilies = ['basit', 'şed']\n"
                                 "[[tradition]]\nname = 'Arab'\n";
    const auto scale = [&](const std::string& lines) {
        return declared + "[[scale]]\nid = 'a'\nname = 'a'\nsource = 's'\ndegrees = ['3/2']\n"
               + lines;
    };
    const auto advice = [&](const std::string& lines) {
        const Folder folder(scale(lines));
        const auto error = support::error_of([&] { Catalogue(folder.catalogue()).all(); });
        return error ? error->advice() : "read";
    };
    CHECK(said(scale("tradition = 'Turkish'\nfamily = 'şed'\ndirection = 'ascending'\n"))
          == "read");
    CHECK(said(scale("direction = 'ascendign'\n")) == "unknown_direction 11:14");
    CHECK(advice("direction = ''\n") == "write ascending, descending or ascending-descending");
    CHECK(said(scale("tradition = 'Turksh'\n")) == "unknown_tradition 11:14");
    CHECK(advice("tradition = 'Turksh'\n").starts_with("write one of: Arab, Turkish;"));
    CHECK(said(scale("tradition = 'Turkish'\nfamily = 'bassit'\n")) == "unknown_family 12:11");
    CHECK(advice("tradition = 'Turkish'\nfamily = 'bassit'\n")
              .starts_with("write one of: basit, şed;"));
    CHECK(said(scale("tradition = 'Arab'\nfamily = 'basit'\n")) == "unknown_family 12:11");
    CHECK(said(scale("family = 'basit'\n")) == "missing_key 6:1");
    CHECK(said(declared + "[[tradition]]\nname = 'Arab'\n") == "tradition_twice 7:9");
    CHECK(said(std::string(fifth) + "tradition = 'Arab'\n") == "unknown_key 7:13");
}

TEST_CASE("What is wrong with a degree as performers sound it is said with its place") {
    const auto moved = [](const std::string& degree, const std::string& intervals) {
        return said(practised_scale("{ degree = " + degree + ", moved = [" + intervals
                                    + "], source = 's' }"));
    };
    CHECK(moved("3", "'-1of53'") == "read");
    CHECK(moved("3", "'-2of53', '1of53'") == "read");
    CHECK(moved("1", "'1of53'") == "practised_degree 6:25"); // the tonic
    CHECK(moved("4", "'1of53'") == "read");
    CHECK(moved("5", "'1of53'") == "practised_degree 6:25");
    CHECK(moved("0", "'1of53'") == "wrong_value_kind 6:25");
    CHECK(moved("'2'", "'1of53'") == "wrong_value_kind 6:25");
    CHECK(moved("2", "") == "practised_move 6:36");
    CHECK(moved("2", "'1of53', '2of53', '3of53'") == "practised_move 6:36");
    CHECK(moved("2", "'2of53', '1of53'") == "practised_move 6:36");
    CHECK(moved("2", "'1/1'") == "practised_move 6:36");
    CHECK(moved("2", "1") == "wrong_value_kind 6:37");
    CHECK(moved("2", "'1of'") == "expected_steps 6:41");
    CHECK(said(practised_scale("{ moved = ['1of53'], source = 's' }")) == "missing_key 6:14");
    CHECK(said(practised_scale("{ degree = 2, moved = ['1of53'] }")) == "missing_key 6:14");
    CHECK(said(practised_scale("{ degree = 2, source = 's' }")) == "practised_move 6:14");
    CHECK(said(practised_scale("{ degree = 2, by = '1c', source = 's' }")) == "unknown_key 6:33");
    CHECK(said(practised_scale("'2'")) == "wrong_value_kind 6:14");
    const std::string once = "{ degree = 2, moved = ['1c'], source = 's' }";
    CHECK(said(practised_scale(once + ", " + once)) == "practised_twice 6:71");
    CHECK(said("[[system]]\nid = 'a'\nname = 'a'\nsource = 's'\ndivision = 7\npractised = []\n")
          == "unknown_key 6:13");
}

TEST_CASE("A degree stays between its neighbours where performers sound it") {
    const auto moved = [](int degree, const std::string& by) {
        return said(practised_scale("{ degree = " + std::to_string(degree) + ", moved = ['" + by
                                    + "'], source = 's' }"));
    };
    CHECK(moved(2, "10/9") == "practised_too_far 6:36"); // onto 5/4
    CHECK(moved(2, "10/9 - 1c") == "read");
    CHECK(moved(2, "- 9/8") == "practised_too_far 6:36"); // onto the tonic
    CHECK(moved(2, "1c - 9/8") == "read");
    CHECK(moved(4, "4/3") == "practised_too_far 6:36"); // onto the octave
    CHECK(moved(4, "4/3 - 1c") == "read");
    CHECK(moved(4, "- 6/5") == "practised_too_far 6:36"); // onto 5/4
    const std::string open = "period = 'none'\n";
    CHECK(said(practised_scale("{ degree = 4, moved = ['2/1'], source = 's' }", open)) == "read");
}

TEST_CASE("An index keeps intervals of every size and form") {
    const std::string file =
        "[[scale]]\nid = 'all'\nname = 'All'\nsource = 's'\nperiod = 'none'\n"
        "degrees = ['-3^53/2^84', '5^(1/4)', '31of53', '701.955c', "
        "{ interval = '1700c', uncertainty = '3c', note = 'A', name = 'top' }, "
        "'170141183460469231731687303715884105727/100000000000000000000']\n";
    const Folder folder(file);
    const Catalogue catalogue(folder.catalogue());
    const Scale read = *catalogue.find("all")->scale();
    const std::string same = file.substr(file.find("name = "));
    const Scale scale = read_scale_file(same, "file");
    REQUIRE(read.degrees.size() == scale.degrees.size());
    for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
        CHECK(read.degrees[i].interval == scale.degrees[i].interval);
        CHECK(to_expression(read.degrees[i].interval) == to_expression(scale.degrees[i].interval));
        CHECK(read.degrees[i].written == scale.degrees[i].written);
        CHECK(read.degrees[i].uncertainty == scale.degrees[i].uncertainty);
        CHECK(read.degrees[i].note == scale.degrees[i].note);
    }
}

TEST_CASE("An index keeps where performers sound degrees") {
    const Folder folder(practised_scale(
        "{ degree = 3, moved = ['-2of53', '-1of53'], source = 's, p. 1 (seen)' }, "
        "{ degree = 2, moved = ['81/80'], source = 'common practice, no source' }"));
    folder.make();
    const auto files = catalogue_files(folder.catalogue());
    REQUIRE(open_index(read_whole(folder.index(), 10'000), checksum(files)));
    const Entry entry = *Catalogue(folder.catalogue()).find("a");
    REQUIRE(entry.practised().size() == 2);
    const PractisedDegree& third = entry.practised()[0];
    CHECK(third.degree == 3);
    CHECK(to_expression(third.from) == "-2of53");
    CHECK(to_expression(third.to) == "-1of53");
    CHECK(third.source == "s, p. 1 (seen)");
    const PractisedDegree& second = entry.practised()[1];
    CHECK(second.degree == 2);
    CHECK(second.from == Interval::from_ratio(81, 80));
    CHECK(second.to == second.from);
    CHECK(second.source == "common practice, no source");
    CHECK(entry.form_of() == "b"); // what stands behind them in the index
    CHECK(entry.common());
    CHECK(entry.most_used());
}

TEST_CASE("An index answers like the files") {
    const auto files = catalogue_files(support::data_dir() / "catalogue");
    const std::string index = make_index(files, support::data_dir() / "catalogue");
    const auto opened = open_index(index, checksum(files));
    REQUIRE(opened);
    CHECK(opened->entries.size() == Catalogue::installed().all().size());
    for (std::size_t i = 0; i < opened->entries.size(); ++i)
        CHECK(opened->entries[i].id == Catalogue::installed().all()[i].id);
    CHECK(opened->works.size() > 100);
}

TEST_CASE("An index holds the works, with and without author and year, and heeds their changes") {
    const Folder folder(fifth);
    const auto works = folder.catalogue() / "../sources.toml";
    write_whole(works, "[[source]]\nkey = 'b-2'\ntitle = 'Second'\nyear = '1590'\n"
                       "[[source]]\nkey = 'a-1'\nauthor = 'A. Writer'\ntitle = 'First'\n");
    folder.make();
    const Catalogue catalogue(folder.catalogue());
    CHECK(catalogue.reference("a-1") == "A. Writer, First");
    CHECK(catalogue.reference("b-2") == "Second (1590)");
    CHECK_FALSE(catalogue.reference("a-2"));
    CHECK_FALSE(catalogue.reference("z"));
    write_whole(works, "[[source]]\nkey = 'a-1'\ntitle = 'Renamed'\n");
    CHECK(Catalogue(folder.catalogue()).reference("a-1") == "Renamed");
    write_whole(works, "[[source]]\ntitle = 'Nameless'\n");
    CHECK_THROWS_WITH(Catalogue(folder.catalogue()), Catch::Contains("sources.toml"));
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
            CHECK(opened->entries.empty()); // cut exactly before the first entry
        else
            CHECK_FALSE(opened);
    }
}

TEST_CASE("An index of which one byte was changed is not used") {
    const Folder folder(fifth);
    const auto files = catalogue_files(folder.catalogue());
    const std::string index = make_index(files, folder.catalogue());
    for (std::size_t i = 0; i < index.size(); ++i) {
        std::string damaged = index;
        damaged[i] = static_cast<char>(damaged[i] ^ 4);
        CHECK_FALSE(open_index(damaged, checksum(files)));
    }
}

TEST_CASE("Bytes of an entry whose marks are neither yes nor no are refused") {
    Scale scale = parse_degrees("9/8", "");
    scale.name = "n";
    Entry entry{"a", "a", {}, "s", "", ScaleFacts{{scale, "t", ""}, "", {}, {}, "", true, true}};
    ByteWriter writer;
    write_entry(writer, entry);
    std::string bytes = writer.take();
    const auto read = [&] {
        ByteReader reader(bytes);
        return read_entry(reader).most_used();
    };
    CHECK(read());
    REQUIRE(bytes.back() == 1); // the last mark: among the most used
    bytes.back() = 0;
    CHECK_FALSE(read());
    bytes.back() = 2;
    CHECK_THROWS_AS(read(), Damaged);
}

TEST_CASE("A tonic is named by its note where all other degrees have notes alone") {
    const auto tonic = [](std::string_view keys, std::string_view degrees) {
        const Folder folder("[[scale]]\nid = 'a'\nname = 'a'\nsource = 's'\n" + std::string(keys)
                            + "\ndegrees = [" + std::string(degrees) + "]\n");
        const Catalogue catalogue(folder.catalogue());
        const Degree& first = catalogue.all().at(0).scale()->degrees.front();
        return first.name + "/" + first.note;
    };
    const char* notes = "{ interval = '9/8', note = 'D' }, '5/4'";
    const char* names = "{ interval = '9/8', note = 'D', name = 'second' }, '5/4'";
    CHECK(tonic("tonic_name = 'C'", notes) == "/C");
    CHECK(tonic("tonic_name = 'C'", names) == "C/");
    CHECK(tonic("tonic_name = 'ground'", "'9/8', '5/4'") == "ground/");
    CHECK(tonic("tonic_name = 'ground'\nfirst_note = 'C'", notes) == "ground/C");
}

TEST_CASE("A note name of the catalogue that is none is refused where it stands") {
    const std::string head = "[[scale]]\nid = 'a'\nname = 'a'\nsource = 's'\n";
    const std::string degrees = "\ndegrees = [{ interval = '9/8', note = 'D' }]\n";
    CHECK(said(head + "first_note = 'C#'" + degrees) == "read");
    CHECK(said(head + "first_note = 'Q'" + degrees) == "expected_pitch 5:15");
    CHECK(said(head + "tonic_name = 'ground'" + degrees) == "text_after_note 5:16");
}
