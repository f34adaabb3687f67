#pragma once
/// @file
/// The pitches of --drone, between commas.

#include <sectio/base/comma_list.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/sound/messages.hpp>

#include <string>
#include <vector>

namespace sectio::cli {

inline std::vector<Pitch> drones_of(const std::string& text, const Pitch& a4) {
    std::vector<Pitch> drones;
    if (text.empty())
        return drones;
    for (const ListItem& item : comma_list(text, "--drone")) {
        if (drones.size() == limits::drones)
            throw error(message::too_many_drones, "", {"--drone"}, limits::drones);
        drones.push_back(parse_tonic(item.text, item.place).at(a4));
    }
    return drones;
}

} // namespace sectio::cli
