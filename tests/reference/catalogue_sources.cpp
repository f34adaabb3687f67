// The sources of the catalogue: every key stands in data/sources.toml and on docs/sources.md, and
// the number of entries with a source that was read does not fall.

#include <sectio/scale/catalogue.hpp>

#include <support/paths.hpp>
#include <support/process.hpp>

#include <algorithm>
#include <map>
#include <set>

namespace {

/// Entries with a source seen; to be raised when more are looked up.
constexpr std::size_t least_seen = 565;

constexpr std::string_view no_source = "common practice, no source";

/// One reference of an entry: key, place and mark, as in `partch-1974, ch. 4 (seen: table)`.
struct Reference {
    std::string key, place, mark;
};

Reference parse(const std::string& text) {
    Reference reference;
    const auto mark = text.find(" (");
    if (mark != std::string::npos && text.back() == ')')
        reference.mark = text.substr(mark + 2, text.size() - mark - 3);
    const std::string before = text.substr(0, mark);
    const auto comma = before.find(", ");
    reference.key = before.substr(0, comma);
    if (comma != std::string::npos)
        reference.place = before.substr(comma + 2);
    return reference;
}

std::vector<Reference> references(const std::string& source) {
    std::vector<Reference> all;
    if (source == no_source)
        return all;
    for (std::size_t at = 0; at != std::string::npos;) {
        const auto end = source.find("; ", at);
        all.push_back(parse(source.substr(at, end == std::string::npos ? end : end - at)));
        at = end == std::string::npos ? end : end + 2;
    }
    return all;
}

/// Of the entry and of what it says of practice.
std::vector<Reference> all_references(const sectio::Entry& entry) {
    std::vector<Reference> all = references(entry.source);
    for (const sectio::PractisedDegree& practised : entry.practised())
        for (Reference& reference : references(practised.source))
            all.push_back(std::move(reference));
    return all;
}

/// Whether a mark begins with `word` and ends there, or goes on with what was read and where.
bool begins(const std::string& mark, const std::string& word) {
    return mark.starts_with(word)
           && (mark.size() == word.size() || mark[word.size()] == ':' || mark[word.size()] == ' ');
}

bool is_seen(const Reference& reference) {
    return begins(reference.mark, "seen");
}

bool has_seen(const sectio::Entry& entry) {
    return std::ranges::any_of(references(entry.source), is_seen);
}

/// The line of docs/reference.md that counts the entry.
std::string group_of(const sectio::Entry& entry) {
    if (!entry.tradition().empty())
        return entry.tradition();
    return entry.kind() == sectio::EntryKind::comma ? "commas" : "intervals";
}

/// The keys of data/sources.toml, each with whether something of the work was read.
std::map<std::string, bool> works() {
    std::map<std::string, bool> all;
    std::string key;
    for (const std::string& line :
         support::lines_of(support::read_file(support::data_dir() / "sources.toml"))) {
        if (line.starts_with("key = \""))
            key = line.substr(7, line.size() - 8);
        if (line.starts_with("key = \"") || line.starts_with("seen = \""))
            all[key] = line.starts_with("seen");
    }
    return all;
}

std::vector<sectio::Entry> entries() {
    return sectio::Catalogue(support::data_dir() / "catalogue").all();
}

} // namespace

TEST_CASE("Every reference of the catalogue names a known work and says whether it was seen") {
    const auto known = works();
    REQUIRE(known.size() > 100);
    for (const sectio::Entry& entry : entries()) {
        INFO(entry.id << ": " << entry.source);
        for (const Reference& reference : all_references(entry)) {
            CHECK(known.contains(reference.key));
            CHECK((is_seen(reference) || begins(reference.mark, "from memory")));
        }
    }
}

TEST_CASE("A work that an entry marks as seen says what of it was seen") {
    const auto known = works();
    for (const sectio::Entry& entry : entries()) {
        for (const Reference& reference : all_references(entry)) {
            INFO(entry.id << ": " << reference.key);
            if (is_seen(reference) && known.contains(reference.key))
                CHECK(known.at(reference.key));
        }
    }
}

TEST_CASE("The page of sources lists exactly the works of the data") {
    std::set<std::string> listed;
    for (const std::string& line :
         support::lines_of(support::read_file(support::source_dir() / "docs/sources.md")))
        if (line.starts_with("- `"))
            listed.insert(line.substr(3, line.find('`', 3) - 3));
    std::set<std::string> known;
    for (const auto& [key, seen] : works())
        known.insert(key);
    CHECK(listed == known);
}

TEST_CASE("The entries with a source seen do not become fewer") {
    const auto all = entries();
    CHECK(static_cast<std::size_t>(std::ranges::count_if(all, has_seen)) >= least_seen);
}

TEST_CASE("The page of the reference counts the entries of each tradition and names its families") {
    struct Group {
        std::set<std::string> families;
        std::size_t entries = 0, seen = 0;
    };
    std::map<std::string, Group> groups;
    for (const sectio::Entry& entry : entries()) {
        Group& group = groups[group_of(entry)];
        ++group.entries;
        group.seen += has_seen(entry);
        if (!entry.family().empty())
            group.families.insert(entry.family());
    }
    std::set<std::string> expected, listed;
    for (const auto& [name, group] : groups) {
        std::string families;
        for (const std::string& family : group.families)
            families += (families.empty() ? " " : "; ") + family;
        expected.insert("| " + name + " |" + families + " | " + std::to_string(group.entries)
                        + " | " + std::to_string(group.seen) + " |");
    }
    for (const std::string& line :
         support::lines_of(support::read_file(support::source_dir() / "docs/reference.md")))
        if (line.starts_with("| ") && !line.starts_with("| tradition"))
            listed.insert(line);
    CHECK(listed == expected);
}

TEST_CASE("The README tells how many entries there are") {
    const std::string readme = support::read_file(support::source_dir() / "README.md");
    const std::string count = std::to_string(entries().size());
    CHECK(readme.find("the reference: " + count + " intervals, commas") != std::string::npos);
}
