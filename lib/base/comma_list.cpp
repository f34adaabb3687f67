#include <sectio/base/comma_list.hpp>
#include <sectio/base/text_cursor.hpp>

#include <algorithm>

namespace sectio {

std::vector<ListItem> comma_list(std::string_view text, const std::string& source) {
    std::vector<ListItem> items;
    for (std::size_t begin = 0; begin <= text.size();) {
        const std::size_t end = std::min(text.find(',', begin), text.size());
        const std::string_view item = text.substr(begin, end - begin);
        const std::size_t blanks = std::min(item.find_first_not_of(" \t"), item.size());
        items.push_back({std::string(trimmed(item)), {source, 0, begin + blanks + 1}});
        begin = end + 1;
    }
    return items;
}

} // namespace sectio
