#include <sectio/base/shared_library.hpp>

#include <dlfcn.h>

namespace sectio {

SharedLibrary::SharedLibrary(std::string name, Message if_missing)
    : name_(std::move(name)), if_missing_(if_missing),
      library_(dlopen(name_.c_str(), RTLD_LAZY | RTLD_LOCAL)) {
    if (!library_)
        throw error(if_missing_, "", {}, name_, dlerror());
}

SharedLibrary::Symbol SharedLibrary::operator[](const char* symbol) const {
    void* address = dlsym(library_, symbol);
    if (!address)
        throw error(if_missing_, "", {}, name_, dlerror());
    return Symbol(address);
}

} // namespace sectio
