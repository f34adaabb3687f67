#include <sectio/measure/messages.hpp>
#include <sectio/measure/sndfile.hpp>

#include <dlfcn.h>

namespace sectio::measure {

namespace {

/// With the number of its interface, which has been that of sndfile.h since its first release.
constexpr const char* library_name = "libsndfile.so.1";

void* open_library() {
    void* library = dlopen(library_name, RTLD_LAZY | RTLD_LOCAL);
    if (!library)
        throw error(message::sound_library_missing, "", {}, dlerror());
    return library;
}

template <class Function>
Function symbol(void* library, const char* name) {
    void* found = dlsym(library, name);
    if (!found)
        throw error(message::sound_library_missing, "", {}, dlerror());
    return reinterpret_cast<Function>(found);
}

Sndfile load() {
    void* library = open_library(); // open until the process ends
    return {symbol<decltype(&sf_open)>(library, "sf_open"),
            symbol<decltype(&sf_close)>(library, "sf_close"),
            symbol<decltype(&sf_strerror)>(library, "sf_strerror"),
            symbol<decltype(&sf_readf_float)>(library, "sf_readf_float")};
}

} // namespace

const Sndfile& sndfile() {
    static const Sndfile functions = load();
    return functions;
}

} // namespace sectio::measure
