#pragma once
/// @file
/// The one door by which all that a user names comes in: what an argument is, a catalogue entry, a
/// text, a file of any kind that Sectio reads, standard input or a folder, and what is in it.

#include <sectio/instrument/instrument.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/score/document.hpp>
#include <sectio/source/file_kind.hpp>
#include <sectio/tuning/midi_file.hpp>

#include <cstdint>
#include <filesystem>
#include <istream>
#include <string>
#include <variant>

namespace sectio::source {

/// A sound file, of which the header was read.
struct Recording {
    int rate = 0; ///< frames a second
    int channels = 0;
    std::int64_t frames = 0; ///< that the header promises
};

/// System exclusive messages (.syx), of which none was read.
struct Messages {};

/// A folder, of which nothing was read.
struct Folder {};

using Content = std::variant<Scale, PitchList, Instrument, score::Document, midi::File, Messages,
                             Recording, Folder>;

struct Source {
    Content content;
    std::string name; ///< as written
    std::filesystem::path
        file; ///< empty where it is none; measure::standard_input for a recording from there
};

/// Finds out what `text` is and opens it. A catalogue id goes first, then an existing file, then a
/// name of the catalogue, then a list of intervals or pitches; "-" is what `input` holds. A file is
/// known by its first bytes, and by its ending where they do not tell.
/// @throws Error of the reader that is in charge
Source open(const std::string& text, const Catalogue& catalogue, std::istream& input);
/// The same with the installed catalogue and standard input.
Source open(const std::string& text);

/// What a stream brings.
struct Stream {
    FileKind kind;
    std::string bytes; ///< none of a recording, which is kept for measure::SoundFile
};

/// Reads a stream to its end. @throws Error file_too_large
Stream take(std::istream& input);

/// "a scale", "a recording": for messages.
std::string_view kind_of(const Source& source);

/// What is in it where a scale is needed; an instrument gives what its first fretted string sounds.
/// @throws Error not_a_scale_but for what holds no scale, and those of played_scale()
LoadedScale scale_in(const Source& source, const Catalogue& catalogue = Catalogue::installed());

} // namespace sectio::source
