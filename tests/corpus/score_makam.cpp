// Makam scores in MusicXML against the note tables that they were made from: the comma that the
// signs are read as, note by note. Data: SymbTr (CC BY-NC-SA 4.0), read where it lies.

#include <sectio/score/reading.hpp>
#include <sectio/score/written.hpp>

#include <support/errors.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <sstream>

using namespace sectio;
using namespace sectio::score;
namespace fs = std::filesystem;

namespace {

struct TableNote {
    int code = 0;    ///< 9 a note, 8 a grace note
    int comma53 = 0; ///< as practised; absolute commas, C4 = 265
    int commaAE = 0; ///< as written
};

std::map<int, TableNote> table_of(const fs::path& file) {
    std::istringstream lines(support::read_file(file));
    std::string line;
    std::getline(lines, line); // note_index code name53 nameAE comma53 commaAE num den
    std::map<int, TableNote> notes;
    while (std::getline(lines, line)) {
        std::vector<std::string> cells;
        std::istringstream cell_stream(line);
        for (std::string cell; std::getline(cell_stream, cell, '\t');)
            cells.push_back(cell);
        notes[std::stoi(cells.at(0))] = {std::stoi(cells.at(1)), std::stoi(cells.at(4)),
                                         std::stoi(cells.at(5))};
    }
    return notes;
}

/// The row number that stands in a comment inside the note.
int row_of(const Document& document, const Note& note) {
    const std::string mark = "symbtr_txt_note_index ";
    const std::size_t at = document.bytes.find(mark, note.head_at);
    return at < note.lyric_at ? std::stoi(document.bytes.substr(at + mark.size())) : -1;
}

/// Absolute commas: 53 an octave, C4 = 265.
Rational commas(const Score& score, const Note& note, const Alteration& alteration) {
    return 53 * (note.octave + 1) + commas_of_letter(score.spellings[note.spelling].step)
           + alteration.amount;
}

struct Counts {
    std::size_t notes = 0, right = 0, with_sign = 0, with_sign_right = 0, grace = 0,
                grace_unread = 0;
};

Counts compare(const fs::path& file, const ReadingChoice& choice, int TableNote::*column) {
    const Document document = read_document(file.string());
    const Score score = read_score(document);
    const Reading reading = choose_reading(score, choice);
    CHECK(reading.source == Source::sign);
    CHECK(reading.table == SignTable::turkish);
    const auto table = table_of(fs::path(file).replace_extension(".tsv"));
    Counts counts;
    for (const Note& note : score.notes) {
        const TableNote& truth = table.at(row_of(document, note));
        const auto found = alteration_of(score, note, reading);
        if (note.is(Note::grace)) {
            ++counts.grace;
            counts.grace_unread += std::holds_alternative<Unreadable>(found) ? 1 : 0;
            continue;
        }
        REQUIRE(std::holds_alternative<Alteration>(found));
        const bool right =
            commas(score, note, std::get<Alteration>(found)) == Rational(truth.*column);
        const bool sign = score.spellings[note.spelling].sign != no_sign;
        ++counts.notes;
        counts.right += right ? 1 : 0;
        counts.with_sign += sign ? 1 : 0;
        counts.with_sign_right += sign && right ? 1 : 0;
    }
    return counts;
}

std::vector<fs::path> scores() {
    std::vector<fs::path> files;
    if (const auto corpus = support::corpus_dir("symbtr"))
        for (const auto& entry : fs::directory_iterator(*corpus))
            if (entry.path().extension() == ".xml")
                files.push_back(entry.path());
    return files;
}

} // namespace

TEST_CASE("The written comma of every note that bears its sign is read, and of every plain one") {
    const auto files = scores();
    if (files.empty())
        SECTIO_SKIP("the makam scores are not there");
    std::size_t signs = 0, grace = 0;
    for (const fs::path& file : files) {
        INFO(file);
        const Counts counts = compare(file, {}, &TableNote::commaAE);
        CHECK(counts.with_sign_right == counts.with_sign);
        CHECK(counts.right == counts.notes);
        // The files have no sign on any grace note, so none of them is read.
        CHECK(counts.grace_unread == counts.grace);
        signs += counts.with_sign;
        grace += counts.grace;
    }
    CHECK(signs > 1000);
    CHECK(grace > 0);
}

TEST_CASE("The practised comma of the key signature's notes can be chosen") {
    const auto files = scores();
    if (files.empty())
        SECTIO_SKIP("the makam scores are not there");
    std::size_t written = 0, practised = 0, notes = 0;
    for (const fs::path& file : files) {
        INFO(file);
        written += compare(file, {}, &TableNote::comma53).right;
        const Counts counts = compare(file, {{}, {}, Signature::practised}, &TableNote::comma53);
        practised += counts.right;
        notes += counts.notes;
    }
    // The table's practised column also has changes that stand nowhere in the score, so not all
    // notes can be had; the signature's values must bring more of them than the signs alone.
    CHECK(practised > written);
    CAPTURE(written, practised, notes);
    CHECK(practised * 100 > notes * 95);
}
