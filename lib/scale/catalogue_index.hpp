#pragma once
/// @file
/// Private to lib/scale: the catalogue's files as they were read, in a form that is opened at once.
///
/// Reading 300 kB of TOML takes longer than all else that a short command does, and reading the
/// intervals in it nearly as long. So the build keeps the entries beside the program
/// (`catalogue.index`), every interval as its factors, with a checksum of the files that they were
/// read from. A catalogue whose files have changed since, or that has no index, is read from its
/// files; both ways run through the same index, made then in memory.

#include <sectio/scale/entry.hpp>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// A file of the catalogue.
struct CatalogueFile {
    std::string name; ///< without its folder
    std::string text;
};

/// The *.toml of a folder in the order of their names.
/// @throws Error no_data, cannot_read
std::vector<CatalogueFile> catalogue_files(const std::filesystem::path& directory);

/// What distinguishes the files from changed ones: FNV-1a of 64 bits over names and texts. Source:
/// RFC 9923, section 5 (from memory).
std::uint64_t checksum(const std::vector<CatalogueFile>& files);

/// Bytes of the index of `files`, which errors name below `directory`.
/// @throws Error with file, line and column, where anything in them is not valid
std::string make_index(const std::vector<CatalogueFile>& files,
                       const std::filesystem::path& directory);

/// An entry as the index holds it; the views point into the index.
struct IndexedEntry {
    EntryKind kind = EntryKind::interval;
    std::string_view id;
    std::vector<std::string_view> names; ///< id, name and other names, folded()
    std::string_view bytes;              ///< for entry_of()
};

/// The entries in the order of the files; nothing where `index` was made from other files or is
/// damaged.
std::optional<std::vector<IndexedEntry>> open_index(std::string_view index, std::uint64_t checksum);

/// The entry whole.
Entry entry_of(const IndexedEntry& entry);

} // namespace sectio
