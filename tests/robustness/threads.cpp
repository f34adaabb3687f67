// Everything that is made at its first use is asked for by eight at once.
// Under -DSECTIO_SANITIZE=thread a race is told, too.

#include <sectio/base/file.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/recording.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/score/annotation.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sound/listening.hpp>
#include <sectio/sound/wave_file.hpp>
#include <sectio/tuning/retuning.hpp>

#include <catch2/catch.hpp>
#include <support/paths.hpp>

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

/// A folder with a recording and a catalogue of its own.
class Folder {
  public:
    Folder() {
        const TunedScale scale = tuned(parse_degrees("9/8, 5/4", ""), {.tonic = "D4"});
        write_whole(recording(), sound::wave_bytes(sound::samples_of(
                                     sound::listen_to(scale, {.note_seconds = 0.5}))));
        std::filesystem::create_directories(catalogue());
        write_whole(
            catalogue() / "own.toml",
            "[[interval]]\nid = 'own'\nname = 'Own'\nsource = 'invented'\ninterval = '3/2'\n");
        write_whole(folder_.path() / "sources.toml", "");
    }
    std::filesystem::path recording() const { return folder_.path() / "scale.wav"; }
    std::filesystem::path catalogue() const { return folder_.path() / "catalogue"; }

  private:
    support::TempDir folder_;
};

/// Files read, a recording measured and its melody named, a score annotated, a tuning made.
std::string answers_of_files(const Folder& folder) {
    const TunedScale rast = tuned(Catalogue::installed().scale("rast"), {.tonic = "D4"});
    std::string text =
        tuning::tuning_bytes(rast)
        + score::annotated(support::read_file(support::data_dir() / "examples/goose-walk.musicxml"),
                           rast)
        + Catalogue(folder.catalogue()).all().at(0).name;
    const measure::Recording recording = measure::listen(folder.recording());
    for (const measure::RecordedNote& note : recording.notes)
        text += std::to_string(note.pitch.hz) + ' ';
    const Identification named = identify(measure::melody_of(recording));
    return text + std::to_string(named.none_probability);
}

/// What eight threads at once answer, and what one answers after them, are the same.
template <typename Answers>
void ask_at_once(std::size_t least, Answers answers) {
    std::array<std::string, 8> at_once;
    std::array<std::thread, 8> threads;
    for (std::size_t i = 0; i < threads.size(); ++i)
        threads[i] = std::thread([&text = at_once[i], &answers] { text = answers(); });
    for (std::thread& thread : threads)
        thread.join();
    const std::string alone = answers();
    CHECK(alone.size() > least);
    for (const std::string& text : at_once)
        CHECK((text == alone));
}

} // namespace

TEST_CASE("Eight threads at once get the answers that one gets") {
    ::setenv("SOURCE_DATE_EPOCH", "1700000000", 1);
    ask_at_once(20'000, answers);
    ::unsetenv("SOURCE_DATE_EPOCH");
}

TEST_CASE("Eight threads at once read files, measure, annotate and tune as one does") {
    const Folder folder;
    ask_at_once(5000, [&] { return answers_of_files(folder); });
}
