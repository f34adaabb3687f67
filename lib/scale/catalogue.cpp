#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/entry_reader.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <deque>
#include <mutex>
#include <numeric>

namespace sectio {

namespace {

constexpr std::size_t most_file_bytes = 4 << 20;

/// The texts in quotation marks of one line.
std::vector<std::string_view> quoted(std::string_view row) {
    std::vector<std::string_view> texts;
    for (std::size_t begin = row.find('"'); begin != row.npos; begin = row.find('"', begin)) {
        const std::size_t end = row.find('"', begin + 1);
        if (end == row.npos)
            break;
        texts.push_back(row.substr(begin + 1, end - begin - 1));
        begin = end + 1;
    }
    return texts;
}

/// Takes what a line says of an entry's names and size.
void note_line(EntryText& entry, std::string_view row) {
    if (row.starts_with("id = \"") && entry.id.empty())
        entry.id = quoted(row).front();
    if (row.starts_with("interval = \"") && entry.interval.empty())
        entry.interval = quoted(row).front();
    if (row.starts_with("id = ") || row.starts_with("name = ") || row.starts_with("also = "))
        for (const std::string_view name : quoted(row))
            entry.names.push_back(name);
}

/// Cuts a catalogue file at the lines that begin an entry, `[[kind]]`.
std::vector<EntryText> cut(const std::string& text, const std::string& file) {
    std::vector<EntryText> entries;
    std::size_t line = 1;
    for (std::size_t begin = 0; begin < text.size(); ++line) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        const std::string_view row = std::string_view(text).substr(begin, end - begin);
        if (row.starts_with("[[")) {
            const EntryKind kind = parse_kind(row.substr(2, row.find(']') - 2), {file, line, 1});
            entries.push_back({kind, {}, {}, {}, begin, begin, line, file});
        }
        if (!entries.empty()) {
            entries.back().end = end;
            note_line(entries.back(), row);
        }
        begin = end + 1;
    }
    return entries;
}

/// Letters to add, take or change to make one of the other. Source: V. I. Levenshtein, Soviet
/// Physics Doklady 10 (1966).
std::size_t edit_distance(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < a.size(); ++i) {
        std::size_t diagonal = std::exchange(row[0], i + 1);
        for (std::size_t j = 0; j < b.size(); ++j) {
            const std::size_t changed = diagonal + (a[i] == b[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({changed, row[j] + 1, row[j + 1] + 1});
        }
    }
    return row.back();
}

} // namespace

std::string_view text(EntryKind kind) {
    constexpr std::string_view names[]{"interval", "comma", "scale", "system"};
    return names[static_cast<std::size_t>(kind)];
}

EntryKind parse_kind(std::string_view name, const Place& place) {
    for (const EntryKind kind :
         {EntryKind::interval, EntryKind::comma, EntryKind::scale, EntryKind::system})
        if (name == text(kind) || name == std::string(text(kind)) + "s")
            return kind;
    throw error(message::unknown_kind, name, place);
}

struct Catalogue::Texts {
    struct File {
        std::string name, text;
        std::vector<EntryText> entries;
    };
    std::deque<File> files; ///< a deque, since the entries' texts point into its strings
    std::once_flag parsed;
    std::vector<Entry> entries;

    Entry read(const File& file, const EntryText& entry) const {
        return read_entry(std::string_view(file.text).substr(entry.begin, entry.end - entry.begin),
                          entry);
    }
    /// The entries for which `wanted` says so, parsed.
    template <typename Wanted>
    std::vector<Entry> select(Wanted wanted) const {
        std::vector<Entry> selected;
        for (const File& file : files)
            for (const EntryText& entry : file.entries)
                if (wanted(entry))
                    selected.push_back(read(file, entry));
        return selected;
    }
};

Catalogue::Catalogue(const std::filesystem::path& directory) : texts_(std::make_unique<Texts>()) {
    std::error_code failed;
    std::vector<std::filesystem::path> paths;
    for (const auto& item : std::filesystem::directory_iterator(directory, failed))
        if (item.path().extension() == ".toml")
            paths.push_back(item.path());
    if (failed)
        throw error(message::no_data, "", Place{directory.string()});
    std::sort(paths.begin(), paths.end());
    for (const auto& path : paths) {
        texts_->files.push_back({path.string(), read_whole(path, most_file_bytes), {}});
        texts_->files.back().entries = cut(texts_->files.back().text, path.string());
    }
}

Catalogue::Catalogue(Catalogue&&) noexcept = default;
Catalogue::~Catalogue() = default;

const Catalogue& Catalogue::installed() {
    static const Catalogue catalogue(data_directory() / "catalogue");
    return catalogue;
}

std::optional<Entry> Catalogue::find(std::string_view id) const {
    for (const auto& file : texts_->files)
        for (const EntryText& entry : file.entries)
            if (entry.id == id)
                return texts_->read(file, entry);
    return std::nullopt;
}

const std::vector<Entry>& Catalogue::all() const {
    std::call_once(texts_->parsed, [this] {
        texts_->entries = texts_->select([](const EntryText&) { return true; });
    });
    return texts_->entries;
}

std::vector<Entry> Catalogue::named(std::string_view name) const {
    const std::string wanted = folded(name);
    return texts_->select([&](const EntryText& entry) {
        return std::any_of(entry.names.begin(), entry.names.end(),
                           [&](std::string_view other) { return folded(other) == wanted; });
    });
}

std::vector<Entry> Catalogue::of_size(const Interval& interval) const {
    return texts_->select([&](const EntryText& entry) {
        return has_size(entry.kind) && parse_interval(entry.interval) == interval;
    });
}

std::vector<std::string> Catalogue::similar(std::string_view id) const {
    constexpr std::size_t most_distance = 2, most_ids = 3;
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const auto& file : texts_->files)
        for (const EntryText& entry : file.entries)
            if (const std::size_t distance = edit_distance(id, entry.id); distance <= most_distance)
                near.emplace_back(distance, std::string(entry.id));
    std::sort(near.begin(), near.end());
    std::vector<std::string> ids;
    for (std::size_t i = 0; i < std::min(most_ids, near.size()); ++i)
        ids.push_back(near[i].second);
    return ids;
}

std::string Catalogue::hint(std::string_view id) const {
    std::string hint;
    for (const std::string& near : similar(id))
        hint += (hint.empty() ? "; did you mean " : " or ") + near;
    return hint;
}

std::vector<Entry> Catalogue::sizes() const {
    return texts_->select([](const EntryText& entry) { return has_size(entry.kind); });
}

NameLookup Catalogue::names() const {
    return [this](std::string_view name) -> std::optional<Interval> {
        for (const Entry& entry : named(name))
            if (entry.interval)
                return entry.interval;
        return std::nullopt;
    };
}

} // namespace sectio
