#pragma once
/// @file
/// Private to lib/measure: libsndfile, opened when the first sound is read. It brings nine
/// libraries of encodings with it, whose loading would cost every short command a tenth of its
/// time.

#include <sndfile.h>

namespace sectio::measure {

/// What is called of libsndfile, by the names it has there.
struct Sndfile {
    decltype(&sf_open) open;
    decltype(&sf_close) close;
    decltype(&sf_strerror) error_text;
    decltype(&sf_readf_float) read_frames;
};

/// The same one at every call; safe from several threads.
/// @throws Error sound_library_missing
const Sndfile& sndfile();

} // namespace sectio::measure
