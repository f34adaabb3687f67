#include <sectio/base/argument.hpp>
#include <sectio/base/file_ending.hpp>
#include <sectio/print/format.hpp>

#include <algorithm>
#include <array>

namespace sectio::page {

namespace {

struct Known {
    std::string_view ending;
    Format format;
    std::string (*print)(const Page&, const PrintOptions&);
};

constexpr std::array formats{
    Known{".pdf", Format::pdf, print_pdf},    Known{".svg", Format::svg, print_svg},
    Known{".html", Format::html, print_html}, Known{".txt", Format::text, print_text},
    Known{".csv", Format::csv, print_csv},    Known{".json", Format::json, print_json}};

} // namespace

std::vector<std::string_view> known_endings() {
    std::vector<std::string_view> endings;
    for (const Known& known : formats)
        endings.push_back(known.ending);
    return endings;
}

std::optional<Format> format_of(const std::filesystem::path& file) {
    const std::string ending = file_ending(file);
    const auto known = std::find_if(formats.begin(), formats.end(),
                                    [&](const Known& k) { return k.ending == ending; });
    return known == formats.end() ? std::nullopt : std::optional(known->format);
}

bool is_drawn(Format format) {
    return format == Format::pdf || format == Format::svg || format == Format::html;
}

std::string print(const Page& page, Format format, const PrintOptions& options) {
    const auto known = std::find_if(formats.begin(), formats.end(),
                                    [&](const Known& k) { return k.format == format; });
    check_argument(known != formats.end(), "a format", "one that is known");
    return known->print(page, options);
}

} // namespace sectio::page
