#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/catalogue_index.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <mutex>
#include <numeric>

namespace sectio {

namespace {

constexpr std::size_t most_index_bytes = 64 << 20;

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

struct Catalogue::State {
    std::string index; ///< the views of `indexed` and `works` point into it
    std::vector<IndexedEntry> indexed;
    std::vector<IndexedWork> works;
    std::once_flag made;
    std::vector<Entry> entries;

    /// The entries for which `wanted` says so.
    template <typename Wanted>
    std::vector<Entry> select(Wanted wanted) const {
        std::vector<Entry> selected;
        for (const IndexedEntry& entry : indexed)
            if (wanted(entry))
                selected.push_back(entry_of(entry));
        return selected;
    }
    /// Takes an index that was made from these very files.
    bool take_index(const std::filesystem::path& file, std::uint64_t checksum) {
        std::error_code failed;
        if (!std::filesystem::is_regular_file(file, failed))
            return false;
        return take_index(read_whole(file, most_index_bytes), checksum);
    }
    bool take_index(std::string bytes, std::uint64_t checksum) {
        index = std::move(bytes);
        auto opened = open_index(index, checksum);
        if (!opened)
            return false;
        indexed = std::move(opened->entries);
        works = std::move(opened->works);
        return true;
    }
};

Catalogue::Catalogue(const std::filesystem::path& directory) : state_(std::make_unique<State>()) {
    const std::vector<CatalogueFile> files = catalogue_files(directory);
    const std::uint64_t sum = checksum(files);
    for (const auto& file :
         {directory.parent_path() / "catalogue.index", std::filesystem::path(SECTIO_BUILT_INDEX)})
        if (state_->take_index(file, sum))
            return;
    state_->take_index(make_index(files, directory), sum);
}

Catalogue::Catalogue(Catalogue&&) noexcept = default;
Catalogue::~Catalogue() = default;

const Catalogue& Catalogue::installed() {
    // Never taken down: that would cost as much as a short command's own work.
    static const Catalogue& catalogue = *new Catalogue(data_directory() / "catalogue");
    return catalogue;
}

std::optional<Entry> Catalogue::find(std::string_view id) const {
    for (const IndexedEntry& entry : state_->indexed)
        if (entry.id == id)
            return entry_of(entry);
    return std::nullopt;
}

std::optional<std::string> Catalogue::reference(std::string_view key) const {
    const auto& works = state_->works;
    const auto at =
        std::lower_bound(works.begin(), works.end(), key,
                         [](const IndexedWork& w, std::string_view k) { return w.key < k; });
    return at != works.end() && at->key == key ? std::optional<std::string>(at->reference)
                                               : std::nullopt;
}

const std::vector<Entry>& Catalogue::all() const {
    std::call_once(state_->made, [this] {
        state_->entries = state_->select([](const IndexedEntry&) { return true; });
    });
    return state_->entries;
}

std::vector<Entry> Catalogue::named(std::string_view name) const {
    const std::string wanted = folded(name);
    return state_->select([&](const IndexedEntry& entry) {
        return std::find(entry.names.begin(), entry.names.end(), wanted) != entry.names.end();
    });
}

std::vector<Entry> Catalogue::of_size(const Interval& interval) const {
    std::vector<Entry> found = sizes();
    std::erase_if(found, [&](const Entry& entry) { return *entry.interval() != interval; });
    return found;
}

std::vector<std::string> Catalogue::similar(std::string_view id) const {
    constexpr std::size_t most_distance = 2, most_ids = 3;
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const IndexedEntry& entry : state_->indexed)
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
    return state_->select([](const IndexedEntry& entry) { return has_size(entry.kind); });
}

NameLookup Catalogue::names() const {
    return [this](std::string_view name) -> std::optional<Interval> {
        for (const Entry& entry : named(name))
            if (entry.interval())
                return *entry.interval();
        return std::nullopt;
    };
}

} // namespace sectio
