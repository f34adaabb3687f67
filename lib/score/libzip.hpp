#pragma once
/// @file
/// Private to lib/score: libzip, opened when the first compressed score is read or written. It
/// brings a library of ciphers with it, whose start takes longer than a short command.

#include <sectio/base/shared_library.hpp>
#include <sectio/score/messages.hpp>

#include <zip.h>

namespace sectio::score {

/// What is called of libzip.
struct Libzip {
    SharedLibrary library{SECTIO_LIBZIP, message::archive_library_missing};
    decltype(&zip_close) close = library["zip_close"];
    decltype(&zip_discard) discard = library["zip_discard"];
    decltype(&zip_error_fini) error_fini = library["zip_error_fini"];
    decltype(&zip_error_init) error_init = library["zip_error_init"];
    decltype(&zip_error_strerror) error_strerror = library["zip_error_strerror"];
    decltype(&zip_fclose) fclose = library["zip_fclose"];
    decltype(&zip_file_add) file_add = library["zip_file_add"];
    decltype(&zip_file_replace) file_replace = library["zip_file_replace"];
    decltype(&zip_file_set_dostime) file_set_dostime = library["zip_file_set_dostime"];
    decltype(&zip_file_set_mtime) file_set_mtime = library["zip_file_set_mtime"];
    decltype(&zip_file_strerror) file_strerror = library["zip_file_strerror"];
    decltype(&zip_fopen_index) fopen_index = library["zip_fopen_index"];
    decltype(&zip_fread) fread = library["zip_fread"];
    decltype(&zip_get_num_entries) get_num_entries = library["zip_get_num_entries"];
    decltype(&zip_name_locate) name_locate = library["zip_name_locate"];
    decltype(&zip_open_from_source) open_from_source = library["zip_open_from_source"];
    decltype(&zip_set_file_compression) set_file_compression = library["zip_set_file_compression"];
    decltype(&zip_source_buffer) source_buffer = library["zip_source_buffer"];
    decltype(&zip_source_buffer_create) source_buffer_create = library["zip_source_buffer_create"];
    decltype(&zip_source_close) source_close = library["zip_source_close"];
    decltype(&zip_source_free) source_free = library["zip_source_free"];
    decltype(&zip_source_keep) source_keep = library["zip_source_keep"];
    decltype(&zip_source_open) source_open = library["zip_source_open"];
    decltype(&zip_source_read) source_read = library["zip_source_read"];
    decltype(&zip_source_stat) source_stat = library["zip_source_stat"];
    decltype(&zip_stat_index) stat_index = library["zip_stat_index"];
    decltype(&zip_strerror) strerror = library["zip_strerror"];
};

/// The same at every call. @throws Error archive_library_missing
inline const Libzip& zip() {
    static const Libzip functions;
    return functions;
}

} // namespace sectio::score
