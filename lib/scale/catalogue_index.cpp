#include <sectio/base/file.hpp>
#include <sectio/base/folded.hpp>
#include <sectio/scale/catalogue_index.hpp>
#include <sectio/scale/entry_bytes.hpp>
#include <sectio/scale/entry_reader.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <cstring>

namespace sectio {

namespace {

constexpr std::size_t most_file_bytes = 4 << 20;
constexpr std::string_view signature = "sectio catalogue index 4\n";
constexpr std::string_view tradition_key = "tradition", work_key = "source";
constexpr const char* file_of_works = "../sources.toml";

/// FNV-1a, piece by piece, but by words of eight bytes: with single ones it took longer than all
/// else at the start of a command. Every step is a bijection of the sum, so a change within one
/// word always shows.
class Checksum {
  public:
    void add(std::string_view bytes) {
        std::uint64_t word = bytes.size();
        take(word);
        for (; bytes.size() >= sizeof word; bytes.remove_prefix(sizeof word)) {
            std::memcpy(&word, bytes.data(), sizeof word);
            take(word);
        }
        word = 0;
        std::memcpy(&word, bytes.data(), bytes.size());
        take(word);
    }
    std::uint64_t sum() const { return sum_; }

  private:
    void take(std::uint64_t word) { sum_ = (sum_ ^ word) * prime; }

    static constexpr std::uint64_t prime = 1099511628211U;
    std::uint64_t sum_ = 14695981039346656037U;
};

std::uint64_t checksum(std::string_view bytes) {
    Checksum sum;
    sum.add(bytes);
    return sum.sum();
}

/// An entry and where it stands, to bring the kinds of a file into the order of its lines.
struct EntryTable {
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

std::vector<EntryTable> entries_of(const TomlValue& document) {
    std::vector<EntryTable> found;
    for (const auto& [key, value] : *document.table())
        if (key != tradition_key && key != work_key) {
            const EntryKind kind = parse_kind(key, value.place);
            for (const TomlValue& item : tables_of(key, value))
                found.push_back({kind, &item});
        }
    std::sort(found.begin(), found.end(), [](const EntryTable& a, const EntryTable& b) {
        return a.table->place.line < b.table->place.line;
    });
    return found;
}

/// Calls `take` with every table of `[[key]]` in the documents.
template <typename Take>
void each_table(const std::vector<TomlValue>& documents, std::string_view key, Take take) {
    for (const TomlValue& document : documents) {
        const auto found = document.table()->find(std::string(key));
        if (found != document.table()->end())
            for (const TomlValue& item : tables_of(found->first, found->second))
                take(item);
    }
}

Traditions traditions_of(const std::vector<TomlValue>& documents) {
    Traditions traditions;
    each_table(documents, tradition_key, [&](const TomlValue& item) { traditions.declare(item); });
    return traditions;
}

std::string work_of(const TomlReader& work) {
    std::string text;
    if (const auto author = work.optional_text("author"); author && !author->empty())
        text = *author + ", ";
    text += work.required_text("title");
    const auto year = work.optional_text("year");
    return year && !year->empty() ? text + " (" + *year + ")" : text;
}

using Work = std::pair<std::string, std::string>;

/// Keys and references, by key.
std::vector<Work> works_of(const std::vector<TomlValue>& documents) {
    std::vector<Work> works;
    each_table(documents, work_key, [&](const TomlValue& item) {
        const TomlReader work(item);
        works.emplace_back(work.required_text("key"), work_of(work));
    });
    std::sort(works.begin(), works.end());
    return works;
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
    IndexedEntry entry{static_cast<EntryKind>(index.below(std::variant_size_v<Entry::Facts>)),
                       index.text(), index.list([&] { return index.text(); }), index.text()};
    if (!is_id(entry.id))
        throw Damaged{};
    return entry;
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
    if (const auto works = directory / file_of_works;
        std::filesystem::is_regular_file(works, failed))
        files.push_back({file_of_works, read_whole(works, most_file_bytes)});
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
        documents.push_back(
            parse_toml(file.text, (directory / file.name).lexically_normal().string()));
    const Traditions traditions = traditions_of(documents);
    const ReadInterval read = remembering_reader();
    ByteWriter contents;
    contents.list(works_of(documents), [&](const Work& work) {
        contents.text(work.first);
        contents.text(work.second);
    });
    for (const TomlValue& document : documents)
        for (const EntryTable& found : entries_of(document))
            index_entry(contents, read_entry(*found.table, found.kind, traditions, read));
    const std::string body = contents.take();
    ByteWriter head;
    head.number(checksum(files));
    head.number(checksum(body));
    return std::string(signature) + head.take() + body;
}

std::optional<CatalogueIndex> open_index(std::string_view index,
                                         std::optional<std::uint64_t> checksum_of_files) {
    if (!index.starts_with(signature))
        return std::nullopt;
    CatalogueIndex opened;
    try {
        ByteReader reader(index.substr(signature.size()));
        const std::uint64_t files = reader.number();
        if (files != checksum_of_files.value_or(files)
            || reader.number() != checksum(reader.left()))
            return std::nullopt;
        opened.works = reader.list([&] {
            const std::string_view key = reader.text();
            return IndexedWork{key, reader.text()};
        });
        while (!reader.at_end())
            opened.entries.push_back(indexed_entry(reader));
    } catch (const Damaged&) {
        return std::nullopt;
    }
    return opened;
}

Entry entry_of(const IndexedEntry& entry) {
    try {
        ByteReader reader(entry.bytes);
        return read_entry(reader);
    } catch (const Damaged&) {
        throw error(message::bad_index, entry.id, {"catalogue.index"});
    }
}

} // namespace sectio
