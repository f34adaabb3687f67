#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue_index.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <bit>

namespace sectio {

namespace {

constexpr std::size_t most_file_bytes = 4 << 20;
constexpr std::string_view signature = "sectio catalogue index 1\n";

/// Appends numbers, texts and values.
class Writer {
  public:
    /// Seven bits a byte, the least significant first, all but the last marked.
    void number(std::uint64_t n) {
        for (; n >= 0x80; n >>= 7)
            bytes_ += static_cast<char>(0x80 | (n & 0x7F));
        bytes_ += static_cast<char>(n);
    }
    void text(std::string_view text) {
        number(text.size());
        bytes_ += text;
    }
    void value(const TomlValue& value) {
        number(value.value.index());
        number(value.place.line);
        number(value.place.column);
        std::visit([this](const auto& held) { write(held); }, value.value);
    }
    std::string take() { return std::move(bytes_); }

  private:
    void write(std::monostate) {}
    void write(const std::string& held) { text(held); }
    void write(std::int64_t held) { number(static_cast<std::uint64_t>(held)); }
    void write(double held) { number(std::bit_cast<std::uint64_t>(held)); }
    void write(bool held) { number(held); }
    void write(const TomlValue::List& list) {
        number(list.size());
        for (const TomlValue& item : list)
            value(item);
    }
    void write(const TomlValue::Table& table) {
        number(table.size());
        for (const auto& [key, item] : table) {
            text(key);
            value(item);
        }
    }

    std::string bytes_;
};

/// What a damaged index makes of its reader.
struct Damaged {};

class Reader {
  public:
    Reader(std::string_view bytes, std::string file = {}) : left_(bytes), file_(std::move(file)) {}

    bool at_end() const { return left_.empty(); }
    std::uint64_t number() {
        std::uint64_t n = 0;
        for (unsigned shift = 0; shift < 64; shift += 7) {
            const auto byte = static_cast<unsigned char>(take(1)[0]);
            n |= std::uint64_t{byte & 0x7FU} << shift;
            if (byte < 0x80)
                return n;
        }
        throw Damaged{};
    }
    std::string_view text() { return take(number()); }
    TomlValue value(int depth = 0) {
        const std::uint64_t kind = number();
        TomlValue value{{}, {file_, number(), 0}};
        value.place.column = number();
        constexpr int deepest = 300; // the TOML library allows 256
        if (depth > deepest)
            throw Damaged{};
        switch (kind) {
        case 0:
            break;
        case 1:
            value.value = std::string(text());
            break;
        case 2:
            value.value = static_cast<std::int64_t>(number());
            break;
        case 3:
            value.value = std::bit_cast<double>(number());
            break;
        case 4:
            value.value = number() != 0;
            break;
        case 5:
            read_list(value.value.emplace<TomlValue::List>(), depth);
            break;
        case 6:
            read_table(value.value.emplace<TomlValue::Table>(), depth);
            break;
        default:
            throw Damaged{};
        }
        return value;
    }

  private:
    std::string_view take(std::uint64_t count) {
        if (count > left_.size())
            throw Damaged{};
        const std::string_view taken = left_.substr(0, count);
        left_.remove_prefix(count);
        return taken;
    }
    void read_list(TomlValue::List& list, int depth) {
        for (std::uint64_t left = number(); left > 0; --left)
            list.push_back(value(depth + 1));
    }
    void read_table(TomlValue::Table& table, int depth) {
        for (std::uint64_t left = number(); left > 0; --left) {
            std::string key(text());
            table.emplace_hint(table.end(), std::move(key), value(depth + 1));
        }
    }

    std::string_view left_;
    std::string file_;
};

/// An entry and where it stands, to bring the kinds of a file into the order of its lines.
struct Found {
    EntryKind kind;
    const TomlValue* table;
};

std::vector<Found> entries_of(const TomlValue& document) {
    std::vector<Found> found;
    for (const auto& [key, value] : *document.table()) {
        const EntryKind kind = parse_kind(key, value.place);
        if (!value.list())
            throw error(message::bad_entry, key, value.place, "it must be a [[kind]] table");
        for (const TomlValue& item : *value.list()) {
            if (!item.table())
                throw error(message::bad_entry, key, item.place, "it must be a [[kind]] table");
            found.push_back({kind, &item});
        }
    }
    std::sort(found.begin(), found.end(), [](const Found& a, const Found& b) {
        return a.table->place.line < b.table->place.line;
    });
    return found;
}

void write_entry(Writer& index, const Found& entry, const std::string& file) {
    const TomlReader reader(*entry.table);
    std::vector<std::string> names{reader.required_text("id"), reader.required_text("name")};
    for (std::string& name : reader.strings("also"))
        names.push_back(std::move(name));
    Writer tree;
    tree.value(*entry.table);
    index.number(static_cast<std::uint64_t>(entry.kind));
    index.text(file);
    index.number(names.size());
    for (const std::string& name : names)
        index.text(name);
    index.text(reader.optional_text("interval").value_or(""));
    index.text(tree.take());
}

IndexedEntry read_entry(Reader& index) {
    IndexedEntry entry;
    const std::uint64_t kind = index.number();
    if (kind > static_cast<std::uint64_t>(EntryKind::system))
        throw Damaged{};
    entry.kind = static_cast<EntryKind>(kind);
    entry.file = index.text();
    for (std::uint64_t left = index.number(); left > 0; --left)
        entry.names.push_back(index.text());
    if (entry.names.empty())
        throw Damaged{};
    entry.id = entry.names.front();
    entry.interval = index.text();
    entry.tree = index.text();
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
    for (const auto& path : paths)
        files.push_back({path.filename().string(), read_whole(path, most_file_bytes)});
    return files;
}

std::uint64_t checksum(const std::vector<CatalogueFile>& files) {
    std::uint64_t sum = 14695981039346656037U;
    const auto add = [&](std::string_view bytes) {
        for (const char c : bytes)
            sum = (sum ^ static_cast<unsigned char>(c)) * 1099511628211U;
        sum *= 1099511628211U; // an end that no byte makes
    };
    for (const CatalogueFile& file : files) {
        add(file.name);
        add(file.text);
    }
    return sum;
}

std::string make_index(const std::vector<CatalogueFile>& files,
                       const std::filesystem::path& directory) {
    Writer index;
    index.number(checksum(files));
    for (const CatalogueFile& file : files) {
        const TomlValue document = parse_toml(file.text, (directory / file.name).string());
        for (const Found& entry : entries_of(document))
            write_entry(index, entry, file.name);
    }
    return std::string(signature) + index.take();
}

std::optional<std::vector<IndexedEntry>> open_index(std::string_view index,
                                                    std::uint64_t checksum) {
    if (!index.starts_with(signature))
        return std::nullopt;
    std::vector<IndexedEntry> entries;
    try {
        Reader reader(index.substr(signature.size()));
        if (reader.number() != checksum)
            return std::nullopt;
        while (!reader.at_end())
            entries.push_back(read_entry(reader));
    } catch (const Damaged&) {
        return std::nullopt;
    }
    return entries;
}

TomlValue entry_table(const IndexedEntry& entry, const std::string& file) {
    try {
        return Reader(entry.tree, file).value();
    } catch (const Damaged&) {
        throw error(message::bad_entry, entry.id, Place{file}, "the catalogue's index is damaged");
    }
}

} // namespace sectio
