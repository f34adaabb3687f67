// Everything that is made at its first use is asked for by eight at once.
// Under -DSECTIO_SANITIZE=thread a race is told, too.

#include <sectio/identify/identify.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/sheet/sheet.hpp>

#include <catch2/catch.hpp>

#include <array>
#include <cstdlib>
#include <thread>

using namespace sectio;

namespace {

/// The catalogue by id, by name and whole; a sheet in each format; a set named.
std::string answers() {
    const Catalogue& catalogue = Catalogue::installed();
    std::string text = std::to_string(catalogue.all().size());
    text += catalogue.named("syntonic comma").at(0).id + catalogue.hint("rats");
    const page::Page sheet = sheet_page(compare(*catalogue.find("hicaz")->scale()));
    for (const auto print :
         {page::print_text, page::print_json, page::print_html, page::print_svg, page::print_pdf})
        text += print(sheet, {});
    const Identification named =
        identify(to_melody(parse_pitches("204c, 386c, 498c, 702c")), ScaleLibrary::installed());
    for (const Candidate& candidate : named.candidates)
        text += candidate.scale->entry.id + std::to_string(candidate.probability);
    return text;
}

} // namespace

TEST_CASE("Eight threads at once get the answers that one gets") {
    ::setenv("SOURCE_DATE_EPOCH", "1700000000", 1);
    std::array<std::string, 8> at_once;
    std::array<std::thread, 8> threads;
    for (std::size_t i = 0; i < threads.size(); ++i)
        threads[i] = std::thread([&text = at_once[i]] { text = answers(); });
    for (std::thread& thread : threads)
        thread.join();
    const std::string alone = answers();
    CHECK(alone.size() > 20'000);
    for (const std::string& text : at_once)
        CHECK((text == alone));
    ::unsetenv("SOURCE_DATE_EPOCH");
}
