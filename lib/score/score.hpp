#pragma once
/// @file
/// A score as it is written: notes with their letters, signs and `alter`, and where in the bytes an
/// annotation may go. Nothing is interpreted here; reading.hpp does that.

#include <sectio/score/document.hpp>
#include <sectio/score/signs.hpp>
#include <sectio/score/time.hpp>
#include <sectio/score/xml.hpp>

#include <array>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <string>
#include <vector>

namespace sectio::score {

/// What one note says of its own pitch, but for the octave.
struct Spelling {
    char step = 'C';                   ///< A to G
    Sign sign = no_sign;               ///< its <accidental>
    std::optional<QuarterNotes> alter; ///< its <alter>, in semitones; empty where it is absent
    auto operator<=>(const Spelling&) const = default;
};

/// One altered step of a key signature that is not a count of fifths.
struct KeyStep {
    char step = 'C';
    QuarterNotes alter;  ///< <key-alter>: semitones by the standard, commas in some Turkish scores
    Sign sign = no_sign; ///< <key-accidental>
    auto operator<=>(const KeyStep&) const = default;
};

/// A key signature: of fifths, or of altered steps.
struct Key {
    int fifths = 0;
    std::vector<KeyStep> steps;
    auto operator<=>(const Key&) const = default;
};

/// What must be added to a written pitch to get the sounding one.
struct Transposition {
    int diatonic = 0;       ///< steps of the staff
    QuarterNotes chromatic; ///< semitones
    int octaves = 0;
    bool stated_diatonic = false; ///< the score gives `diatonic`; otherwise it is derived
    auto operator<=>(const Transposition&) const = default;
};

/// One pitched note. `…_at` are bytes of the document.
struct Note {
    enum Flag : std::uint16_t {
        chord = 1, ///< sounds with the note before it
        grace = 2,
        cue = 4,
        tie_start = 8,
        tie_stop = 16,
        hidden = 32,      ///< print-object="no"
        phrase_end = 128, ///< has a fermata, breath mark or caesura, or a final bar line follows
        in_entity = 64,   ///< stands in an entity: no byte of the document is its own
    };
    std::uint64_t head_at = 0;    ///< `<` of the first note of its chord, or its own
    std::uint64_t lyric_at = 0;   ///< where a further lyric of this note goes
    QuarterNotes onset, duration; ///< in quarter notes from the start of its part
    std::uint32_t measure = 0;    ///< in Score::measures
    std::uint16_t part = 0, spelling = 0, key = 0, transposition = 0, voice = 0;
    std::uint16_t tied = 0; ///< the spelling of the note that it is tied to, or its own
    std::uint16_t flags = 0;
    std::uint16_t staff = 0;  ///< 0 where the note names none
    std::uint16_t passes = 0; ///< of a repeat, in which it sounds: in Score::pass_lists
    std::int8_t octave = 4;
    std::uint8_t velocity = 0; ///< of this note alone; 0 where the marks before it say its loudness

    bool is(Flag flag) const { return (flags & flag) != 0; }
};

struct Part {
    std::string id, name;
    std::optional<int> program; ///< of its first instrument, 0 to 127 as MIDI counts
    bool percussion = false;    ///< its instrument plays on MIDI channel 10
    /// In Score::bars. In a timewise score all parts have the same.
    std::size_t first_bar = 0, end_bar = 0;
};

/// One measure in time, and how it is repeated.
struct Bar {
    QuarterNotes start, end;    ///< in quarter notes from the start of its part
    bool repeat_begins = false; ///< a repeat leads back to its start
    /// A repeat stands at its end: how often it is played, at most as often as here; 0 for none.
    static constexpr int most_times = 999'999'999;
    int times = 0;
    std::uint32_t passes = 0; ///< an ending begins: bit 0 for the first pass; 0 for none
    bool ending_ends = false;
};

/// Something said for playing alone.
struct PlayingMark {
    QuarterNotes at; ///< by its offset; beyond its bar it counts at the end of that
    std::uint16_t part = 0;
    std::uint32_t bar = 0;                ///< in Score::bars
    std::optional<QuarterNotes> tempo;    ///< quarter notes a minute, above 0
    std::optional<QuarterNotes> loudness; ///< percent of the usual, which is velocity 90
    std::optional<int> program = {};      ///< that the part goes on with, 0 to 127 as MIDI counts
    std::uint16_t passes = 0;             ///< of a repeat, in which it holds: in Score::pass_lists
};

/// The MIDI velocity, 1 to 127, that is `percent` of the usual 90 (MusicXML 4.0, attributes
/// `dynamics`).
std::uint8_t velocity_of(QuarterNotes percent);

/// Notes that have no pitch of their own.
struct NotesWithoutPitch {
    std::size_t rests = 0, unpitched = 0;
};

/// What the first page's legend needs to know. Lengths are tenths of a staff space.
struct PageMarks {
    std::optional<std::uint64_t> part_list_at;   ///< `<` of <part-list>
    std::optional<std::uint64_t> first_music_at; ///< `<` of what follows the first measure's tag
    std::optional<QuarterNotes> height, width, left, right, top,
        bottom;                                ///< of the page and its margins
    bool credits = false;                      ///< the score has texts of its own on its pages
    std::optional<QuarterNotes> lowest_credit; ///< lowest default-y of page 1
    std::string work, movement;                ///< titles
    std::string composer, lyricist;
};

struct Score {
    bool timewise = false;
    std::string version; ///< as stated; "1.0" where it is not
    Encoding encoding = Encoding::utf8;
    std::vector<Part> parts;
    std::vector<std::string> measures; ///< numbers as printed; they need not be numbers
    std::vector<Bar> bars;             ///< the same measures in time
    std::vector<PlayingMark> played;   ///< in the order of the document
    std::size_t jumps = 0;             ///< da capo, dal segno, to coda
    std::deque<Note> notes;            ///< in the order of the document
    std::vector<Spelling> spellings;
    std::vector<Key> keys;
    std::vector<Transposition> transpositions;
    std::vector<std::string> voices; ///< the first is "": no voice named
    /// Numbers of passes in rising order, from 1; place 0 stands for every pass.
    std::vector<std::vector<int>> pass_lists;
    NotesWithoutPitch without_pitch;
    std::map<std::string, std::size_t> unknown_signs; ///< <accidental> values outside the standard
    bool names_a_makam = false;                       ///< a text of the score has the word "makam"
    std::uint32_t lyric_lines = 0;   ///< highest number of a lyric; 1 for a lyric without
    std::uint32_t largest_chord = 1; ///< notes
    PageMarks page;
};

/// Reads the music of `document`.
/// @throws Error not_a_score, score_is_opus, score_step, score_number and those of read_xml()
Score read_score(const Document& document);

/// Refuses a score that a program made with notes, bars or marks in parts, measures, spellings,
/// keys, voices, lists of passes or transpositions that it does not have, or repeats beyond
/// Bar::most_times.
/// @throws Error unfit_argument
void check(const Score& score);

} // namespace sectio::score
