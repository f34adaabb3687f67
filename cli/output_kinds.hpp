#pragma once
/// @file
/// The kinds of file that commands write: one table for what an option takes, its help, and what is
/// said to an ending that is none of them.

#include <string>
#include <string_view>
#include <vector>

namespace sectio::cli {

/// By the ending of a file's name in lower case; "" is a name without one.
struct OutputKind {
    std::string_view ending, what;
    bool binary = false; ///< a terminal cannot show it
};

inline constexpr OutputKind scale_file{".toml", "the scale as a scale file"},
    staff_score{".musicxml", "the staff as a score"}, plain_score{".musicxml", "the score"},
    plain_xml{".xml", "the score"}, packed_score{".mxl", "the score, compressed", true},
    exclusive_data{".syx", "tuning messages", true}, midi_file{".mid", "a MIDI file", true},
    midi_long{".midi", "a MIDI file", true}, wave_file{".wav", "sound", true},
    png_picture{".png", "a picture", true}, any_name{"", ""};

using OutputKinds = std::vector<OutputKind>;

/// Those of every page: .pdf, .svg, .html, .txt, .csv, .json; with `others` before them.
OutputKinds page_kinds(OutputKinds others = {});

/// ".toml, .pdf or .svg".
std::string text(const OutputKinds& kinds);

/// The ending of a file name in lower case, ".pdf".
std::string ending(const std::string& file_name);

/// Refuses before any work a file whose ending is none of `kinds`, or that is an input or another
/// output, as standard output is where `json` goes there; begins to read fonts where a page is
/// going to be drawn. An empty name is no file.
/// @throws Error unknown_output_kind, output_is_input, outputs_are_one
void check_output(const std::string& file, const char* option, const OutputKinds& kinds,
                  bool json = false);

} // namespace sectio::cli
