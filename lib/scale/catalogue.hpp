#pragma once
/// @file
/// The reference: intervals, commas, scales and tuning systems, each with its source.
///
/// It is kept as TOML in data/catalogue (docs/catalogue.md). A single entry is found without
/// reading the whole: files are cut at the lines that begin an entry, and only that one is parsed.

#include <sectio/base/folded.hpp>
#include <sectio/division/division.hpp>
#include <sectio/scale/scale.hpp>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

enum class EntryKind { interval, comma, scale, system };

/// Intervals and commas have a size; scales and systems have degrees.
constexpr bool has_size(EntryKind kind) {
    return kind == EntryKind::interval || kind == EntryKind::comma;
}

/// "interval", "comma", "scale", "system".
std::string_view text(EntryKind kind);
/// @throws Error unknown_kind
EntryKind parse_kind(std::string_view text, const Place& place = {});

/// One entry of the catalogue. What the source does not give is empty.
struct Entry {
    std::string id;
    EntryKind kind = EntryKind::interval;
    std::string name;
    std::vector<std::string> also; ///< other names
    std::string source;
    std::string note;
    std::string tradition;
    std::string family;
    std::string tonic_name;                ///< the trade's name of the first degree (a perde, say)
    std::optional<int> dominant;           ///< degree number, the tonic being 1
    std::string direction;                 ///< "ascending", "descending", "ascending-descending"
    std::optional<int> second_dominant;    ///< degree number of a further resting note
    std::optional<int> begins;             ///< degree that the course begins about, where theory
                                           ///< names one that the direction does not
    std::vector<Interval> mobile;          ///< notes that the course admits besides the degrees
    std::string form_of;                   ///< id of the scale that this is another form of
    bool common = false;                   ///< named among the most used of its tradition
    std::optional<Interval> interval;      ///< of an interval or comma
    std::optional<Scale> scale;            ///< of a scale or system
    std::optional<EqualDivision> division; ///< of a system that is one
};

/// Where the catalogue and the examples are: $SECTIO_DATA, else share/sectio beside the program,
/// else the source tree that the library was built from, else the place of installation.
/// @throws Error no_data
std::filesystem::path data_directory();

class Catalogue {
  public:
    /// Reads the texts of `directory`/*.toml; entries are parsed when asked for.
    /// @throws Error no_data, cannot_read
    explicit Catalogue(const std::filesystem::path& directory);
    Catalogue(Catalogue&&) noexcept;
    ~Catalogue();
    /// The catalogue of data_directory(), read once.
    static const Catalogue& installed();

    /// The entry with this id. @throws Error where its text is not a valid entry
    std::optional<Entry> find(std::string_view id) const;
    /// The entries that have `name` as id, name or other name, compared folded().
    std::vector<Entry> named(std::string_view name) const;
    /// All entries in the order of the files.
    const std::vector<Entry>& all() const;
    /// Intervals and commas of exactly this size.
    std::vector<Entry> of_size(const Interval& interval) const;
    /// Ids within two letters of `id`, for advice; at most three.
    std::vector<std::string> similar(std::string_view id) const;
    /// "; did you mean A or B" for messages, empty where nothing is similar.
    std::string hint(std::string_view id) const;
    /// All intervals and commas.
    std::vector<Entry> sizes() const;
    /// For parse_interval: intervals and commas by name.
    NameLookup names() const;

  private:
    struct Texts;
    std::unique_ptr<Texts> texts_;
};

} // namespace sectio
