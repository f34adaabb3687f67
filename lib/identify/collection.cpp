#include <sectio/base/argument.hpp>
#include <sectio/base/csv.hpp>
#include <sectio/base/folded.hpp>
#include <sectio/identify/collection.hpp>
#include <sectio/identify/messages.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <set>

namespace sectio {

namespace {

/// Folded, without what stands between words.
std::string bare(std::string_view name) {
    std::string text = folded(name);
    std::erase_if(text, [](char c) { return c == ' ' || c == '_' || c == '-' || c == '\''; });
    return text;
}

bool is_header(const Row& row) {
    return folded(row[0].text) == "file";
}

} // namespace

NamedFile named_file(const std::string& file, const Identification& answer) {
    NamedFile named;
    named.file = file;
    named.verdict = answer.verdict;
    named.none_probability = answer.none_probability;
    for (const Candidate& c : answer.candidates) {
        NamedFile::Name name{{c.scale}, c.start_degree, c.probability};
        name.scales.insert(name.scales.end(), c.namesakes.begin(), c.namesakes.end());
        named.names.push_back(std::move(name));
    }
    return named;
}

Labels::Labels(std::string_view table, const std::string& table_name) {
    for (const Row& row : read_rows(table, table_name)) {
        if (row.size() < 2 || row[0].text.empty() || row[1].text.empty())
            throw error(message::label_row, row[0].text, row[0].place);
        if (!names_.empty() || !is_header(row))
            names_[row[0].text] = row[1].text;
    }
}

namespace {

/// By which a table of labels may name the file, the best first.
std::array<std::string, 3> keys_of(const std::string& file) {
    const std::filesystem::path path = file;
    return {file, path.filename().string(), path.stem().string()};
}

/// "…: a, b, c." where there is any.
void add_remark(std::vector<std::string>& remarks, const char* what,
                const std::set<std::string>& labels) {
    if (!labels.empty())
        remarks.push_back(fmt::format("{}: {}.", what, fmt::join(labels, ", ")));
}

} // namespace

std::optional<std::string> Labels::of(const std::string& file) const {
    for (const std::string& key : keys_of(file))
        if (const auto found = names_.find(key); found != names_.end())
            return found->second;
    return std::nullopt;
}

std::vector<std::string> Labels::remarks(const std::vector<std::string>& files,
                                         const ScaleLibrary& library) const {
    std::set<std::string> known, unused, given, unknown;
    for (const std::string& file : files)
        for (const std::string& key : keys_of(file))
            known.insert(key);
    for (const auto& [file, label] : names_)
        if (known.count(file) == 0)
            unused.insert(file);
        else
            given.insert(label);
    for (const std::string& label : given)
        if (std::none_of(library.scales().begin(), library.scales().end(),
                         [&](const LibraryScale& s) { return is_named(s.entry, label); }))
            unknown.insert(label);
    std::vector<std::string> remarks;
    add_remark(remarks, "Labels of files that are not here", unused);
    add_remark(
        remarks,
        "Labels that no scale of the catalogue is called, so that their files count as wrong",
        unknown);
    return remarks;
}

bool is_named(const Entry& entry, const std::string& label) {
    const std::string wanted = bare(label);
    return bare(entry.id) == wanted || bare(entry.name) == wanted
           || std::any_of(entry.also.begin(), entry.also.end(),
                          [&](const std::string& other) { return bare(other) == wanted; });
}

void judge(NamedFile& named, const std::string& label) {
    named.label = label;
    const auto right = std::find_if(named.names.begin(), named.names.end(), [&](const auto& name) {
        return std::any_of(name.scales.begin(), name.scales.end(), [&](const LibraryScale* s) {
            check_argument(s != nullptr, "a name", "that of a scale at least");
            return is_named(s->entry, label);
        });
    });
    named.rank =
        right == named.names.end() ? 0 : static_cast<std::size_t>(right - named.names.begin()) + 1;
}

} // namespace sectio
