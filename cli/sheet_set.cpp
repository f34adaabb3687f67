#include "sheet_set.hpp"

#include "batch.hpp"
#include "parallel.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/identify/library.hpp>
#include <sectio/print/print_index.hpp>
#include <sectio/print/typeset_pages.hpp>
#include <sectio/sheet/messages.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <map>
#include <optional>
#include <set>

namespace sectio::cli {

namespace {

/// One sheet of the set: what it shows, and where it goes.
struct Job {
    source::Source source;
    page::IndexEntry entry;
};

std::vector<Job> jobs_of_catalogue(const std::vector<std::string>& among) {
    const ScaleLibrary library = ScaleLibrary::installed().among(among); // no words match all
    std::vector<Job> jobs;
    for (const LibraryScale& scale : library.scales())
        if (const Scale* degrees = scale.entry.scale())
            jobs.push_back({{*degrees, scale.entry.id, {}},
                            {scale.entry.id, degrees->name, scale.entry.tradition(), ""}});
    return jobs;
}

Job job_of_argument(const std::string& argument, std::size_t number) {
    source::Source source = source::open(argument);
    const Scale scale = to_scale(source::scale_in(source));
    const std::string stem = !source.file.empty() ? source.file.stem().string()
                             : scale.id.empty()   ? fmt::format("scale-{}", number)
                                                  : scale.id;
    return {std::move(source), {stem, scale.name, "", ""}};
}

/// Those that can be read; the others go to `failed`.
std::vector<Job> jobs_of_arguments(const std::vector<std::string>& arguments,
                                   std::vector<FailedSheet>& failed) {
    std::vector<Job> jobs;
    for (std::size_t i = 0; i < arguments.size(); ++i)
        try {
            jobs.push_back(job_of_argument(arguments[i], i + 1));
        } catch (const Error& e) {
            failed.push_back({arguments[i], e});
        }
    return jobs;
}

/// `stem`, or the first of stem-2, stem-3 … that is not used yet; it is used from then on.
std::string name_beside(const std::string& stem, std::set<std::string>& used) {
    std::string name = stem;
    for (int i = 2; !used.insert(name).second; ++i)
        name = fmt::format("{}-{}", stem, i);
    return name;
}

std::vector<Job> jobs_of(const SheetSet& set, std::vector<FailedSheet>& failed) {
    std::vector<Job> jobs =
        set.scales.empty() ? jobs_of_catalogue(set.among) : jobs_of_arguments(set.scales, failed);
    std::set<std::string> used{"index"}; // the index page's own name
    for (Job& job : jobs) {
        job.entry.file = name_beside(job.entry.file, used) + "." + set.kind;
        job.entry.said =
            fmt::format("{} degrees", to_scale(source::scale_in(job.source)).degrees.size());
    }
    return jobs;
}

page::Table failed_table(const std::vector<FailedSheet>& failed) {
    page::Table table{"failed", "Not made", {}, {}};
    table.add(failed, page::Column{"Scale", page::ColumnKind::words}.keyed("scale"),
              [](const FailedSheet& f) { return f.argument; });
    table.add(failed, page::Column{"Error", page::ColumnKind::words}.keyed("error"),
              [](const FailedSheet& f) { return std::string(f.error.what()); });
    return table;
}

page::Table sheets_table(const std::vector<page::IndexEntry>& entries) {
    page::Table sheets{"sheets", "", {}, {}};
    const auto add = [&](const char* key, auto cell) {
        sheets.add(entries, page::Column{}.keyed(key).hidden(), cell);
    };
    add("name", [](const page::IndexEntry& e) { return e.name; });
    add("file", [](const page::IndexEntry& e) { return page::File{e.file}; });
    return sheets;
}

page::Page written(const SheetSet& set, const std::vector<page::IndexEntry>& entries,
                   const std::vector<FailedSheet>& failed) {
    page::Page answer;
    answer.title = "Sheets";
    answer.kind = "sheets";
    answer.blocks = {
        page::Facts{
            "",
            "",
            {{"Sheets", page::count(entries.size()), "count"},
             {"Folder", page::File{set.folder}, "folder"},
             {"Index", page::File{(std::filesystem::path(set.folder) / "index.html").string()},
              "index"}}},
        sheets_table(entries), failed_table(failed)};
    return answer;
}

/// The index; a sheet that was not made stands there with its reason and no link.
std::string index_of(std::vector<page::IndexEntry> entries,
                     const std::vector<FailedSheet>& failed) {
    for (const FailedSheet& f : failed)
        entries.push_back({"", f.argument, "Not made", f.error.what()});
    return page::print_index("Sheets of scales", entries);
}

} // namespace

WrittenSheets write_sheets(const SheetSet& set) {
    if (set.folder.empty())
        throw error(message::set_without_folder, "", {"--out"});
    const auto format = page::format_of("x." + set.kind);
    if (!format)
        throw error(message::unknown_output_kind, set.kind, {"--as"}, text(page_kinds()));
    if (is_drawn(*format))
        page::begin_reading_fonts();
    WrittenSheets out;
    const std::vector<Job> jobs = jobs_of(set, out.failed);
    if (jobs.empty() && !out.failed.empty())
        throw named(out.failed.front().argument, out.failed.front().error);
    make_folder(set.folder);
    const std::filesystem::path folder = set.folder;
    const auto errors = in_parallel(jobs.size(), 0, [&](std::size_t i) {
        const page::Page sheet = set.make(jobs[i].source);
        write_whole(folder / jobs[i].entry.file, page::print(sheet, *format, set.print));
    });
    std::vector<page::IndexEntry> entries;
    for (std::size_t i = 0; i < jobs.size(); ++i)
        if (const auto found = errors.find(i); found != errors.end())
            out.failed.push_back({jobs[i].source.name, found->second});
        else
            entries.push_back(jobs[i].entry);
    write_whole(folder / "index.html", index_of(entries, out.failed));
    out.answer = written(set, entries, out.failed);
    return out;
}

} // namespace sectio::cli
