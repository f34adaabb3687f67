#pragma once
/// @file
/// What a file is, by its first bytes and its ending.

#include <string>
#include <string_view>

namespace sectio::source {

enum class FileKind { score, midi, messages, recording, text };

/// `head` are the first bytes, a few hundred or all of them. Sources: RIFF, AIFF, FLAC,
/// Ogg and ZIP by their own signatures; Standard MIDI Files 1.0; XML 1.0, appendix F.
FileKind file_kind(std::string_view head, const std::string& name);

/// Refuses a file whose first bytes or ending show that it is a MIDI file or a recording.
/// @throws Error not_a_score_but
void check_score(std::string_view head, const std::string& name);

} // namespace sectio::source
