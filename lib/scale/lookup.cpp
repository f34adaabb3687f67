#include <sectio/base/argument.hpp>
#include <sectio/base/edit_distance.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/other_words.hpp>

#include <algorithm>
#include <iterator>
#include <set>
#include <sstream>

namespace sectio {

namespace {

constexpr std::string_view what_accepts = "what accepts an entry";

/// Id and names, folded, a space before each.
std::string names_of(const Entry& entry) {
    std::string text = " " + folded(entry.id) + " " + folded(entry.name);
    for (const std::string& name : entry.also)
        text += " " + folded(name);
    return text;
}

/// Words of the entry's own, not of its sources.
std::string own_words(const Entry& entry) {
    return names_of(entry) + " " + folded(entry.tradition()) + " " + folded(entry.family());
}

/// All that words are looked for in, a space around each word.
std::string searched_text(const Entry& entry) {
    std::string text = own_words(entry) + " " + folded(entry.source) + " ";
    for (char& c : text)
        if (std::string_view(",;:()").find(c) != std::string_view::npos)
            c = ' ';
    return text;
}

std::vector<const Entry*> of_kind(const Catalogue& catalogue, std::optional<EntryKind> kind) {
    std::vector<const Entry*> entries;
    for (const Entry& entry : catalogue.all())
        if (!kind || entry.kind() == *kind)
            entries.push_back(&entry);
    return entries;
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const std::string& word : words)
        text += (text.empty() ? "" : " ") + word;
    return text;
}

bool has_word(const std::string& text, const std::string& word) {
    return text.find(" " + word + " ") != std::string::npos;
}

/// Whether `word` is a word of `text`, or begins one, or is all of one but for its own last letter,
/// as in `makamı`. Few letters begin too much.
bool begins_a_word(const std::string& text, const std::string& word) {
    constexpr std::size_t fewest = 4;
    return has_word(text, word)
           || (word.size() >= fewest && text.find(" " + word) != std::string::npos)
           || (word.size() > fewest && has_word(text, word.substr(0, word.size() - 1)));
}

using Holds = bool (*)(const std::string& text, const std::string& word);

bool has_any(const std::string& text, std::span<const std::string_view> words) {
    return std::any_of(words.begin(), words.end(),
                       [&](std::string_view word) { return has_word(text, std::string(word)); });
}

/// Whether the entry has `word`, or what it means, as `holds` says.
bool has_itself(const Entry& entry, const std::string& word, Holds holds) {
    const std::string text = searched_text(entry);
    return holds(text, word) || has_any(text, words_for(word));
}

/// Entries that have each of `words`, or what it means or is played on, as `holds` says.
std::vector<const Entry*> holding(const std::vector<const Entry*>& entries,
                                  const std::vector<std::string>& words, Holds holds) {
    std::vector<const Entry*> found;
    for (const Entry* entry : entries)
        if (std::all_of(words.begin(), words.end(), [&](const std::string& word) {
                return has_itself(*entry, word, holds)
                       || has_any(searched_text(*entry), played_on(word));
            }))
            found.push_back(entry);
    return found;
}

std::vector<std::string> words_of(std::string_view text) {
    std::istringstream in{std::string(text)};
    return {std::istream_iterator<std::string>(in), {}};
}

/// An interval that was written instead of words, with the digits of its cents.
struct WrittenSize {
    Interval interval;
    std::optional<int> cents_digits; ///< where it is cents, which are rounded
};

std::optional<WrittenSize> written_size(const std::string& text) {
    if (text.find_first_of("0123456789") == std::string::npos)
        return std::nullopt;
    try {
        WrittenSize size{parse_interval(text), std::nullopt};
        const std::size_t unit = text.find_first_not_of("0123456789.");
        if (unit != std::string::npos && (text.substr(unit) == "c" || text.substr(unit) == "¢")) {
            const std::size_t point = std::min(text.find('.'), unit - 1);
            size.cents_digits = static_cast<int>(unit - point) - 1;
        }
        return size;
    } catch (const Error&) { // words, then
        return std::nullopt;
    }
}

bool has_size(const Entry& entry, const WrittenSize& size) {
    const Interval* interval = entry.interval();
    return interval != nullptr
           && (size.cents_digits
                   ? interval->cents(*size.cents_digits) == size.interval.cents(*size.cents_digits)
                   : *interval == size.interval);
}

/// Whole words before beginnings, and before that names before ids and sources: an entry whose own
/// name begins with the first word goes first.
void order_by_name(std::vector<const Entry*>& entries, const std::vector<std::string>& words) {
    const auto whole = holding(entries, words, has_word);
    std::stable_partition(entries.begin(), entries.end(), [&](const Entry* entry) {
        return std::find(whole.begin(), whole.end(), entry) != whole.end();
    });
    std::stable_partition(entries.begin(), entries.end(), [&](const Entry* entry) {
        return folded(entry->name).starts_with(words.front());
    });
}

/// Of what is found for an instrument: first what has its name, then systems, then scales, those
/// that are common where their tradition says which.
void order_for_instrument(Found& found, const std::vector<std::string>& words) {
    const auto named = [&](const Entry* entry) {
        return std::all_of(words.begin(), words.end(), [&](const std::string& word) {
            return has_itself(*entry, word, begins_a_word);
        });
    };
    std::set<std::string> choosing; // traditions that say which are common
    for (const Entry* entry : found.matching)
        if (entry->common())
            choosing.insert(entry->tradition());
    const auto left_out = std::erase_if(found.matching, [&](const Entry* entry) {
        return entry->kind() == EntryKind::scale && !entry->common()
               && choosing.contains(entry->tradition()) && !named(entry);
    });
    std::stable_partition(found.matching.begin(), found.matching.end(),
                          [](const Entry* e) { return e->kind() == EntryKind::system; });
    std::stable_partition(found.matching.begin(), found.matching.end(), named);
    for (const std::string& word : words)
        for (const std::string_view tradition : played_on(word))
            if (left_out > 0)
                found.more.emplace_back(tradition);
}

/// How many letters are wrong in the words of `wanted` at most two in each, against the words of
/// `text` that are nearest to them; nothing where a word has no like there.
std::optional<std::size_t> letters_wrong(const std::vector<std::string>& wanted,
                                         const std::string& text) {
    std::size_t sum = 0;
    for (const std::string& word : wanted) {
        const std::size_t most = std::min<std::size_t>(2, (word.size() - 1) / 3);
        std::size_t least = most + 1;
        std::istringstream in(text);
        for (std::string own; in >> own;)
            least = std::min(least, edit_distance(word, own));
        if (least > most)
            return std::nullopt;
        sum += least;
    }
    return sum;
}

std::string id_of(const std::vector<std::string>& words) {
    std::string id = folded(joined(words));
    std::replace(id.begin(), id.end(), ' ', '-');
    return id;
}

/// Ids of the entries whose own words are the most like these, at most three; of those that are
/// alike the ids that are.
std::vector<std::string> like_words(const Catalogue& catalogue,
                                    const std::vector<std::string>& words,
                                    const Accepted& accepted) {
    constexpr std::size_t most = 3;
    const std::vector<std::string> wanted = words_of(folded(joined(words)));
    const std::string id = id_of(words);
    std::vector<std::pair<std::pair<std::size_t, std::size_t>, std::string>> found;
    for (const Entry& entry : catalogue.all())
        if (const auto wrong =
                accepted(entry) ? letters_wrong(wanted, own_words(entry)) : std::nullopt)
            found.emplace_back(std::pair(*wrong, edit_distance(id, entry.id)), entry.id);
    std::stable_sort(found.begin(), found.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    std::vector<std::string> ids;
    for (std::size_t i = 0; i < std::min(most, found.size()); ++i)
        ids.push_back(found[i].second);
    return ids;
}

Error nothing_found(const Catalogue& catalogue, const std::vector<std::string>& words) {
    return error(message::nothing_found, joined(words), {"WORDS"},
                 suggestion(catalogue, joined(words), [](const Entry&) { return true; }));
}

} // namespace

std::vector<const Entry*> Found::all() const {
    std::vector<const Entry*> entries = called;
    entries.insert(entries.end(), matching.begin(), matching.end());
    return entries;
}

namespace {

Found search(const Catalogue& catalogue, const std::vector<std::string>& words,
             std::optional<EntryKind> kind) {
    Found found;
    const auto entries = of_kind(catalogue, kind);
    const std::string name = folded(joined(words));
    if (words_of(name).empty())
        return {{}, entries, {}};
    std::vector<const Entry*> others;
    const auto size = written_size(joined(words));
    for (const Entry* entry : entries) {
        const bool called =
            called_by(*entry, name) != CalledBy::nothing || (size && has_size(*entry, *size));
        (called ? found.called : others).push_back(entry);
    }
    std::stable_sort(found.called.begin(), found.called.end(), [&](const auto* a, const auto* b) {
        return called_by(*a, name) < called_by(*b, name);
    });
    const std::vector<std::string> each = words_of(name);
    found.matching = holding(others, each, begins_a_word);
    order_by_name(found.matching, each);
    if (std::any_of(each.begin(), each.end(),
                    [](const std::string& word) { return !played_on(word).empty(); }))
        order_for_instrument(found, each);
    return found;
}

} // namespace

Found look_up(const Catalogue& catalogue, const std::vector<std::string>& words,
              std::optional<EntryKind> kind) {
    Found found = search(catalogue, words, kind);
    if (!words.empty() && found.called.empty() && found.matching.empty())
        throw nothing_found(catalogue, words);
    return found;
}

std::optional<Entry> entry_called(const Catalogue& catalogue, std::string_view text,
                                  const Accepted& accepted) {
    check_function(accepted, what_accepts);
    std::vector<Entry> entries = catalogue.named(text);
    std::erase_if(entries, [&](const Entry& entry) { return !accepted(entry); });
    if (entries.empty())
        return std::nullopt;
    const std::string name = folded(text);
    if (entries.size() > 1 && called_by(entries[0], name) == called_by(entries[1], name))
        throw error(message::name_shared, text, {}, entries[0].id, entries[1].id);
    return entries[0];
}

std::string suggestion(const Catalogue& catalogue, std::string_view text,
                       const Accepted& accepted) {
    check_function(accepted, what_accepts);
    constexpr std::size_t most = 3;
    const std::vector<std::string> words = words_of(text);
    std::vector<std::string> ids;
    if (!words.empty())
        for (const std::string& id : catalogue.similar(id_of(words), std::string::npos))
            if (ids.size() < most && accepted(*catalogue.find(id)))
                ids.push_back(id);
    if (ids.empty() && !words.empty())
        for (const Entry* entry : search(catalogue, words, std::nullopt).all())
            if (ids.size() < most && accepted(*entry))
                ids.push_back(entry->id);
    if (ids.empty() && !words.empty())
        ids = like_words(catalogue, words, accepted);
    std::string hint;
    for (const std::string& id : ids)
        hint += (hint.empty() ? "; did you mean " : " or ") + id;
    return hint;
}

} // namespace sectio
