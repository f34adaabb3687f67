#pragma once
/// @file
/// A score as a file: its bytes, and the archive around them if it came in one (.mxl).

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sectio::score {

/// The archive that a compressed score came in, whole.
struct Archive {
    std::string bytes;
    std::uint64_t index = 0; ///< which entry the score is
    std::string entry;       ///< its name inside the archive; never used as a path on disk
};

/// The bytes of one MusicXML document.
struct Document {
    std::string source; ///< named in errors: the path, with "#entry" for an archive
    std::string bytes;
    std::optional<Archive> archive;
    std::size_t earlier_texts = 0; ///< of an earlier annotation, which `bytes` no longer has
};

/// Reads the file at `path`, or standard input where it is "-". An archive is known by its first
/// bytes, whatever its ending.
/// @throws Error score_unreadable, score_empty, score_too_large, insertion_open and those of
/// unpack()
Document read_document(const std::string& path);

/// The same for a file's bytes that are already here; `source` names them in errors.
Document document_of(std::string bytes, std::string source);

/// Whether these are the first bytes of a ZIP archive (APPNOTE 6.3, sections 4.3.7 and 4.3.16).
bool is_archive(std::string_view bytes);

/// The score in a compressed file, found by META-INF/container.xml: the first root file that is
/// MusicXML by its media type, or has none. Source: MusicXML 4.0, "Compressed .mxl files".
/// @throws Error archive_damaged, archive_too_large, archive_without_score, archive_score_missing,
///         archive_encrypted
Document unpack(std::string bytes, const std::string& source);

/// A compressed file of this one score. Source: MusicXML 4.0, "Compressed .mxl files".
std::string pack(std::string_view score);

/// The archive with the score's entry replaced by `score`; every other entry keeps its bytes.
/// @throws Error archive_damaged
std::string repack(const Archive& archive, std::string_view score, const std::string& source);

} // namespace sectio::score
