#include <sectio/base/file.hpp>
#include <sectio/base/file_ending.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/sound_endings.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/score/document.hpp>
#include <sectio/source/file_kind.hpp>
#include <sectio/source/messages.hpp>

#include <algorithm>
#include <array>
#include <fstream>

namespace sectio::source {

namespace {

using namespace std::string_view_literals;

constexpr std::array sound_heads{"RIFF"sv, "RIFX"sv, "RF64"sv, "FORM"sv, "fLaC"sv,
                                 "OggS"sv, ".snd"sv, "caff"sv, "riff"sv};
/// Sound that libsndfile does not read, and says so: Matroska and WebM, ASF, AMR.
constexpr std::array other_sound_heads{"\x1A\x45\xDF\xA3"sv, "\x30\x26\xB2\x75"sv, "#!AMR"sv};
/// PNG, JPEG, GIF, TIFF in both orders of bytes.
constexpr std::array picture_heads{"\x89PNG"sv, "\xFF\xD8\xFF"sv, "GIF8"sv, "II*\0"sv, "MM\0*"sv};
constexpr std::array score_endings{".musicxml"sv, ".xml"sv, ".mxl"sv};
/// `<` and `<?` in UTF-16, with or without the mark of the order of bytes.
constexpr std::array wide_xml{"\xFE\xFF\0<"sv, "\xFF\xFE<"sv, "\0<\0?"sv, "<\0?\0"sv};

template <std::size_t N>
bool begins(std::string_view head, const std::array<std::string_view, N>& list) {
    return std::any_of(list.begin(), list.end(), [&](auto each) { return head.starts_with(each); });
}

template <std::size_t N>
bool ends(const std::string& name, const std::array<std::string_view, N>& list) {
    const std::string ending = file_ending(name);
    return std::find(list.begin(), list.end(), ending) != list.end();
}

bool is_xml(std::string_view head) {
    std::string_view text = without_byte_order_mark(head);
    text.remove_prefix(std::min(text.find_first_not_of(" \t\r\n"), text.size()));
    return text.starts_with('<') || begins(head, wide_xml);
}

/// What is kept beside scores and readings, and holds neither for a program; nothing of others.
std::string_view sheet_or_picture(std::string_view head) {
    if (head.starts_with("%PDF"))
        return "a PDF file";
    return begins(head, picture_heads) ? "a picture" : "";
}

/// "a MIDI file"; nothing of a text.
std::string_view said(FileKind kind) {
    switch (kind) {
    case FileKind::score:
        return "a score";
    case FileKind::midi:
        return "a MIDI file";
    case FileKind::messages:
        return "a file of tuning messages";
    case FileKind::recording:
        return "a recording";
    case FileKind::text:
        break;
    }
    return "";
}

/// Refuses by `message` what is known to be of another kind than `wanted`.
void check_kind(FileKind wanted, Message message, std::string_view head, const std::string& name) {
    if (const auto other = sheet_or_picture(head); !other.empty())
        throw error(message, "", {name}, other);
    const FileKind kind = file_kind(head, name);
    if (kind != wanted && kind != FileKind::text) // which its reader tells better
        throw error(message, "", {name}, said(kind));
}

} // namespace

FileKind file_kind(std::string_view head, const std::string& name) {
    if (head.starts_with("MThd"))
        return FileKind::midi;
    if (score::is_archive(head) || is_xml(head) || ends(name, score_endings))
        return FileKind::score;
    if (head.starts_with('\xF0') || ends(name, std::array{".syx"sv}))
        return FileKind::messages;
    const bool mpeg4 = head.size() >= 8 && head.substr(4, 4) == "ftyp"; // what phones record
    if (begins(head, sound_heads) || begins(head, other_sound_heads) || mpeg4
        || has_sound_ending(name))
        return FileKind::recording;
    if (ends(name, std::array{".mid"sv, ".midi"sv}))
        return FileKind::midi;
    return FileKind::text;
}

void check_score(std::string_view head, const std::string& name) {
    check_kind(FileKind::score, message::not_a_score_but, head, name);
}

void check_recording(std::string_view head, const std::string& name) {
    check_kind(FileKind::recording, message::not_a_recording_but, head, name);
}

void check_table(std::string_view head, const std::string& name) {
    check_kind(FileKind::text, message::not_a_table_but, head, name);
}

void check_readable(std::string_view head, const std::string& name) {
    if (const auto other = sheet_or_picture(head); !other.empty())
        throw error(message::not_read_here, "", {name}, other);
}

std::string head_of(const std::filesystem::path& file) {
    std::string head(head_bytes, '\0');
    std::ifstream in(file, std::ios::binary);
    in.read(head.data(), static_cast<std::streamsize>(head.size()));
    head.resize(static_cast<std::size_t>(in.gcount()));
    return head;
}

std::string table_text(const std::string& file) {
    check_table(head_of(file), file);
    return read_text(file, limits::table_bytes);
}

} // namespace sectio::source
