#include <sectio/scale/messages.hpp>
#include <sectio/scale/traditions.hpp>

#include <algorithm>

namespace sectio {

namespace {

std::string listed(const std::vector<std::string>& words) {
    std::string list;
    for (const std::string& word : words)
        list += (list.empty() ? "" : ", ") + word;
    return list;
}

} // namespace

void Traditions::declare(const TomlValue& table) {
    const TomlReader reader(table);
    reader.allow_only("name, families");
    const std::string& name = reader.required_text("name");
    if (!families_.emplace(name, reader.strings("families")).second)
        throw error(message::tradition_twice, name, reader.place_of("name"));
}

std::string Traditions::tradition(const TomlReader& entry) const {
    const auto name = entry.optional_text("tradition");
    if (!name)
        return {};
    if (families_.contains(*name))
        return *name;
    std::vector<std::string> names;
    for (const auto& [known, families] : families_)
        names.push_back(known);
    throw error(message::unknown_tradition, *name, entry.place_of("tradition"), listed(names));
}

std::string Traditions::family(const TomlReader& entry) const {
    const auto name = entry.optional_text("family");
    if (!name)
        return {};
    const auto found = families_.find(entry.required_text("tradition"));
    const auto families = found == families_.end() ? std::vector<std::string>() : found->second;
    if (std::find(families.begin(), families.end(), *name) == families.end())
        throw error(message::unknown_family, *name, entry.place_of("family"), listed(families));
    return *name;
}

} // namespace sectio
