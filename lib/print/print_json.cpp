#include <sectio/base/argument.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/print/check_page.hpp>
#include <sectio/print/print.hpp>

#include <nlohmann/json.hpp>

namespace sectio::page {

namespace {

using Json = nlohmann::ordered_json;

/// A number where JSON's readers keep it exact (RFC 8259, 6: |n| <= 2^53), else a string.
Json whole_number(const Integer& n) {
    constexpr long exact = 1L << 53;
    if (boost::multiprecision::abs(n) <= exact)
        return n.convert_to<long>();
    return n.str();
}

struct JsonValue {
    const Digits& digits;

    Json operator()(std::monostate) const { return {}; }
    Json operator()(const Number& v) const { return v.for_programs(digits); }
    Json operator()(const Words& v) const { return v.text; }
    Json operator()(const Note& v) const { return v.note.text(); }
    Json operator()(const WrittenNote& v) const { return v.written; }
    Json operator()(const Expression& v) const { return to_expression(v.interval); }
    Json operator()(const Count& v) const { return whole_number(v.number); }
    Json operator()(const YesNo& v) const { return v.yes; }
    Json operator()(const File& v) const { return v.path; }
    Json operator()(const List& v) const {
        Json array = Json::array();
        for (const Cell& cell : v.items)
            array.push_back(std::visit(*this, cell.value()));
        return array;
    }
    Json operator()(const Map& v) const {
        Json object = Json::object();
        for (const auto& [name, cell] : v.items)
            object[name] = std::visit(*this, cell.value());
        return object;
    }
    Json operator()(const Phrase& v) const { return for_programs(Cell(v), digits); }
};

/// The place that a path names below `json`, made where it is not there yet.
Json& at_path(Json& json, std::string_view path) {
    Json* at = &json;
    while (!path.empty()) {
        const std::size_t end = std::min(path.find_first_of(".["), path.size());
        if (end > 0)
            at = &(*at)[std::string(path.substr(0, end))];
        path.remove_prefix(end);
        if (path.starts_with('[')) {
            const std::size_t close = path.find(']');
            const std::string_view index = path.substr(1, std::min(close, path.size()) - 1);
            constexpr std::size_t most_digits = 6;
            check_argument(close != path.npos && !index.empty() && index.size() <= most_digits
                               && index.find_first_not_of("0123456789") == index.npos,
                           "a key", "a path such as against[1].error_cents");
            at = &(*at)[std::stoul(std::string(index))];
            path.remove_prefix(close + 1);
        }
        if (path.starts_with('.'))
            path.remove_prefix(1);
    }
    return *at;
}

class JsonPrinter {
  public:
    JsonPrinter(Digits digits, bool one_line) : digits_(digits), indent_(one_line ? -1 : 2) {}

    void operator()(const Facts& block) {
        Json& target = at_path(document_, block.key);
        if (!block.key.empty() && target.is_null())
            target = Json::object();
        for (const Fact& fact : block.facts)
            put(target, fact.key, fact.cell);
    }

    void operator()(const Table& block) {
        if (block.key.empty())
            return;
        Json rows = Json::array();
        Cell made;
        for (std::size_t row = 0; row < block.height(); ++row) {
            if (block.people_only(row))
                continue;
            Json object = Json::object();
            for (std::size_t i = 0; i < block.columns.size(); ++i)
                if (!block.columns[i].key.empty())
                    put(object, block.columns[i].key, block.at(row, i, made));
            if (std::string key = block.row_key(row); key.empty())
                rows.push_back(std::move(object));
            else
                elsewhere_.emplace_back(std::move(key), std::move(object));
        }
        at_path(document_, block.key) = std::move(rows);
        for (auto& [key, object] : elsewhere_)
            at_path(document_, key) = std::move(object);
        elsewhere_.clear();
    }

    void operator()(const Paragraphs& block) {
        if (block.key.empty())
            return;
        Json texts = Json::array();
        for (const Paragraph& p : block.paragraphs)
            texts.push_back(p.text);
        at_path(document_, block.key) = std::move(texts);
    }

    /// What is drawn shows figures that facts and tables have.
    void operator()(const Ruler&) {}
    void operator()(const Drawing&) {}
    void operator()(const NewPage&) {}

    std::string text() const {
        return document_.dump(indent_, ' ', false, Json::error_handler_t::replace) + "\n";
    }

  private:
    void put(Json& target, const std::string& key, const Cell& cell) {
        if (key.empty())
            return;
        at_path(target, key) = std::visit(JsonValue{digits_}, cell.value());
        if (cell.measured())
            at_path(target, key + "_exact") = std::get<Number>(cell.value()).unborne(digits_);
    }

    Digits digits_;
    int indent_;
    Json document_ = Json::object();
    std::vector<std::pair<std::string, Json>> elsewhere_;
};

} // namespace

std::string print_json(const Page& page, const PrintOptions& options) {
    check(page, options);
    JsonPrinter printer(options.for_page(page), options.one_line);
    try {
        for (const Block& block : page.blocks)
            std::visit(printer, block);
    } catch (const Json::type_error&) {
        refuse_argument("the keys of a page", "paths that lead to places of their own");
    }
    return printer.text();
}

} // namespace sectio::page
