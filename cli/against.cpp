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

} // namespace

Scale scale_against(const ListItem& item) {
    try {
        return to_scale(scale_argument(item.text));
    } catch (const Error& e) {
        // A fault inside a file keeps the line where it stands.
        throw e.place().line > 0 ? e : e.at(item.place);
    }
}

Against parse_against(const std::string& text) {
    Against against;
    for (const ListItem& item : comma_list(text, "--against"))
        if (is_division(item.text))
            against.divisions.push_back(parse_division(item.text, item.place));
        else
            against.systems.push_back(scale_against(item));
    return against;
}

} // namespace sectio::cli
