#pragma once
/// @file
/// A page: an answer as blocks of cells, before any format prints it.
///
/// A maker turns an answer into a Page and knows no format; a printer (print.hpp) knows formats and
/// no answer. Every column and fact has the heading that people read and the key under which
/// programs find it, so that text, JSON, CSV, HTML, PDF and SVG say the same.
///
/// A key is a path into the JSON document: "cents", "against[1].error_cents". The path of a block
/// comes before those of its columns and facts; a page may reach one object from several blocks.

#include <sectio/page/cell.hpp>
#include <sectio/page/sounds.hpp>

#include <functional>
#include <optional>
#include <string>
#include <variant>
#include <vector>

namespace sectio::page {

/// What the cells of a column are, for alignment.
enum class ColumnKind {
    key,    ///< number or name of the row: repeated in every block of a wide table
    words,  ///< may be broken into lines
    figure, ///< stands with its decimal point under the others
    note,   ///< note name in 12 equal steps
};

/// A label and what is said under it. Without a label it is for programs alone, without a key for
/// people alone.
struct Fact {
    std::string label{};
    Cell cell{};
    std::string key{};
};

/// Facts that belong together; of a block with a key but no facts programs see an empty object.
struct Facts {
    std::string key{};     ///< of an object that holds them; else they stand in the document itself
    std::string heading{}; ///< for people
    std::vector<Fact> facts{};
};

/// A column without `head` and `group` and with `shown` false is for programs alone.
struct Column {
    std::string head{};
    ColumnKind kind = ColumnKind::figure;
    std::string group{}; ///< a heading over this and its neighbours, or empty
    /// 0 for what every first block holds; columns of the same part above 0 stay together.
    std::size_t part = 0;
    bool strong = false; ///< what a reader looks for first
    std::string key{};   ///< in JSON; where empty, JSON has no such member
    std::string field{}; ///< in CSV; where empty, CSV has no such field
    bool shown = true;   ///< to people; a column without any cell is left out

    /// The same column for programs, under `json_key` and the field that is named like it.
    Column keyed(std::string json_key) const;
    Column keyed(std::string json_key, std::string csv_field) const;
    /// The same column hidden from people.
    Column hidden() const;
};

struct Row {
    std::vector<Cell> cells{}; ///< one a column
    std::string key{};         ///< where programs find it, if not in the table's own array
    bool people_only = false;
};

/// Rows under columns. Programs see an array of objects; CSV holds the first table of a page that
/// has fields. A long table need not be kept: its rows are then made while it is printed.
struct Table {
    using CellMaker = std::function<Cell(std::size_t row)>;

    std::string key{};
    std::string heading{};
    std::vector<Column> columns{};
    std::vector<Row> rows{};
    bool drawn = false;             ///< a drawing beside it says the same: paper has that alone
    std::size_t later_rows = 0;     ///< rows after those, by `later`
    std::vector<CellMaker> later{}; ///< one a column, or none

    std::size_t height() const { return rows.size() + later_rows; }
    /// A cell of any row, empty where the row has none; one that is not kept is put into `made`.
    const Cell& at(std::size_t row, std::size_t column, Cell& made) const {
        if (row < rows.size() && column < rows[row].cells.size())
            return rows[row].cells[column];
        const bool is_later = row >= rows.size() && column < later.size();
        return made = is_later ? later[column](row - rows.size()) : Cell();
    }
    bool people_only(std::size_t row) const { return row < rows.size() && rows[row].people_only; }
    /// Row::key of any row.
    std::string row_key(std::size_t row) const { return row < rows.size() ? rows[row].key : ""; }

    /// Adds a column and its cell in every row, `cell(items[i])`. The first call makes the rows.
    template <typename Items, typename MakeCell>
    void add(const Items& items, Column column, MakeCell cell) {
        columns.push_back(std::move(column));
        if (rows.empty())
            rows.resize(items.size());
        std::size_t i = 0;
        for (const auto& item : items)
            rows[i++].cells.emplace_back(cell(item));
    }
    /// Adds a column to a table of `count` rows that are not kept. A format that does not show the
    /// column never asks for its cells; `cell` owns what it needs to make them.
    void add_later(std::size_t count, Column column, CellMaker cell) {
        columns.push_back(std::move(column));
        later_rows = count;
        later.push_back(std::move(cell));
    }
};

/// A stretch drawn to scale, with marks between the lines of other scales. Places run from 0, the
/// beginning, to 1.
struct Ruler {
    struct Mark {
        double place = 0;
        std::string number{};
        std::string name{};
    };
    /// Equal steps: mark k stands at k * step for k from 0 to count. Else mark k stands at
    /// places[k], which rise.
    struct Line {
        std::string heading{};
        double step = 0;
        long count = 0;
        std::vector<std::string> names{}; ///< of the marks; else they are numbered
        std::vector<double> places{};
    };
    std::string description{}; ///< for those who cannot see it
    std::vector<Mark> marks{};
    std::vector<Line> lines{};
};

enum class Role { caution, remark, note, source, plain };

struct Paragraph {
    Role role = Role::plain;
    std::string text{};
};

struct Paragraphs {
    std::string key{}; ///< of an array of their texts, for programs
    std::string heading{};
    std::vector<Paragraph> paragraphs{};
};

/// Lines and words at places in millimetres from the upper left corner, y downwards: charts, and
/// templates that are laid on the work.
struct Drawing {
    struct Stroke {
        double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
        double width = 0.2; ///< of the line
        double grey = 0;    ///< 0 black … 1 white
        double dash = 0;    ///< length of dashes and of the gaps between them; 0 for none
    };
    struct Dot {
        double x = 0, y = 0, radius = 0.6;
        bool filled = true;
    };
    enum class Anchor { left, middle, right };
    struct Label {
        double x = 0, y = 0; ///< of the baseline, at the anchor
        std::string text{};
        double points = 9; ///< size of type
        Anchor anchor = Anchor::left;
        bool bold = false;
        Cell value{}; ///< said instead of `text`, rounded as the page's other figures
        /// Of a box, in mm: what does not fit is broken into lines and made smaller, not cut.
        double most_width = 0, most_height = 0;
        bool music = false;    ///< a sign of Noto Music
        bool mirrored = false; ///< left for right
    };
    std::string heading{};
    std::string description{}; ///< for those who cannot see it
    double width = 0, height = 0;
    bool true_size =
        false; ///< never scaled; what is longer than the paper goes on on the next page
    std::vector<Stroke> strokes{};
    std::vector<Dot> dots{};
    std::vector<Label> labels{};
};

/// On paper what follows begins a new page under this title.
struct NewPage {
    std::string title{};
};

using Block = std::variant<Facts, Table, Ruler, Paragraphs, Drawing, NewPage>;

struct Page {
    std::string title{};
    std::string kind{};          ///< for programs: "sheet", "interval-matrix"
    std::string language = "en"; ///< BCP 47, of its words
    std::string date{};          ///< of the figures, ISO 8601; may be empty
    int digits = 1;              ///< after the point, where people read and ask for no other
    double largest_type = 14;    ///< of the first table on paper, in points
    std::vector<Block> blocks{};
    std::optional<Sounds> sounds{}; ///< to be played where the page can sound: in HTML
};

} // namespace sectio::page
