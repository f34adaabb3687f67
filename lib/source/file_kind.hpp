#pragma once
/// @file
/// What a file is, by its first bytes and its ending.

#include <filesystem>
#include <string>
#include <string_view>

namespace sectio::source {

enum class FileKind { score, midi, messages, recording, text };

/// `head` are the first bytes, a few hundred or all of them. Sources: RIFF, AIFF, FLAC,
/// Ogg and ZIP by their own signatures; Standard MIDI Files 1.0; XML 1.0, appendix F.
FileKind file_kind(std::string_view head, const std::string& name);

/// Refuses a file whose first bytes or ending show that it is of another kind: MIDI, a recording,
/// a PDF file, a picture.
/// @throws Error not_a_score_but
void check_score(std::string_view head, const std::string& name);

/// The same for a recording.
/// @throws Error not_a_recording_but
void check_recording(std::string_view head, const std::string& name);

/// The same for a table of readings.
/// @throws Error not_a_table_but
void check_table(std::string_view head, const std::string& name);
/// The text of a table that lies in `file`. @throws Error of check_table() and read_text()
std::string table_text(const std::string& file);

/// Refuses a PDF file and a picture, which no command reads. Sources: ISO 32000-1, 7.5.2; PNG
/// (ISO 15948), JPEG (ISO 10918-1), GIF 89a and TIFF 6.0 by their signatures.
/// @throws Error not_read_here
void check_readable(std::string_view head, const std::string& name);

/// As many bytes as tell most kinds.
inline constexpr std::size_t head_bytes = 1024;

/// The first bytes of a file; none of one that cannot be read.
std::string head_of(const std::filesystem::path& file);

} // namespace sectio::source
