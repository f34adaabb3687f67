#include <sectio/base/edit_distance.hpp>
#include <sectio/base/file.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/catalogue_index.hpp>
#include <sectio/scale/messages.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <mutex>

/// The catalogue's index, where it is linked: cli/index/catalogue.cpp.in.
extern "C" {
[[gnu::weak]] extern const char sectio_catalogue_index[];
[[gnu::weak]] extern const char sectio_catalogue_index_end[];
}

namespace sectio {

namespace {

/// minor of natural-minor.
bool is_word_of(std::string_view word, std::string_view id) {
    return fmt::format("-{}-", id).find(fmt::format("-{}-", word)) != std::string::npos;
}

constexpr std::size_t most_index_bytes = 64 << 20;

} // namespace

CalledBy called_by(const Entry& entry, const std::string& name) {
    if (folded(entry.id) == name)
        return CalledBy::id;
    if (folded(entry.name) == name)
        return CalledBy::name;
    const bool other = std::any_of(entry.also.begin(), entry.also.end(),
                                   [&](const std::string& also) { return folded(also) == name; });
    return other ? CalledBy::other_name : CalledBy::nothing;
}

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
    bool read_index(const std::filesystem::path& file, std::uint64_t checksum) {
        std::error_code failed;
        if (!std::filesystem::is_regular_file(file, failed))
            return false;
        return take_index(read_whole(file, most_index_bytes), checksum);
    }
    bool take_index(std::string bytes, std::optional<std::uint64_t> checksum) {
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
    for (const auto& file : {directory.parent_path() / "catalogue.index",
                             std::filesystem::path(SECTIO_BUILT_DATA) / "catalogue.index"})
        if (state_->read_index(file, sum))
            return;
    state_->take_index(make_index(files, directory), sum);
}

Catalogue::Catalogue(std::unique_ptr<State> state) : state_(std::move(state)) {}
Catalogue::Catalogue(Catalogue&&) noexcept = default;
Catalogue::~Catalogue() = default;

Catalogue* Catalogue::make_installed() {
    const auto directory = find_data_directory();
    if (directory || !sectio_catalogue_index)
        return new Catalogue((directory ? *directory : data_directory()) / "catalogue");
    auto state = std::make_unique<State>();
    state->take_index({sectio_catalogue_index, sectio_catalogue_index_end}, std::nullopt);
    return new Catalogue(std::move(state));
}

const Catalogue& Catalogue::installed() {
    // Never taken down: that would cost as much as a short command's own work.
    static const Catalogue& catalogue = *make_installed();
    return catalogue;
}

std::optional<Entry> Catalogue::find(std::string_view id) const {
    for (const IndexedEntry& entry : state_->indexed)
        if (entry.id == id)
            return entry_of(entry);
    return std::nullopt;
}

Scale Catalogue::scale(std::string_view id) const {
    const auto entry = find(id);
    if (!entry)
        throw error(message::unknown_scale_id, id, {}, hint(id));
    if (const Scale* scale = entry->scale())
        return *scale;
    throw error(message::not_a_scale, entry->id, {},
                entry->kind() == EntryKind::comma ? "a comma" : "an interval");
}

std::optional<std::string> Catalogue::reference(std::string_view key) const {
    const auto& works = state_->works;
    const auto at =
        std::lower_bound(works.begin(), works.end(), key,
                         [](const IndexedWork& w, std::string_view k) { return w.key < k; });
    return at != works.end() && at->key == key ? std::optional<std::string>(at->reference)
                                               : std::nullopt;
}

std::vector<Entry> Catalogue::all() && {
    return std::as_const(*this).all();
}

const std::vector<Entry>& Catalogue::all() const& {
    std::call_once(state_->made, [this] {
        state_->entries = state_->select([](const IndexedEntry&) { return true; });
    });
    return state_->entries;
}

std::vector<Entry> Catalogue::named(std::string_view name) const {
    const std::string wanted = folded(name);
    std::vector<Entry> entries = state_->select([&](const IndexedEntry& entry) {
        return std::find(entry.names.begin(), entry.names.end(), wanted) != entry.names.end();
    });
    std::stable_sort(entries.begin(), entries.end(), [&](const Entry& a, const Entry& b) {
        return called_by(a, wanted) < called_by(b, wanted);
    });
    return entries;
}

std::vector<Entry> Catalogue::of_size(const Interval& interval) const {
    std::vector<Entry> found = sizes();
    std::erase_if(found, [&](const Entry& entry) { return *entry.interval() != interval; });
    return found;
}

std::vector<std::string> Catalogue::similar(std::string_view id, std::size_t most) const {
    constexpr std::size_t most_distance = 2;
    std::vector<std::pair<std::size_t, std::string>> near;
    for (const IndexedEntry& entry : state_->indexed)
        if (const std::size_t distance = is_word_of(id, entry.id) ? 0 : edit_distance(id, entry.id);
            distance <= most_distance)
            near.emplace_back(distance, std::string(entry.id));
    std::sort(near.begin(), near.end());
    std::vector<std::string> ids;
    for (std::size_t i = 0; i < std::min(most, near.size()); ++i)
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
