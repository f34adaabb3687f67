#pragma once
/// @file
/// Small invented scores. The tunes are made up for these tests and belong to no village.

#include <string>
#include <utility>
#include <vector>

namespace support {

/// <note> with pitch, a quarter long; `inside` goes behind <duration>.
std::string note(const std::string& step, int octave, const std::string& alter = "",
                 const std::string& inside = "");
/// The same with a sign: quarter note, <accidental>.
std::string signed_note(const std::string& step, int octave, const std::string& sign,
                        const std::string& alter = "");

/// A score of one part; each string is the content of a measure.
std::string score(const std::vector<std::string>& measures, const std::string& version = "4.0");

/// Attributes of the first measure: divisions 1 and what is given.
std::string attributes(const std::string& inside = "");

/// `text` in UTF-16, with a byte order mark if wanted.
std::string utf16(const std::string& text, bool little, bool mark);

/// A ZIP archive of stored entries (APPNOTE 6.3), in this order.
std::string stored_zip(const std::vector<std::pair<std::string, std::string>>& entries);
/// META-INF/container.xml that names `path`.
std::string container(const std::string& path, const std::string& media_type = "");

} // namespace support
