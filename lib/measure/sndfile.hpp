#pragma once
/// @file
/// Private to lib/measure: libsndfile, opened when the first sound is read. It brings nine
/// libraries of encodings with it.

#include <sectio/base/shared_library.hpp>
#include <sectio/measure/messages.hpp>

#include <sndfile.h>

namespace sectio::measure {

/// What is called of libsndfile.
struct Sndfile {
    SharedLibrary library{SECTIO_LIBSNDFILE, message::sound_library_missing};
    decltype(&sf_open) open = library["sf_open"];
    decltype(&sf_open_virtual) open_virtual = library["sf_open_virtual"];
    decltype(&sf_close) close = library["sf_close"];
    decltype(&sf_strerror) strerror = library["sf_strerror"];
    decltype(&sf_readf_float) readf_float = library["sf_readf_float"];
};

/// The same at every call. @throws Error sound_library_missing
inline const Sndfile& sndfile() {
    static const Sndfile functions;
    return functions;
}

} // namespace sectio::measure
