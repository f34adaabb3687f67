#include "together.hpp"

#include "parallel.hpp"

#include <sectio/base/command_files.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/print/print.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <utility>

namespace sectio::cli {

namespace {

namespace fs = std::filesystem;

/// The facts of a page that stand in its document itself.
std::vector<page::Fact> facts_of(const page::Page& page) {
    std::vector<page::Fact> facts;
    for (const page::Block& block : page.blocks)
        if (const auto* some = std::get_if<page::Facts>(&block); some && some->key.empty())
            std::copy_if(some->facts.begin(), some->facts.end(), std::back_inserter(facts),
                         [](const page::Fact& fact) { return !fact.key.empty(); });
    return facts;
}

struct Row {
    std::string file, error;
    std::vector<page::Fact> facts;
};

const page::Fact* fact_of(const Row& row, const std::string& key) {
    const auto found = std::find_if(row.facts.begin(), row.facts.end(),
                                    [&](const page::Fact& fact) { return fact.key == key; });
    return found == row.facts.end() ? nullptr : &*found;
}

page::Table file_table(const std::vector<Row>& done) {
    using page::Column;
    page::Table table{"files", "", {}, {}};
    table.add(done, Column{"File", page::ColumnKind::words}.keyed("file"),
              [](const Row& row) { return page::File{row.file}; });
    std::vector<page::Fact> heads;
    for (const Row& row : done)
        for (const page::Fact& fact : row.facts)
            if (std::none_of(heads.begin(), heads.end(),
                             [&](const page::Fact& head) { return head.key == fact.key; }))
                heads.push_back(fact);
    for (const page::Fact& head : heads) {
        Column column = Column{head.label, page::ColumnKind::words}.keyed(head.key);
        table.add(done, head.label.empty() ? std::move(column).hidden() : column,
                  [&](const Row& row) {
                      const page::Fact* fact = fact_of(row, head.key);
                      return fact ? fact->cell : page::Cell();
                  });
    }
    return table;
}

page::Table failed_table(const std::vector<Row>& failed) {
    page::Table table{"failed", failed.empty() ? "" : "Not done", {}, {}};
    table.add(failed, page::Column{"File", page::ColumnKind::words}.keyed("file"),
              [](const Row& row) { return page::File{row.file}; });
    table.add(failed, page::Column{"Error", page::ColumnKind::words}.keyed("error"),
              [](const Row& row) { return row.error; });
    return table;
}

page::Page page_of(const std::vector<Row>& rows) {
    std::vector<Row> done, failed;
    for (const Row& row : rows)
        (row.error.empty() ? done : failed).push_back(row);
    page::Page page;
    page.title = "Files";
    page.kind = "files";
    page.blocks = {page::Facts{"",
                               "",
                               {{"Files", page::count(rows.size()), "count"},
                                {"Done", page::count(done.size()), "done"}}},
                   file_table(done), failed_table(failed)};
    return page;
}

/// @throws Error outputs_are_one, with the names of both inputs
void refuse_one_output_of_two(const Together& all) {
    std::map<fs::path, std::string> inputs;
    for (const std::string& file : all.files) {
        const fs::path written = all.out_of(file).lexically_normal();
        const auto [known, is_new] = inputs.try_emplace(written, file);
        if (!is_new)
            throw error(message::outputs_are_one, written.string(),
                        {fmt::format("{} and {}", known->second, file)});
    }
}

/// What lies in the folder of the results was made by an earlier call and is no source, where that
/// folder lies within the one that is worked on.
void leave_results_out(std::vector<std::string>& files, const fs::path& folder,
                       const std::string& out) {
    std::error_code ignored;
    const fs::path sources = fs::weakly_canonical(folder, ignored),
                   results = fs::weakly_canonical(out, ignored);
    if (out.empty() || results == sources || !lies_in(results, sources))
        return;
    std::erase_if(files, [&](const std::string& file) {
        return lies_in(fs::weakly_canonical(file, ignored), results);
    });
}

} // namespace

std::string json_line(const std::string& file, page::Page page, const page::PrintOptions& print) {
    page.blocks.insert(page.blocks.begin(), page::Facts{"", "", {{"", page::File{file}, "file"}}});
    return print_json(page, print);
}

fs::path Together::out_of(const std::string& file) const {
    if (out.empty())
        return {};
    fs::path below =
        folder.empty() ? fs::path(file).filename() : fs::path(file).lexically_relative(folder);
    if (!kind.empty())
        below.replace_extension(kind);
    return fs::path(out) / below;
}

std::optional<Together> together_of(const std::string& argument, const BatchOptions& options,
                                    const std::vector<std::string>& kinds, const std::string& out,
                                    const std::string& out_kind) {
    auto files = files_together(argument, options, kinds);
    if (!files)
        return std::nullopt;
    if (options.files_from.empty())
        leave_results_out(*files, argument, out);
    Together all{std::move(*files), options.files_from.empty() ? argument : "", out, out_kind};
    prepare_outputs(all);
    return all;
}

void prepare_outputs(const Together& all) {
    if (all.out.empty())
        return;
    refuse_one_output_of_two(all);
    for (const std::string& file : all.files)
        make_folder(all.out_of(file).parent_path());
    for (const std::string& file : all.files) // a link may lead to one that is read later
        reads(file);
}

void answer_together(const Together& all, const BatchOptions& options, CommonOptions common,
                     const Command& command,
                     const std::function<page::Page(const std::string& file)>& one) {
    page::PrintOptions print_options;
    print_options.one_line = true;
    if (command.given("--digits"))
        print_options.digits = common.digits;
    std::vector<Row> rows(all.files.size());
    std::vector<std::string> lines(all.files.size());
    const auto work = [&](std::size_t i) {
        page::Page page = one(all.files[i]);
        rows[i].facts = facts_of(page);
        if (options.json_lines)
            lines[i] = json_line(all.files[i], std::move(page), print_options);
    };
    const auto failed = in_parallel(all.files.size(), options.threads, work,
                                    [&](std::size_t i) { print(std::exchange(lines[i], {})); });
    for (std::size_t i = 0; i < rows.size(); ++i)
        rows[i].file = all.files[i];
    for (const auto& [i, failure] : failed)
        rows[i].error = named(all.files[i], failure).what();
    common.out.clear(); // which is the folder
    if (!options.json_lines)
        answer(page_of(rows), common, command);
    tell_failures(all.files, failed, common.json);
}

} // namespace sectio::cli
