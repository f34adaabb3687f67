#include <sectio/sheet/key_sheet.hpp>

namespace sectio {

page::Page key_page(const KeySheet& sheet) {
    using page::Column;
    using page::ColumnKind;
    page::Table table;
    table.add(sheet.rows, Column{"Note", ColumnKind::note, "", 0, true},
              [](const KeyRow& row) { return row.written; });
    table.add(sheet.rows, Column{"Cents", ColumnKind::figure, "", 0, true},
              [](const KeyRow& row) { return row.deviation; });
    table.add(sheet.rows, Column{"from", ColumnKind::note},
              [](const KeyRow& row) { return row.from; });
    table.add(sheet.rows, Column{"Times"}, [](const KeyRow& row) { return row.count; });
    page::Paragraphs facts, notes;
    for (const std::string& fact : sheet.facts)
        facts.paragraphs.push_back({page::Role::plain, fact});
    for (const std::string& note : sheet.notes)
        notes.paragraphs.push_back({page::Role::note, note});
    page::Page page;
    page.title = sheet.title;
    page.kind = "key";
    page.date = sheet.date;
    page.largest_type = 16;
    page.blocks = {facts, table, notes};
    return page;
}

} // namespace sectio
