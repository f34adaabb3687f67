// MIDI files of other programs: read, written, read again; the damaged ones refused.

#include <sectio/tuning/midi_file.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>

using namespace sectio;

TEST_CASE("MIDI files of other programs come back event by event") {
    const auto folder = support::corpus_dir("midi");
    if (!folder)
        SECTIO_SKIP("the corpus of MIDI files is not there");
    int read = 0;
    for (const auto& entry : support::fs::directory_iterator(*folder)) {
        const std::string name = entry.path().filename().string();
        if (entry.path().extension() != ".mid" || name.starts_with("test-corrupt")
            || name == "test-empty-file.mid" || name == "test-not-a-midi-file.mid"
            || name == "test-2-tracks-type-0.mid")
            continue;
        CAPTURE(name);
        const midi::File file = midi::read_file(entry.path());
        CHECK(midi::read_file(midi::file_bytes(file), name) == file);
        ++read;
    }
    CHECK(read >= 6);
}

TEST_CASE("Damaged MIDI files are refused with their reason") {
    const auto folder = support::corpus_dir("midi");
    if (!folder)
        SECTIO_SKIP("the corpus of MIDI files is not there");
    const auto [file, name] = GENERATE(table<const char*, const char*>(
        {{"test-empty-file.mid", "midi_empty"},
         {"test-not-a-midi-file.mid", "midi_no_header"},
         {"test-2-tracks-type-0.mid", "midi_too_many_tracks"}, // format 0 is one track
         {"test-corrupt-file-extra-byte.mid", "midi_not_a_chunk"},
         {"test-corrupt-file-missing-byte.mid", "midi_chunk_cut"}}));
    CAPTURE(file);
    CHECK(support::name_of(support::error_of([&, path = *folder / file] { midi::read_file(path); }))
          == name);
}
