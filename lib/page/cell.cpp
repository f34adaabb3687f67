#include <sectio/interval/expression.hpp>
#include <sectio/page/cell.hpp>
#include <sectio/page/numbers.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

std::string written(const Expression& e) {
    return one_line(e.written.empty() ? to_expression(e.interval) : e.written);
}

/// The text of a cell, for people or for a field of a table that programs read.
struct CellText {
    const Digits& digits;
    bool people;

    std::string operator()(std::monostate) const { return {}; }
    std::string operator()(const Number& v) const {
        return people ? v.for_people(digits) : v.for_programs(digits);
    }
    std::string operator()(const Words& v) const { return one_line(v.text); }
    std::string operator()(const Note& v) const { return v.note.text(people); }
    std::string operator()(const WrittenNote& v) const {
        return people && !v.written.empty() ? parse_note_name(v.written).text(true) : v.written;
    }
    std::string operator()(const Expression& v) const {
        return people ? shortened(written(v)) : written(v);
    }
    std::string operator()(const Count& v) const {
        return people ? true_minus(v.number.str()) : v.number.str();
    }
    std::string operator()(const YesNo& v) const {
        return people ? (v.yes ? "yes" : "no") : (v.yes ? "true" : "false");
    }
    std::string operator()(const File& v) const { return one_line(v.path); }
    std::string operator()(const List& v) const {
        return joined(v.items, people ? v.between : "; ");
    }
    std::string operator()(const Map& v) const {
        std::string text;
        for (const auto& [name, cell] : v.items)
            text += (text.empty() ? ""
                     : people     ? ", "
                                  : "; ")
                    + one_line(name) + (people ? " " : "=") + std::visit(*this, cell.value());
        return text;
    }
    std::string operator()(const Phrase& v) const { return joined(v.parts, " "); }

  private:
    std::string joined(const std::vector<Cell>& cells, const std::string& between) const {
        std::string text;
        for (std::size_t i = 0; i < cells.size(); ++i)
            text += (i ? between : "") + std::visit(*this, cells[i].value());
        return text;
    }
};

} // namespace

Cell::Cell() = default;
Cell::Cell(const Cell&) = default;
Cell::Cell(Cell&&) noexcept = default;
Cell& Cell::operator=(const Cell&) = default;
Cell& Cell::operator=(Cell&&) noexcept = default;
Cell::~Cell() = default;
Cell::Cell(std::string words) : value_(Words{std::move(words)}) {}
Cell::Cell(const char* words) : value_(Words{words}) {}
Cell::Cell(Interval v) : value_(Expression{std::move(v), {}}) {}
Cell::Cell(Number v) : value_(std::move(v)) {}
Cell::Cell(Words v) : value_(std::move(v)) {}
Cell::Cell(Note v) : value_(std::move(v)) {}
Cell::Cell(WrittenNote v) : value_(std::move(v)) {}
Cell::Cell(Expression v) : value_(std::move(v)) {}
Cell::Cell(Count v) : value_(std::move(v)) {}
Cell::Cell(YesNo v) : value_(v) {}
Cell::Cell(File v) : value_(std::move(v)) {}
Cell::Cell(List v) : value_(std::move(v)) {}
Cell::Cell(Map v) : value_(std::move(v)) {}
Cell::Cell(Phrase v) : value_(std::move(v)) {}

bool Cell::empty() const {
    if (const auto* words = std::get_if<Words>(&value_))
        return words->text.empty();
    if (const auto* note = std::get_if<WrittenNote>(&value_))
        return note->written.empty();
    if (const auto* list = std::get_if<List>(&value_))
        return list->items.empty();
    if (const auto* map = std::get_if<Map>(&value_))
        return map->items.empty();
    if (const auto* phrase = std::get_if<Phrase>(&value_))
        return std::all_of(phrase->parts.begin(), phrase->parts.end(),
                           [](const Cell& part) { return part.empty(); });
    return std::holds_alternative<std::monostate>(value_);
}

bool Cell::measured() const {
    const auto* figure = std::get_if<Number>(&value_);
    return figure && figure->measured();
}

std::string for_people(const Cell& cell, const Digits& digits) {
    return std::visit(CellText{digits, true}, cell.value());
}

std::string for_programs(const Cell& cell, const Digits& digits) {
    return std::visit(CellText{digits, false}, cell.value());
}

} // namespace sectio::page
