// Real MusicXML files: each annotated or refused with a reason, valid after where valid before,
// every byte of the input kept.

#include <sectio/scale/catalogue.hpp>
#include <sectio/score/annotation.hpp>

#include <support/errors.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>
#include <support/xml_events.hpp>

#include <algorithm>
#include <set>

using namespace sectio;
using namespace sectio::score;
namespace fs = std::filesystem;

namespace {

bool is_score_file(const fs::path& file) {
    const std::string ending = file.extension().string();
    return ending == ".xml" || ending == ".musicxml" || ending == ".mxl";
}

std::vector<fs::path> files_of(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.is_regular_file() && is_score_file(entry.path()))
            files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

std::vector<fs::path> all_files() {
    std::vector<fs::path> files;
    for (const char* folder : {"musicxml", "symbtr"})
        if (const auto corpus = support::corpus_dir(folder))
            for (const fs::path& file : files_of(*corpus))
                files.push_back(file);
    return files;
}

/// Made to be unusable: what the reader has to say of each.
const std::map<std::string, std::string> refused{
    {"empty.xml", "score_empty"},
    {"notmusic.xml", "not_a_score"},
    {"truncated.xml", "xml_not_well_formed"},
    {"entity-bomb.xml", "xml_entity_bomb"},
    {"xxe.xml", "xml_external_entity"},
    {"mxl-truncated.mxl", "archive_damaged"},
    {"mxl-nocontainer.mxl", "archive_without_score"},
};

std::unique_ptr<NoteTuning> meantone() {
    return tuning_by_system(Catalogue::installed().find("quarter-comma-meantone").value(), "D4");
}

/// By libxml2's xmllint, offline, with the W3C's MusicXML 4.0 schema.
bool valid(const fs::path& schema, const fs::path& file) {
    return support::run(
               {"xmllint", "--nonet", "--noout", "--schema", schema.string(), file.string()})
               .exit_code
           == 0;
}

} // namespace

TEST_CASE(
    "Every file of the corpus is annotated with all its bytes kept, or refused with a reason") {
    const auto files = all_files();
    if (files.empty())
        SECTIO_SKIP("the corpus is not there");
    const auto tuning = meantone();
    for (const fs::path& file : files) {
        INFO(file);
        const auto expected = refused.find(file.filename().string());
        if (expected != refused.end()) {
            const auto error = support::error_of([&] { read_score(read_document(file.string())); });
            CHECK(support::name_of(error) == expected->second);
            continue;
        }
        const Document document = read_document(file.string());
        const Score score = read_score(document);
        if (const auto plain = support::plain_events_of(document.bytes))
            CHECK(plain == support::events_of(document.bytes));
        for (const TextKind kind : {TextKind::words, TextKind::lyric}) {
            AnnotationOptions options;
            options.kind = kind;
            const Annotation a = annotate(score, *tuning, options);
            const Document after = document_of(annotated_file(document, a), "annotated");
            CHECK(after.bytes == document.bytes);
            CHECK(a.notes == a.annotated + a.skipped + a.unmatched.size());
            const Score again = read_score(after);
            CHECK(again.notes.size() == score.notes.size());
            CHECK(again.spellings == score.spellings);
        }
    }
}

TEST_CASE("Scores that are valid stay valid") {
    const auto files = all_files();
    const auto shared = support::shared_dir();
    if (files.empty() || !shared || !fs::exists(*shared / "xsd" / "musicxml.xsd"))
        SECTIO_SKIP("the corpus or the schema is not there");
    if (!support::has_program("xmllint"))
        SECTIO_SKIP("xmllint is not installed");
    const fs::path schema = *shared / "xsd" / "musicxml.xsd";
    const auto tuning = meantone();
    const support::TempDir folder;
    std::size_t valid_files = 0;
    for (const fs::path& file : files) {
        if (refused.contains(file.filename().string()))
            continue;
        INFO(file);
        const Document document = read_document(file.string());
        support::write_file(folder / "before.xml", document.bytes);
        if (!valid(schema, folder / "before.xml"))
            continue;
        ++valid_files;
        for (const TextKind kind : {TextKind::words, TextKind::lyric}) {
            AnnotationOptions options;
            options.kind = kind;
            const Annotation a = annotate(read_score(document), *tuning, options);
            support::write_file(folder / "after.xml", a.insertions.applied(document.bytes));
            CHECK(valid(schema, folder / "after.xml"));
        }
    }
    CHECK(valid_files > 50);
}

TEST_CASE("A timewise pivot of a score has the same notes") {
    const auto corpus = support::corpus_dir("musicxml");
    if (!corpus)
        SECTIO_SKIP("the corpus is not there");
    const std::map<std::string, std::string> pivots{
        {"timewise-43a.xml", "43a-PianoStaff.xml"},
        {"timewise-33b.xml", "33b-Spanners-Tie.xml"},
        {"timewise-01d.xml", "01d-Pitches-Microtones.xml"},
        {"timewise-72a.xml", "72a-TransposingInstruments.xml"}};
    const auto notes = [](const fs::path& file) {
        const Score score = read_score(read_document(file.string()));
        std::multiset<std::tuple<std::string, Spelling, int, QuarterNotes, QuarterNotes>> out;
        for (const Note& note : score.notes)
            out.emplace(score.parts[note.part].id, score.spellings[note.spelling], note.octave,
                        note.onset, note.duration);
        return out;
    };
    std::size_t compared = 0;
    for (const auto& [pivot, original] : pivots) {
        const fs::path timewise = *corpus / "derived" / pivot, partwise = *corpus / original;
        if (!fs::exists(timewise) || !fs::exists(partwise))
            continue;
        INFO(pivot);
        CHECK(notes(timewise) == notes(partwise));
        ++compared;
    }
    CHECK(compared > 0);
}
