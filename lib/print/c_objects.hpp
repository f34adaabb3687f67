#pragma once
/// @file
/// Private to lib/print: what is asked of cairo and Pango in several places.

#include <cairo.h>

#include <string>

namespace sectio::page {

/// Of a std::unique_ptr: gives an object of a C library back to it.
template <auto release>
struct Release {
    template <typename T>
    void operator()(T* object) const {
        release(object);
    }
};

/// Adds what cairo writes to the std::string at `text`.
inline cairo_status_t append_written(void* text, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

} // namespace sectio::page
