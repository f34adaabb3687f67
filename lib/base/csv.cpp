#include <sectio/base/csv.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/file.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/base/text_cursor.hpp>

#include <algorithm>

namespace sectio {

namespace {

/// The first line that says something, without what stands in quotes.
std::string first_line(std::string_view text) {
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view line = text.substr(0, end);
        if (!line.starts_with('#') && line.find_first_not_of(" \r") != line.npos) {
            std::string bare;
            bool quoted = false;
            for (const char c : line) {
                quoted = quoted != (c == '"');
                if (!quoted)
                    bare += c;
            }
            return bare;
        }
        text.remove_prefix(std::min(end + 1, text.size()));
    }
    return {};
}

void check_utf8(const CsvCell& cell) {
    if (std::any_of(cell.text.begin(), cell.text.end(), [](char c) { return (c & 0x80) != 0; }))
        static_cast<void>(TextCursor(cell.text, cell.place)); // which refuses what is none
}

/// Walks through the text once; quoted cells may hold separators, ends of lines and doubled quotes.
class RowReader {
  public:
    RowReader(std::string_view text, std::string file)
        : text_(text), file_(std::move(file)), separator_(cell_separator(text)) {}

    std::vector<Row> rows() {
        while (at_ < text_.size())
            read_row();
        return std::move(rows_);
    }

  private:
    void read_row() {
        if (text_[at_] == '#') {
            at_ = std::min(text_.find('\n', at_), text_.size() - 1) + 1;
            ++line_;
            return;
        }
        Row row;
        column_ = 1;
        const std::size_t line = line_;
        do
            row.push_back(read_cell());
        while (at_ < text_.size() && text_[at_++] == separator_);
        line_ = std::max(line_, line) + 1;
        if (std::any_of(row.begin(), row.end(), [](const CsvCell& c) { return !c.text.empty(); }))
            rows_.push_back(std::move(row));
    }

    CsvCell read_cell() {
        CsvCell cell{"", {file_, line_, column_}};
        bool quoted = false;
        for (; at_ < text_.size(); ++at_) {
            const char c = text_[at_];
            if (quoted && text_.substr(at_, 2) == "\"\"") {
                ++at_; // the two are one of the cell's own
            } else if (c == '"' && (quoted || trimmed(cell.text).empty())) {
                quoted = !quoted;
                ++column_;
                continue;
            } else if (!quoted && (c == separator_ || c == '\n')) {
                break;
            }
            cell.text += c;
            line_ += c == '\n' ? 1 : 0;
            column_ += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
        }
        if (quoted)
            throw error(message::quote_not_closed, "", cell.place);
        ++column_;
        cell.text = std::string(trimmed(cell.text));
        if (cell.text.starts_with('\'') && looks_like_formula(cell.text))
            cell.text.erase(0, 1);
        check_utf8(cell);
        return cell;
    }

    std::string_view text_;
    std::string file_;
    char separator_;
    std::size_t at_ = 0, line_ = 1, column_ = 1;
    std::vector<Row> rows_;
};

} // namespace

bool looks_like_formula(std::string_view text) {
    const std::size_t first = text.find_first_not_of("' \t\r\n");
    return first != text.npos && std::string_view("=+-@").find(text[first]) != text.npos;
}

char cell_separator(std::string_view text) {
    const std::string line = first_line(without_byte_order_mark(text));
    for (const char separator : {'\t', ';', ','})
        if (line.find(separator) != std::string::npos)
            return separator;
    return ',';
}

std::vector<Row> read_rows(std::string_view text, const std::string& file_name) {
    return RowReader(without_byte_order_mark(text), file_name).rows();
}

} // namespace sectio
