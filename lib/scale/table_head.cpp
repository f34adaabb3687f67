#include <sectio/base/folded.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/table_head.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace sectio {

namespace {

std::string plain(std::string_view name) {
    std::string result = folded(name);
    std::erase_if(result, [](char c) {
        return std::string_view(" _().[]").find(c) != std::string_view::npos;
    });
    return result;
}

/// Minus signs as programs and as printers write them.
std::string_view without_sign(std::string_view text) {
    for (const std::string_view sign : {"+", "-", "\u2212"})
        if (text.starts_with(sign))
            return text.substr(sign.size());
    return text;
}

} // namespace

TableHead::TableHead(const Row& row) : row_(row), understood_(row.size()) {
    for (const CsvCell& cell : row)
        names_.push_back(plain(cell.text));
}

std::optional<std::size_t> TableHead::find(std::initializer_list<std::string_view> names) {
    for (const std::string_view name : names)
        if (const auto it = std::find(names_.begin(), names_.end(), name); it != names_.end()) {
            const auto at = static_cast<std::size_t>(it - names_.begin());
            understood_[at] = true;
            return at;
        }
    return std::nullopt;
}

std::optional<TableHead::WithUnit>
TableHead::find_with_unit(std::initializer_list<std::string_view> names,
                          std::initializer_list<std::string_view> units) {
    for (const std::string_view name : names) {
        if (const auto at = find({name}))
            return WithUnit{*at, ""};
        for (const std::string_view unit : units)
            if (const auto at = find({std::string(name).append(unit)}))
                return WithUnit{*at, std::string(unit)};
    }
    return std::nullopt;
}

std::vector<std::string> TableHead::remarks() const {
    std::vector<std::string> unread;
    for (std::size_t i = 0; i < names_.size(); ++i)
        if (!understood_[i] && !names_[i].empty()
            && std::find(companion_columns.begin(), companion_columns.end(), names_[i])
                   == companion_columns.end())
            unread.push_back(row_[i].text);
    if (unread.empty())
        return {};
    return {fmt::format("Not read of the table: {}.", fmt::join(unread, ", "))};
}

void TableHead::check(const Row& row) const {
    check_width(row, names_.size());
}

void check_width(const Row& row, std::size_t most) {
    for (std::size_t i = most; i < row.size(); ++i)
        if (!row[i].text.empty())
            throw error(message::table_row_long, row[i].text, row[i].place, most);
}

bool is_table_number(std::string_view text, char separator) {
    constexpr std::size_t most_characters = 40;
    text = without_sign(text);
    const std::string_view signs = separator == ',' ? "." : ".,";
    const auto points = std::count_if(
        text.begin(), text.end(), [&](char c) { return signs.find(c) != std::string_view::npos; });
    const auto digit = [](char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; };
    return !text.empty() && text.size() <= most_characters && digit(text.front())
           && digit(text.back()) && points < 2
           && std::all_of(text.begin(), text.end(), [&](char c) {
                  return digit(c) || signs.find(c) != std::string_view::npos;
              });
}

Rational table_number(std::string_view text) {
    const std::string_view bare = without_sign(text);
    std::string number(text.starts_with('+') || bare.size() == text.size() ? "" : "-");
    for (const char c : bare)
        number += c == ',' ? '.' : c;
    return parse_decimal(number);
}

std::string with_point(const std::string& number, char separator) {
    constexpr std::string_view signs = "0123456789,.";
    std::string text = number;
    for (std::size_t begin = 0; separator != ',' && begin < text.size();) {
        begin = std::min(text.find_first_of(signs, begin), text.size());
        const std::size_t end = std::min(text.find_first_not_of(signs, begin), text.size());
        const std::string piece = text.substr(begin, end - begin);
        if (is_table_number(piece, separator))
            std::replace(text.begin() + static_cast<std::ptrdiff_t>(begin),
                         text.begin() + static_cast<std::ptrdiff_t>(end), ',', '.');
        begin = end;
    }
    return text;
}

} // namespace sectio
