#include "against.hpp"

#include <sectio/base/file_access.hpp>

namespace sectio::cli {

namespace {

bool begins_with_digit(const std::string& item) {
    return !item.empty() && item[0] >= '0' && item[0] <= '9';
}

bool is_division(const std::string& item) {
    return item.empty() || (begins_with_digit(item) && !is_file(item));
}

Scale system_argument(const std::string& item, const Place& place) {
    try {
        return to_scale(scale_argument(item));
    } catch (const Error& e) {
        // A fault inside a file keeps the line where it stands.
        throw e.place().line > 0 ? e : e.at(place);
    }
}

} // namespace

Against parse_against(const std::string& text) {
    Against against;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find(',', begin), text.size());
        const std::string item = text.substr(begin, end - begin);
        const Place place{"--against", 0, begin + 1};
        if (is_division(item))
            against.divisions.push_back(parse_division(item, place));
        else
            against.systems.push_back(system_argument(item, place));
        begin = end + 1;
    }
    return against;
}

} // namespace sectio::cli
