#pragma once
/// @file
/// The reference: intervals, commas, scales and tuning systems, each with its source.
///
/// It is kept as TOML in data/catalogue (docs/catalogue.md), of which the build makes an index; a
/// single entry is found there without making the others.

#include <sectio/base/folded.hpp>
#include <sectio/scale/entry.hpp>

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// Where the catalogue and the examples are: what set_data_directory() was given, else
/// $SECTIO_DATA, else share/sectio in the nearest folder above the file that the library was linked
/// into (a shared library, a plug-in or a program) or above the program, so that an installed tree
/// may be moved as a whole; else the place of installation, else the build tree.
/// @throws Error no_data
std::filesystem::path data_directory();
/// The same, or nothing where there is none.
std::optional<std::filesystem::path> find_data_directory();
/// For a program that keeps the data elsewhere. What the catalogue was read from before stays.
/// @throws Error no_data where `directory` has no folder `catalogue`
void set_data_directory(const std::filesystem::path& directory);

/// By what an entry is called, the surest first.
enum class CalledBy { id, name, other_name, nothing };
/// By what `name`, which is folded(), calls the entry.
CalledBy called_by(const Entry& entry, const std::string& name);

class Catalogue {
  public:
    /// Reads the index of `directory`/*.toml and of the works that they cite
    /// (`directory`/../sources.toml, if there), or the files where it is not of these very files.
    /// @throws Error no_data, cannot_read, and with its place where anything in them is not valid
    explicit Catalogue(const std::filesystem::path& directory);
    Catalogue(Catalogue&&) noexcept;
    ~Catalogue();
    /// The catalogue of data_directory(), read once and there to the end of the program. Where
    /// there is no such directory it is the one that the installed static library holds.
    /// @throws Error as the constructor and data_directory()
    static const Catalogue& installed();

    /// The entry with this id.
    std::optional<Entry> find(std::string_view id) const;
    /// The scale or system with this id. @throws Error unknown_scale_id, not_a_scale
    Scale scale(std::string_view id) const;
    /// The entries that have `name` as id, then those that have it as name, then as another name;
    /// compared folded().
    std::vector<Entry> named(std::string_view name) const;
    /// All entries in the order of the files. They are made at the first call and live as long as
    /// the catalogue.
    const std::vector<Entry>& all() const&;
    std::vector<Entry> all() &&; ///< of a temporary
    /// Intervals and commas of exactly this size.
    std::vector<Entry> of_size(const Interval& interval) const;
    /// Ids that `id` is a word of, then those within two letters of it, for advice.
    std::vector<std::string> similar(std::string_view id, std::size_t most = 3) const;
    /// "; did you mean A or B" for messages, empty where nothing is similar.
    std::string hint(std::string_view id) const;
    /// All intervals and commas.
    std::vector<Entry> sizes() const;
    /// The work with this key, "H. S. Arel, Türk Mûsıkîsi Nazariyatı Dersleri (1968)".
    std::optional<std::string> reference(std::string_view key) const;
    /// For parse_interval: intervals and commas by name. The lookup asks this catalogue, which must
    /// outlive it and stay where it is.
    NameLookup names() const;

  private:
    struct State;
    explicit Catalogue(std::unique_ptr<State> state);
    static Catalogue* make_installed();
    std::unique_ptr<State> state_;
};

} // namespace sectio
