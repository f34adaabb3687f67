#include <sectio/base/comma_list.hpp>
#include <sectio/sheet/messages.hpp>
#include <sectio/sheet/parts.hpp>

#include <algorithm>
#include <array>

namespace sectio {

Blocks instrument_part(const Comparison& c, const SheetOptions& options) {
    if (!options.chart)
        throw error(message::chart_without_instrument, c.scale().name, {"--pages"});
    return {*options.chart};
}

namespace {

constexpr std::array parts{SheetPart{"staff", "Staff notation", staff_part},
                           SheetPart{"matrix", "Interval matrix", matrix_part},
                           SheetPart{"tuner", "Tuner card", tuner_part},
                           SheetPart{"errors", "Best equal divisions", errors_part},
                           SheetPart{"division", "Steps of a division", division_part},
                           SheetPart{"beside", "Side by side", beside_part},
                           SheetPart{"instrument", "Chart of the instrument", instrument_part}};
constexpr std::array<std::string_view, 2> first_page{"ruler", "table"};

} // namespace

const SheetPart* find_part(std::string_view name) {
    const auto part = std::find_if(parts.begin(), parts.end(),
                                   [&](const SheetPart& p) { return p.name == name; });
    return part == parts.end() ? nullptr : part;
}

bool is_sheet_page(std::string_view name) {
    return find_part(name)
           || std::find(first_page.begin(), first_page.end(), name) != first_page.end();
}

std::string sheet_page_names() {
    std::string names;
    for (const std::string_view name : first_page)
        names += std::string(name) + ", ";
    for (const SheetPart& part : parts)
        names += std::string(part.name) + ", ";
    return names + "all";
}

std::vector<std::string> parse_sheet_pages(std::string_view text, const Place& place) {
    std::vector<std::string> names;
    for (const auto& [name, at] : comma_list(text, place.source)) {
        if (name == "all") {
            names.assign(first_page.begin(), first_page.end());
            for (const SheetPart& part : parts)
                if (part.make != instrument_part && part.make != beside_part) // which want more
                    names.emplace_back(part.name);
        } else if (is_sheet_page(name)) {
            names.emplace_back(name);
        } else {
            throw error(message::unknown_page, name, at, sheet_page_names());
        }
    }
    return names;
}

} // namespace sectio
