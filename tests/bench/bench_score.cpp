// Annotating beside loading and saving the same file with pugixml (pugixml.org), an independent XML
// library known for its speed. Files are made here: one part, four notes a measure.

#include <sectio/score/annotation.hpp>

#include <benchmark/benchmark.h>
#include <pugixml.hpp>

#include <filesystem>
#include <fstream>

namespace {

using namespace sectio::score;
namespace fs = std::filesystem;

std::string note(std::size_t index) {
    const char step = "DEFGABC"[index % 7];
    const bool sharp = step == 'F' || step == 'C';
    return "      <note default-x=\"" + std::to_string(80 + index % 4 * 40)
           + "\">\n        <pitch>\n          <step>" + step + "</step>\n"
           + (sharp ? "          <alter>1</alter>\n" : "") + "          <octave>"
           + std::to_string(4 + index / 7 % 2)
           + "</octave>\n        </pitch>\n        <duration>1</duration>\n        "
             "<voice>1</voice>\n"
             "        <type>quarter</type>\n        <stem>up</stem>\n      </note>\n";
}

/// A file of `notes` notes in the folder for temporary files, made once.
fs::path file_of(std::size_t notes) {
    const fs::path file =
        fs::temp_directory_path() / ("sectio-bench-" + std::to_string(notes) + ".musicxml");
    if (fs::exists(file))
        return file;
    std::ofstream out(file, std::ios::binary);
    out << "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<score-partwise version=\"4.0\">\n  "
           "<part-list>\n"
           "    <score-part id=\"P1\">\n      <part-name>Zither</part-name>\n    </score-part>\n  "
           "</part-list>\n"
           "  <part id=\"P1\">\n";
    for (std::size_t i = 0; i < notes; i += 4) {
        out << "    <measure number=\"" << i / 4 + 1 << "\">\n";
        for (std::size_t k = i; k < i + 4; ++k)
            out << note(k);
        out << "    </measure>\n";
    }
    out << "  </part>\n</score-partwise>\n";
    return file;
}

fs::path result() {
    return fs::temp_directory_path() / "sectio-bench-out.musicxml";
}

void annotate_file(benchmark::State& state) {
    const fs::path file = file_of(static_cast<std::size_t>(state.range(0)));
    const auto tuning = tuning_by_division(sectio::EqualDivision(53), "D4");
    for (auto unused : state) {
        static_cast<void>(unused);
        const Document document = read_document(file.string());
        const Annotation annotation = annotate(read_score(document), *tuning, {});
        write_annotated(document, annotation, result());
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}

void pugixml_load_and_save(benchmark::State& state) {
    const fs::path file = file_of(static_cast<std::size_t>(state.range(0)));
    for (auto unused : state) {
        static_cast<void>(unused);
        pugi::xml_document document;
        document.load_file(file.c_str());
        document.save_file(result().c_str());
    }
    state.SetItemsProcessed(state.iterations() * state.range(0));
}

BENCHMARK(annotate_file)
    ->Arg(100'000)
    ->Arg(1'000'000)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK(pugixml_load_and_save)
    ->Arg(100'000)
    ->Arg(1'000'000)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

} // namespace
