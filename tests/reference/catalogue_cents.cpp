// The catalogue against catalogue_cents.py, which computes it with mpmath (mpmath.org) by an
// expression reader of its own.

#include <sectio/scale/catalogue.hpp>

#include <support/intervals.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <map>

using sectio::Interval;

namespace {

struct Row {
    std::string expression, cents;
};

using Rows = std::map<std::string, std::map<std::size_t, Row>>;

/// Rows by id; the key 0 is an interval or comma itself, n its nth degree above 1/1.
Rows rows_of(const std::string& table) {
    Rows rows;
    for (const std::string& line : support::lines_of(table)) {
        const auto first = line.find('\t'), second = line.find('\t', first + 1);
        const std::string key = line.substr(0, first);
        const auto hash = key.find('#');
        const std::size_t degree = hash == std::string::npos ? 0 : std::stoul(key.substr(hash + 1));
        rows[key.substr(0, hash)][degree] = {line.substr(first + 1, second - first - 1),
                                             line.substr(second + 1)};
    }
    return rows;
}

/// The interval that `degree` of the entry's row stands for, if there is one.
std::optional<Interval> interval_of(const sectio::Entry& entry, std::size_t degree) {
    if (degree == 0)
        return entry.interval() ? std::optional(*entry.interval()) : std::nullopt;
    if (!entry.scale())
        return std::nullopt;
    if (degree < entry.scale()->degrees.size())
        return entry.scale()->degrees[degree].interval;
    return degree == entry.scale()->degrees.size() ? entry.scale()->period : std::nullopt;
}

} // namespace

TEST_CASE("Every size of the catalogue, against mpmath") {
    const auto table = support::run_reference_script("catalogue_cents.py");
    if (!table)
        SECTIO_SKIP("Python with mpmath is not installed");
    const sectio::Catalogue catalogue(support::data_dir() / "catalogue");
    const Rows rows = rows_of(*table);
    for (const sectio::Entry& entry : catalogue.all()) {
        INFO(entry.id);
        CHECK(rows.contains(entry.id));
    }
    for (const auto& [id, degrees] : rows) {
        INFO(id);
        const auto entry = catalogue.find(id);
        REQUIRE(entry);
        for (const auto& [degree, row] : degrees) {
            const auto kept = interval_of(*entry, degree);
            INFO("degree " << degree << ", " << row.expression);
            REQUIRE(kept);
            CHECK(kept->cents(10) == row.cents);
            CHECK(*kept == support::interval(row.expression));
        }
    }
}
