#pragma once
/// @file
/// Lists in one argument: "D4,A3".

#include <sectio/base/error.hpp>

#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// What stands between two commas, without the blanks around it, and where.
struct ListItem {
    std::string text; ///< empty where nothing stands there, which its reader refuses
    Place place;
};

/// All of them, at least one: a comma at the end has nothing after it. Columns count from 1.
std::vector<ListItem> comma_list(std::string_view text, const std::string& source);

} // namespace sectio
