#include <sectio/base/file.hpp>
#include <sectio/base/file_ending.hpp>
#include <sectio/base/sound_endings.hpp>
#include <sectio/score/document.hpp>
#include <sectio/source/file_kind.hpp>
#include <sectio/source/messages.hpp>

#include <algorithm>
#include <array>

namespace sectio::source {

namespace {

using namespace std::string_view_literals;

constexpr std::array sound_heads{"RIFF"sv, "RIFX"sv, "RF64"sv, "FORM"sv, "fLaC"sv,
                                 "OggS"sv, ".snd"sv, "caff"sv, "riff"sv};
/// Sound that libsndfile does not read, and says so: Matroska and WebM, ASF, AMR.
constexpr std::array other_sound_heads{"\x1A\x45\xDF\xA3"sv, "\x30\x26\xB2\x75"sv, "#!AMR"sv};
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
    switch (file_kind(head, name)) {
    case FileKind::midi:
        throw error(message::not_a_score_but, "", {name}, "a MIDI file");
    case FileKind::messages:
        throw error(message::not_a_score_but, "", {name}, "a file of tuning messages");
    case FileKind::recording:
        throw error(message::not_a_score_but, "", {name}, "a recording");
    case FileKind::score:
    case FileKind::text: // which its reader tells better
        return;
    }
}

} // namespace sectio::source
