#include <sectio/scale/lookup.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <sstream>

namespace sectio {

namespace {

/// All that words are looked for in, folded, a space before each part.
std::string searched_text(const Entry& entry) {
    std::string text = " " + folded(entry.id) + " " + folded(entry.name);
    for (const std::string& name : entry.also)
        text += " " + folded(name);
    return text + " " + folded(entry.tradition()) + " " + folded(entry.family()) + " "
           + folded(entry.source);
}

bool is_called(const Entry& entry, const std::string& name) {
    const auto is_it = [&](const std::string& other) { return folded(other) == name; };
    return is_it(entry.id) || is_it(entry.name)
           || std::any_of(entry.also.begin(), entry.also.end(), is_it);
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

/// Entries that hold each word, `before` it.
std::vector<const Entry*> holding(const std::vector<const Entry*>& entries,
                                  const std::vector<std::string>& words,
                                  const std::string& before) {
    std::vector<const Entry*> found;
    for (const Entry* entry : entries) {
        const std::string text = searched_text(*entry);
        if (std::all_of(words.begin(), words.end(), [&](const std::string& word) {
                return text.find(before + folded(word)) != std::string::npos;
            }))
            found.push_back(entry);
    }
    return found;
}

/// Names before ids and sources: an entry whose own name begins with the first word goes first.
void order_by_name(std::vector<const Entry*>& entries, const std::string& first_word) {
    std::stable_partition(entries.begin(), entries.end(), [&](const Entry* entry) {
        return folded(entry->name).starts_with(folded(first_word));
    });
}

Error nothing_found(const Catalogue& catalogue, const std::vector<std::string>& words) {
    std::string id = folded(joined(words));
    std::replace(id.begin(), id.end(), ' ', '-');
    return error(message::nothing_found, joined(words), {"WORDS"}, catalogue.hint(id));
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
    if (words.empty())
        return {{}, entries};
    const std::string name = folded(joined(words));
    std::vector<const Entry*> others;
    for (const Entry* entry : entries)
        (is_called(*entry, name) ? found.called : others).push_back(entry);
    found.matching = holding(others, words, " ");
    if (found.called.empty() && found.matching.empty())
        found.matching = holding(others, words, "");
    order_by_name(found.matching, words.front());
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

std::string suggestion(const Catalogue& catalogue, std::string_view text,
                       const Accepted& accepted) {
    constexpr std::size_t most = 3;
    std::vector<std::string> words, ids;
    std::istringstream in{std::string(text)};
    for (std::string word; in >> word;)
        words.push_back(word);
    for (const std::string& id : catalogue.similar(text))
        if (accepted(*catalogue.find(id)))
            ids.push_back(id);
    if (ids.empty() && !words.empty())
        for (const Entry* entry : search(catalogue, words, std::nullopt).all())
            if (ids.size() < most && accepted(*entry))
                ids.push_back(entry->id);
    std::string hint;
    for (const std::string& id : ids)
        hint += (hint.empty() ? "; did you mean " : " or ") + id;
    return hint;
}

bool same_pitches(const Scale& a, std::size_t shift, const Scale& b) {
    const std::size_t count = a.degrees.size();
    if (count != b.degrees.size() || a.period != b.period || (shift > 0 && !a.period))
        return false;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t j = i + shift;
        Interval degree = a.degrees[j % count].interval - a.degrees[shift].interval;
        if (j >= count)
            degree += *a.period;
        if (degree != b.degrees[i].interval)
            return false;
    }
    return true;
}

std::vector<Relative> relatives(const Entry& entry, const Catalogue& catalogue) {
    std::vector<Relative> found;
    if (!entry.scale())
        return found;
    const std::size_t rotations = entry.scale()->period ? entry.scale()->degrees.size() : 1;
    for (const Entry& other : catalogue.all()) {
        if (!other.scale() || other.id == entry.id)
            continue;
        for (std::size_t shift = 0; shift < rotations; ++shift)
            if (same_pitches(*entry.scale(), shift, *other.scale())) {
                found.push_back({&other, shift});
                break;
            }
    }
    return found;
}

} // namespace sectio
