#pragma once
/// @file
/// Looking things up in the catalogue: by words, and by equal pitches.

#include <sectio/scale/catalogue.hpp>

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// What a search found.
struct Found {
    std::vector<const Entry*> called;   ///< the words together are their id or one of their names
    std::vector<const Entry*> matching; ///< the others that every word matches
    /// Where an instrument was asked for and not all is listed: words that find the rest.
    std::vector<std::string> more{};
    std::vector<const Entry*> all() const;
};

/// Entries in which every word is one of the id, a name, the tradition, the family or the source,
/// or begins one with four letters at least, or stands for one; all compared folded(). An
/// instrument finds what its name stands in, then the systems and the scales of its traditions; of
/// a tradition that says which scales are common, these. An interval calls those that have exactly
/// its size, or its cents as they are rounded. No words find everything.
/// @throws Error nothing_found with similar ids, or those of words with a few letters wrong
Found look_up(const Catalogue& catalogue, const std::vector<std::string>& words,
              std::optional<EntryKind> kind = std::nullopt);

/// Which entries an option takes.
using Accepted = std::function<bool(const Entry&)>;

/// The entry that `text` calls, of those accepted: by its id, else by its name, else by another
/// name, all compared folded().
/// @throws Error name_shared where two are called alike
std::optional<Entry> entry_called(const Catalogue& catalogue, std::string_view text,
                                  const Accepted& accepted);

/// "; did you mean A or B", where an option got `text`, which is no entry: of those that it accepts
/// at most three, the ones with similar ids, else those that the words of `text` find, be it with a
/// few letters wrong. Empty where there is none.
std::string suggestion(const Catalogue& catalogue, std::string_view text, const Accepted& accepted);

/// True where both have exactly the same degrees and period, when the degrees of `a` are counted
/// from its degree number `shift` (from 0): where the rotation of `a` that begins there is `b`.
bool same_pitches(const Scale& a, std::size_t shift, const Scale& b);

/// Another scale of the same pitches.
struct Relative {
    const Entry* entry = nullptr;
    std::size_t shift = 0; ///< its first degree is the degree `shift` (from 0) of the scale
};

/// The scales of the catalogue, other than `entry` itself, that have its very pitches, from the
/// same first degree or from another.
std::vector<Relative> relatives(const Entry& entry, const Catalogue& catalogue);

} // namespace sectio
