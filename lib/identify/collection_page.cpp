#include <sectio/base/argument.hpp>
#include <sectio/identify/collection_page.hpp>
#include <sectio/identify/identify_page.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace sectio {

namespace {

using page::Column;
using page::ColumnKind;

page::Cell name_cell(const NamedFile& file, std::size_t which, bool id) {
    if (which >= file.names.size())
        return {};
    const Entry& entry = file.names[which].scales.front()->entry;
    return id ? entry.id : entry.name;
}

page::Cell all_names(const NamedFile& file) {
    page::List list;
    for (const NamedFile::Name& name : file.names) {
        page::List also;
        for (std::size_t i = 1; i < name.scales.size(); ++i)
            also.items.push_back(name.scales[i]->entry.id);
        list.items.push_back(page::Map{{{"id", name.scales.front()->entry.id},
                                        {"name", name.scales.front()->entry.name},
                                        {"start_degree", page::count(name.start_degree)},
                                        {"probability", page::computed(name.probability)},
                                        {"also", also}}});
    }
    return list;
}

/// "none" is a verdict too; a file that failed has its reason in a table of its own.
page::Table file_table(const std::vector<NamedFile>& files, bool labelled) {
    page::Table table{"files", "", {}, {}};
    table.add(files, Column{"File", ColumnKind::words}.keyed("file"),
              [](const NamedFile& f) { return page::File{f.file}; });
    table.add(files, Column{"Verdict", ColumnKind::words}.keyed("verdict"),
              [](const NamedFile& f) { return std::string(text(f.verdict)); });
    table.add(files, Column{"First", ColumnKind::words}.keyed("name"),
              [](const NamedFile& f) { return name_cell(f, 0, false); });
    table.add(files, Column{}.keyed("id").hidden(),
              [](const NamedFile& f) { return name_cell(f, 0, true); });
    table.add(files, Column{"Probability"}, [](const NamedFile& f) {
        return f.names.empty() ? page::Cell() : percent(f.names[0].probability);
    });
    table.add(files, Column{}.keyed("probability").hidden(), [](const NamedFile& f) {
        return f.names.empty() ? page::Cell() : page::Cell(page::computed(f.names[0].probability));
    });
    table.add(files, Column{"Second", ColumnKind::words}.keyed("second"),
              [](const NamedFile& f) { return name_cell(f, 1, false); });
    table.add(files, Column{}.keyed("none_probability").hidden(),
              [](const NamedFile& f) { return page::computed(f.none_probability); });
    table.add(files, Column{}.keyed("candidates").hidden(), all_names);
    if (labelled) {
        table.add(files, Column{"Label", ColumnKind::words}.keyed("label"),
                  [](const NamedFile& f) { return f.label ? page::Cell(*f.label) : page::Cell(); });
        table.add(files, Column{"Place of the label"}.keyed("label_place"),
                  [](const NamedFile& f) { return f.rank ? page::count(f.rank) : page::Cell(); });
    }
    return table;
}

page::Table failed_table(const std::vector<NamedFile>& failed) {
    page::Table table{"failed", failed.empty() ? "" : "Not read", {}, {}};
    table.add(failed, Column{"File", ColumnKind::words}.keyed("file"),
              [](const NamedFile& f) { return page::File{f.file}; });
    table.add(failed, Column{"Error", ColumnKind::words}.keyed("error"),
              [](const NamedFile& f) { return *f.failure; });
    return table;
}

/// What became of the files with one label.
struct LabelRow {
    std::string label;
    std::size_t files = 0, first = 0, three = 0;
    std::map<std::string, std::size_t> taken_for; ///< by id
};

std::vector<LabelRow> label_rows(const std::vector<NamedFile>& labelled) {
    std::map<std::string, LabelRow> rows;
    for (const NamedFile& file : labelled) {
        LabelRow& row = rows[*file.label];
        row.label = *file.label;
        ++row.files;
        row.first += file.rank == 1;
        row.three += file.rank >= 1 && file.rank <= 3;
        if (file.rank != 1)
            ++row.taken_for[file.names.empty() ? "none" : file.names[0].scales[0]->entry.id];
    }
    std::vector<LabelRow> list;
    for (auto& [label, row] : rows)
        list.push_back(std::move(row));
    return list;
}

page::Cell taken_for(const LabelRow& row) {
    page::List list;
    for (const auto& [id, count] : row.taken_for)
        list.items.push_back(fmt::format("{} {}", count, id));
    return list;
}

page::Table confusion_table(const std::vector<LabelRow>& rows) {
    page::Table table{"confusion", "What each label was named", {}, {}};
    table.add(rows, Column{"Label", ColumnKind::words}.keyed("label"),
              [](const LabelRow& r) { return r.label; });
    const auto add = [&](const char* head, const char* key, std::size_t LabelRow::*count) {
        table.add(rows, Column{head}.keyed(key),
                  [count](const LabelRow& r) { return page::count(r.*count); });
    };
    add("Files", "files", &LabelRow::files);
    add("First", "first", &LabelRow::first);
    add("Among three", "among_three", &LabelRow::three);
    table.add(rows, Column{"Taken for", ColumnKind::words}.keyed("taken_for"), taken_for);
    return table;
}

/// Files whose first name has a probability in one tenth.
struct Tenth {
    std::size_t files = 0, right = 0;
    double said = 0;     ///< sum of the probabilities
    double variance = 0; ///< of the number of right names, if what is said is true
};

std::vector<Tenth> tenths_of(const std::vector<NamedFile>& labelled) {
    std::array<Tenth, 10> tenths{};
    for (const NamedFile& file : labelled) {
        if (file.names.empty())
            continue;
        const double p = file.names[0].probability;
        Tenth& tenth = tenths[std::min<std::size_t>(9, static_cast<std::size_t>(10 * p))];
        ++tenth.files;
        tenth.right += file.rank == 1;
        tenth.said += p;
        tenth.variance += p * (1 - p);
    }
    std::vector<Tenth> filled;
    std::copy_if(tenths.begin(), tenths.end(), std::back_inserter(filled),
                 [](const Tenth& t) { return t.files > 0; });
    return filled;
}

page::Table reliability_table(const std::vector<Tenth>& tenths) {
    page::Table table{
        "reliability", "What is said of the first name, and how often it is right", {}, {}};
    const auto share = [](double sum, const Tenth& t) {
        return page::computed(sum / static_cast<double>(t.files)).shown_with(2);
    };
    table.add(tenths, Column{"Said"}.keyed("said"),
              [&](const Tenth& t) { return share(t.said, t); });
    table.add(tenths, Column{"True"}.keyed("true"),
              [&](const Tenth& t) { return share(static_cast<double>(t.right), t); });
    table.add(tenths, Column{"Files"}.keyed("files"),
              [](const Tenth& t) { return page::count(t.files); });
    table.add(tenths, Column{"Standard error"}.keyed("standard_error"),
              [&](const Tenth& t) { return share(std::sqrt(t.variance), t); });
    return table;
}

page::Facts agreement(const std::vector<LabelRow>& rows, const std::vector<Tenth>& tenths) {
    double files = 0, first = 0, three = 0, means = 0, said = 0, off = 0;
    for (const LabelRow& r : rows) {
        files += static_cast<double>(r.files);
        first += static_cast<double>(r.first);
        three += static_cast<double>(r.three);
        means += static_cast<double>(r.first) / static_cast<double>(r.files);
    }
    for (const Tenth& t : tenths) {
        said += t.said;
        off += std::abs(t.said - static_cast<double>(t.right));
    }
    page::Facts facts{"labels", "With a label", {}};
    const auto add = [&](const char* name, double share, const char* key) {
        facts.facts.push_back({name, percent(share), ""});
        facts.facts.push_back({"", page::computed(share), key});
    };
    facts.facts.push_back({"Files", page::count(static_cast<std::size_t>(files)), "files"});
    add("First", first / files, "first");
    add("Among three", three / files, "among_three");
    add("First, the labels' mean", means / static_cast<double>(rows.size()), "labels_mean");
    add("Said of the first", said / files, "said");
    add("Mean distance of said from true, by tenths", off / files, "calibration_error");
    return facts;
}

} // namespace

