// A program's own catalogue serves all that looks names and works up; the installed one is not
// asked.

#include <sectio/base/file.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/instrument/fret_page.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/pitch_list.hpp>
#include <sectio/scale/references.hpp>
#include <sectio/score/staff_notes.hpp>
#include <sectio/sheet/interval_page.hpp>
#include <sectio/sheet/sheet.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>

#include <filesystem>

using namespace sectio;

namespace {

constexpr std::string_view entries =
    "[[tradition]]\nname = 'Persian'\nsigns = 'persian'\nfamilies = ['mode']\n"
    "[[interval]]\nid = 'own'\nname = 'Own fifth'\nsource = 'maker-1'\ninterval = '3/2'\n"
    "[[scale]]\nid = 'zither'\nname = 'Zither'\ntradition = 'Persian'\nfamily = 'mode'\n"
    "source = 'maker-1'\ndegrees = ['9/8', '5/4', '704c']\n";

class OwnCatalogue {
  public:
    OwnCatalogue() {
        std::filesystem::create_directories(folder_.path() / "catalogue");
        write_whole(folder_.path() / "catalogue/own.toml", entries);
        write_whole(folder_.path() / "sources.toml",
                    "[[source]]\nkey = 'maker-1'\ntitle = 'Notes of the workshop'\n");
    }
    Catalogue read() const { return Catalogue(folder_.path() / "catalogue"); }

  private:
    support::TempDir folder_;
};

} // namespace

TEST_CASE("A catalogue of one's own serves references, staves, sheets and frets") {
    const Catalogue own = OwnCatalogue().read();
    const Scale zither = own.scale("zither");
    const std::string work = "Notes of the workshop";
    CHECK(with_references("maker-1", own) == work);
    CHECK(with_references("maker-1") == "maker-1");
    CHECK(score::usual_style(zither) == SignStyle::persian);

    const SheetOptions options{
        .pages = {"ruler", "table", "division", "staff"}, .systems = {zither}, .catalogue = &own};
    const std::string sheet = page::print_text(
        sheet_page(compare(zither, {.tonic = "D4", .divisions = {EqualDivision(31)}}), options));
    CHECK(sheet.find(work) != sheet.rfind(work)); // of the scale and of the system
    CHECK(sheet.find("maker-1") == std::string::npos);
    CHECK(sheet.find("Own fifth") != std::string::npos);

    FretRequest frets{.length = parse_length("620mm")};
    CHECK(page::print_text(fret_page(fret_sheet(zither, frets), own)).find(work)
          != std::string::npos);
    const std::vector<IntervalReport> reports{report("3/2", "", {}, own)};
    CHECK(page::print_text(interval_page(reports, {}, own)).find(work) != std::string::npos);
    const ScaleLibrary library(own.all());
    const Identification named = identify(to_melody(to_list(zither)), library);
    REQUIRE(!named.candidates.empty());
    CHECK(named.candidates[0].scale->entry.id == "zither");
}

TEST_CASE("A scale by its id, or an error that says what is there") {
    const Catalogue& catalogue = Catalogue::installed();
    CHECK(catalogue.scale("rast").degrees.size()
          == catalogue.find("rast")->scale()->degrees.size());
    const auto name = [&](const char* id) {
        return support::name_of(support::error_of([&] { catalogue.scale(id); }));
    };
    CHECK(name("rats") == "unknown_scale_id");
    CHECK(name("syntonic-comma") == "not_a_scale");
}
