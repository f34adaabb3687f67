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

/// A file of the catalogue, or the file of works that it cites.
struct CatalogueFile {
    std::string name; ///< relative to the catalogue's folder
    std::string text;
};

/// The *.toml of a folder in the order of their names; before them ../sources.toml, which a
/// catalogue of one's own need not have.
/// @throws Error no_data, cannot_read
std::vector<CatalogueFile> catalogue_files(const std::filesystem::path& directory);

/// What distinguishes the files from changed ones: 64 bits over names and texts, by the steps of
/// FNV-1a (RFC 9923, section 5, from memory).
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

/// A work that the catalogue cites.
struct IndexedWork {
    std::string_view key;
    std::string_view reference; ///< author, title (year)
};

struct CatalogueIndex {
    std::vector<IndexedWork> works;    ///< by key
    std::vector<IndexedEntry> entries; ///< in the order of the files
};

/// Nothing where `index` is damaged, or was made from files other than those with the checksum.
std::optional<CatalogueIndex> open_index(std::string_view index,
                                         std::optional<std::uint64_t> checksum_of_files);

/// The entry whole. @throws Error bad_index
Entry entry_of(const IndexedEntry& entry);

} // namespace sectio
