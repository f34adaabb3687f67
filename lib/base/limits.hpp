#pragma once
/// @file
/// Every limit that Sectio puts on its input, in one place. A request beyond a limit is refused at
/// once with an error that names the limit; it is never tried slowly. docs/limits.md repeats these.

#include <cstddef>
#include <cstdint>

namespace sectio::limits {

/// Bits of a numerator or denominator, typed or printed.
inline constexpr std::size_t term_bits = 4096;
/// Bits of the numerator or denominator of an exponent, of a step number, of a count in `N x I`.
inline constexpr std::size_t exponent_bits = 256;
/// Digits after the point that a size may be asked for.
inline constexpr int decimal_digits = 10'000;
/// Characters of one expression.
inline constexpr std::size_t expression_characters = 100'000;
/// Parentheses inside parentheses in one expression.
inline constexpr int expression_nesting = 100;
/// Different factors of one interval; their number enters the cost of a sum squared.
inline constexpr std::size_t different_factors = 1000;
/// Bits of working precision after which a rounding or an order is given up as undecided.
inline constexpr long precision_bits = 1L << 18;
/// Octaves above or below 1 Hz within which a pitch has a printable frequency.
inline constexpr int pitch_octaves = 64;
/// Steps of an equal division for which tables are made; exact steps may be finer.
inline constexpr std::int64_t division_steps = 10'000'000;
/// Rows that one table of divisions or commas lists.
inline constexpr std::int64_t listed_rows = 100'000;
/// Targets of one table of divisions.
inline constexpr std::size_t division_targets = 10'000;
/// Targets of a list up to which all pairs are searched for sums, for consistency.
inline constexpr std::size_t consistency_targets = 256;
/// Quotients of one continued fraction.
inline constexpr std::size_t quotients = 1'000'000;
/// Ratios that one enumeration lists.
inline constexpr std::size_t listed_ratios = 2'000'000;
/// Whole numbers of a prime limit that one enumeration holds.
inline constexpr std::size_t smooth_numbers = 4'000'000;
/// Characters of one length, with its half width.
inline constexpr std::size_t length_characters = 100;
/// Bytes of a scale file.
inline constexpr std::size_t scale_file_bytes = 1 << 20;
/// Pitches of one set or notes of one melody that is identified.
inline constexpr std::size_t identified_pitches = 100'000;
/// Bytes of a table of pitches.
inline constexpr std::size_t table_bytes = 16 << 20;
/// Degrees of one scale.
inline constexpr std::size_t scale_degrees = 10'000;
/// Pairs of degrees of two scales that are moved to their best fit.
inline constexpr std::size_t compared_pairs = 10'000'000;
/// Degrees of a scale whose interval matrix is made.
inline constexpr std::size_t matrix_degrees = 400;
/// Octaves that the pitches of one set or melody span which is identified.
inline constexpr int identified_octaves = 64;
/// Divisions that one sheet compares a scale with.
inline constexpr std::size_t compared_divisions = 12;
/// Digits after the point of cents on a printed page.
inline constexpr int printed_digits = 6;
/// Marks of one division on a printed ruler; those of a finer one are not drawn.
inline constexpr std::int64_t ruler_marks = 10'000'000;

/// Strings of one instrument.
inline constexpr std::size_t instrument_strings = 1000;
/// Metres of a string whose frets are planned.
inline constexpr int string_metres = 100;
/// A saddle stands at most this part of a string's nominal length before or behind its end.
inline constexpr int compensation_part = 10;
/// Places of degrees on all strings of one plan of frets.
inline constexpr std::size_t planned_stops = 10'000;

/// Bytes of a score, as a plain file or unpacked from an archive.
inline constexpr std::size_t score_bytes = std::size_t{1} << 30;
/// Entries of a compressed score.
inline constexpr std::size_t archive_entries = 10'000;
/// Bytes of all entries of a compressed score together, unpacked.
inline constexpr std::size_t archive_bytes = std::size_t{1} << 30;
/// Unpacked bytes for one packed byte, where an entry unpacks to more than archive_free_bytes.
inline constexpr std::size_t archive_ratio = 400;
/// Unpacked bytes of one entry for which the ratio is not asked.
inline constexpr std::size_t archive_free_bytes = std::size_t{1} << 24;
/// Elements inside one another in a score.
inline constexpr std::size_t xml_nesting = 256;
/// Entities that a score's own document type may declare; this also bounds their nesting.
inline constexpr std::size_t xml_entities = 100;
/// Times by which expanded entities may lengthen a score, once they exceed xml_free_bytes.
inline constexpr float xml_amplification = 4.0F;
/// Bytes of expanded entities for which the amplification is not asked.
inline constexpr std::size_t xml_free_bytes = std::size_t{1} << 16;
/// Bytes that the reader of scores keeps of one text (a step, a number, a part's name).
inline constexpr std::size_t score_text_bytes = 4096;
/// Different spellings, keys, transpositions or voices of one score.
inline constexpr std::size_t score_variety = 60'000;
/// Bytes of a MIDI file, or of a file of system exclusive messages.
inline constexpr std::size_t midi_file_bytes = 16 << 20;
/// Seconds of the sound of a scale, which is made in memory.
inline constexpr double sound_seconds = 900;
/// Drones that sound together.
inline constexpr std::size_t drones = 32;
/// Seconds of the sound of a score.
inline constexpr int music_seconds = 3600;
/// Octaves a written note may lie away from the octave of middle C.
inline constexpr int score_octaves = 20;
/// Semitones or commas by which a written note, or a step of a key signature, may be altered.
inline constexpr int score_alteration = 53;
/// Notes that a score has when its repeats are played; as many bars of all its parts, and as many
/// marks of tempo, loudness and program.
inline constexpr std::size_t performed_notes = 10'000'000;

/// Frames a second of a recording, at least and at most.
inline constexpr int least_sound_rate = 4000;
inline constexpr int sound_rate = 768'000;
/// Channels of a recording.
inline constexpr int sound_channels = 256;
/// Hours of one recording.
inline constexpr int sound_hours = 12;
/// Bytes of a recording on standard input, which are kept in a temporary file.
inline constexpr std::size_t piped_sound_bytes = std::size_t{1} << 32;
/// Chunks of a WAVE file.
inline constexpr std::size_t wave_chunks = 10'000;

/// Bytes of one file that is put on the desk.
inline constexpr std::size_t desk_file_bytes = std::size_t{1} << 30;
/// Bytes of all that lies on the desk, and of one answer's files.
inline constexpr std::size_t desk_bytes = std::size_t{1} << 32;
/// Things on one page of the desk.
inline constexpr std::size_t desk_things = 200;
/// Pages of the desk that are open at once.
inline constexpr std::size_t desk_pages = 32;
/// Questions that the desk works at, at once.
inline constexpr std::size_t desk_jobs = 6;
/// Answers that the desk keeps for one page.
inline constexpr std::size_t desk_answers = 60;
/// Bytes of a text that is typed on the desk.
inline constexpr std::size_t desk_text_bytes = 20'000;
/// Bytes of the head of a request to the desk.
inline constexpr std::size_t desk_request_bytes = 1 << 18;
/// Connections to the desk at once; others wait.
inline constexpr unsigned desk_connections = 64;
/// Seconds without a word after which a connection to the desk ends, as of an upload that was cut.
inline constexpr unsigned desk_idle_seconds = 60;
/// Minutes after which the desk ends, and forgets a page, of which nothing was heard.
inline constexpr int desk_idle_minutes = 60;

/// Files that one command works on together.
inline constexpr std::size_t files_together = 1'000'000;

} // namespace sectio::limits
