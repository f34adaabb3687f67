#include <sectio/base/file.hpp>
#include <sectio/base/folded.hpp>
#include <sectio/scale/catalogue_index.hpp>
#include <sectio/scale/entry_bytes.hpp>
#include <sectio/scale/entry_reader.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>

namespace sectio {

namespace {

constexpr std::size_t most_file_bytes = 4 << 20;
constexpr std::string_view signature = "sectio catalogue index 2\n";
constexpr std::string_view tradition_key = "tradition";

/// FNV-1a, piece by piece.
class Checksum {
  public:
    void add(std::string_view bytes) {
        for (const char c : bytes)
            sum_ = (sum_ ^ static_cast<unsigned char>(c)) * prime;
        sum_ *= prime; // an end that no byte makes
    }
    std::uint64_t sum() const { return sum_; }

  private:
    static constexpr std::uint64_t prime = 1099511628211U;
    std::uint64_t sum_ = 14695981039346656037U;
};

std::uint64_t checksum(std::string_view bytes) {
    Checksum sum;
    sum.add(bytes);
    return sum.sum();
}

/// An entry and where it stands, to bring the kinds of a file into the order of its lines.
struct Found {
    EntryKind kind;
    const TomlValue* table;
};

/// The tables of `[[key]]`.
const TomlValue::List& tables_of(const std::string& key, const TomlValue& value) {
    if (!value.list())
        throw error(message::bad_entry, key, value.place, "it must be a [[kind]] table");
    for (const TomlValue& item : *value.list())
        if (!item.table())
            throw error(message::bad_entry, key, item.place, "it must be a [[kind]] table");
    return *value.list();
}

std::vector<Found> entries_of(const TomlValue& document) {
    std::vector<Found> found;
    for (const auto& [key, value] : *document.table())
        if (key != tradition_key) {
            const EntryKind kind = parse_kind(key, value.place);
            for (const TomlValue& item : tables_of(key, value))
                found.push_back({kind, &item});
        }
    std::sort(found.begin(), found.end(), [](const Found& a, const Found& b) {
        return a.table->place.line < b.table->place.line;
    });
    return found;
}

Traditions traditions_of(const std::vector<TomlValue>& documents) {
    Traditions traditions;
    for (const TomlValue& document : documents) {
        const auto found = document.table()->find(tradition_key);
        if (found != document.table()->end())
            for (const TomlValue& item : tables_of(found->first, found->second))
                traditions.declare(item);
    }
    return traditions;
}

void index_entry(ByteWriter& index, const Entry& entry) {
    std::vector<std::string> names{folded(entry.id), folded(entry.name)};
    for (const std::string& name : entry.also)
        names.push_back(folded(name));
    ByteWriter whole;
    write_entry(whole, entry);
    index.number(static_cast<std::uint64_t>(entry.kind()));
    index.text(entry.id);
    index.list(names, [&](const std::string& name) { index.text(name); });
    index.text(whole.take());
}

IndexedEntry indexed_entry(ByteReader& index) {
    return {static_cast<EntryKind>(index.below(std::variant_size_v<Entry::Facts>)), index.text(),
            index.list([&] { return index.text(); }), index.text()};
}

} // namespace

std::vector<CatalogueFile> catalogue_files(const std::filesystem::path& directory) {
    std::error_code failed;
    std::vector<std::filesystem::path> paths;
    for (const auto& item : std::filesystem::directory_iterator(directory, failed))
        if (item.path().extension() == ".toml")
            paths.push_back(item.path());
    if (failed)
        throw error(message::no_data, "", Place{directory.string()});
    std::sort(paths.begin(), paths.end());
    std::vector<CatalogueFile> files;
    for (const auto& path : paths)
        files.push_back({path.filename().string(), read_whole(path, most_file_bytes)});
    return files;
}

std::uint64_t checksum(const std::vector<CatalogueFile>& files) {
    Checksum sum;
    for (const CatalogueFile& file : files) {
        sum.add(file.name);
        sum.add(file.text);
    }
    return sum.sum();
}

std::string make_index(const std::vector<CatalogueFile>& files,
                       const std::filesystem::path& directory) {
    std::vector<TomlValue> documents;
    for (const CatalogueFile& file : files)
        documents.push_back(parse_toml(file.text, (directory / file.name).string()));
    const Traditions traditions = traditions_of(documents);
    const ReadInterval read = remembering_reader();
    ByteWriter entries;
    for (const TomlValue& document : documents)
        for (const Found& found : entries_of(document))
            index_entry(entries, read_entry(*found.table, found.kind, traditions, read));
    const std::string body = entries.take();
    ByteWriter head;
    head.number(checksum(files));
    head.number(checksum(body));
    return std::string(signature) + head.take() + body;
}

std::optional<std::vector<IndexedEntry>> open_index(std::string_view index,
                                                    std::uint64_t checksum_of_files) {
    if (!index.starts_with(signature))
        return std::nullopt;
    std::vector<IndexedEntry> entries;
    try {
        ByteReader reader(index.substr(signature.size()));
        if (reader.number() != checksum_of_files || reader.number() != checksum(reader.left()))
            return std::nullopt;
        while (!reader.at_end())
            entries.push_back(indexed_entry(reader));
    } catch (const Damaged&) {
        return std::nullopt;
    }
    return entries;
}

Entry entry_of(const IndexedEntry& entry) {
    ByteReader reader(entry.bytes);
    return read_entry(reader);
}

} // namespace sectio