page::Page collection_page(const std::vector<NamedFile>& files,
                           const std::vector<std::string>& remarks) {
    for (const NamedFile& file : files)
        for (const NamedFile::Name& name : file.names)
            check_argument(!name.scales.empty()
                               && std::count(name.scales.begin(), name.scales.end(), nullptr) == 0,
                           "a name", "that of a scale at least");
    std::vector<NamedFile> read, failed, labelled;
    for (const NamedFile& file : files) {
        (file.failure ? failed : read).push_back(file);
        if (!file.failure && file.label)
            labelled.push_back(file);
    }
    page::Page page;
    page.title = "Files named";
    page.kind = "collection";
    page.blocks = {page::Facts{"",
                               "",
                               {{"Files", page::count(files.size()), "count"},
                                {"Read", page::count(read.size()), "read"}}},
                   file_table(read, !labelled.empty()), failed_table(failed)};
    if (!remarks.empty()) {
        page::Paragraphs words{"remarks", "", {}};
        for (const std::string& remark : remarks)
            words.paragraphs.push_back({page::Role::remark, remark});
        page.blocks.push_back(std::move(words));
    }
    if (labelled.empty())
        return page;
    const std::vector<LabelRow> rows = label_rows(labelled);
    const std::vector<Tenth> tenths = tenths_of(labelled);
    page.blocks.push_back(agreement(rows, tenths));
    page.blocks.push_back(confusion_table(rows));
    page.blocks.push_back(reliability_table(tenths));
    return page;
}

} // namespace sectio
