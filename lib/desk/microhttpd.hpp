#pragma once
/// @file
/// Private to lib/desk: libmicrohttpd, opened when a desk is. It brings a library of ciphers with
/// it, whose start takes longer than a short command.

#include <sectio/base/shared_library.hpp>
#include <sectio/desk/messages.hpp>

#include <microhttpd.h>

namespace sectio::desk {

/// What is called of libmicrohttpd.
struct Microhttpd {
    SharedLibrary library{SECTIO_LIBMICROHTTPD, message::http_library_missing};
    decltype(&MHD_start_daemon) start = library["MHD_start_daemon"];
    decltype(&MHD_stop_daemon) stop = library["MHD_stop_daemon"];
    decltype(&MHD_get_timeout) timeout = library["MHD_get_timeout"];
    decltype(&MHD_run_wait) run_wait = library["MHD_run_wait"];
    decltype(&MHD_get_daemon_info) daemon_info = library["MHD_get_daemon_info"];
    decltype(&MHD_get_connection_info) connection_info = library["MHD_get_connection_info"];
    decltype(&MHD_get_connection_values) values = library["MHD_get_connection_values"];
    decltype(&MHD_lookup_connection_value) value = library["MHD_lookup_connection_value"];
    decltype(&MHD_create_response_from_buffer) from_buffer =
        library["MHD_create_response_from_buffer"];
    decltype(&MHD_create_response_from_fd64) from_file = library["MHD_create_response_from_fd64"];
    decltype(&MHD_add_response_header) add_header = library["MHD_add_response_header"];
    decltype(&MHD_queue_response) queue = library["MHD_queue_response"];
    decltype(&MHD_destroy_response) destroy = library["MHD_destroy_response"];
};

/// The same at every call. @throws Error http_library_missing
inline const Microhttpd& http() {
    static const Microhttpd functions;
    return functions;
}

} // namespace sectio::desk
