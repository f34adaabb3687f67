#include <sectio/scale/messages.hpp>
#include <sectio/scale/traditions.hpp>
#include <sectio/scale/tuned_scale.hpp>

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
    reader.allow_only("name, families, tonics, tonics_source, signs");
    const std::string& name = reader.required_text("name");
    Declared declared{reader.strings("families"), {}, {}};
    if (const auto signs = reader.optional_text("signs"))
        declared.signs = parse_sign_style(*signs, reader.place_of("signs"));
    for (const TomlReader& tonic : reader.tables("tonics", "{ name = \"Rast\", pitch = \"G4\" }")) {
        tonic.allow_only("name, pitch");
        declared.tonics.emplace(tonic.required_text("name"),
                                parse_tonic(tonic.required_text("pitch"), tonic.place_of("pitch")));
    }
    if (!declared.tonics.empty())
        reader.required_text("tonics_source");
    if (!all_.emplace(name, std::move(declared)).second)
        throw error(message::tradition_twice, name, reader.place_of("name"));
}

std::string Traditions::tradition(const TomlReader& entry) const {
    const auto name = entry.optional_text("tradition");
    if (!name)
        return {};
    if (all_.contains(*name))
        return *name;
    std::vector<std::string> names;
    for (const auto& [known, declared] : all_)
        names.push_back(known);
    throw error(message::unknown_tradition, *name, entry.place_of("tradition"), listed(names));
}

std::string Traditions::family(const TomlReader& entry) const {
    const auto name = entry.optional_text("family");
    if (!name)
        return {};
    const auto found = all_.find(entry.required_text("tradition"));
    const auto families = found == all_.end() ? std::vector<std::string>() : found->second.families;
    if (std::find(families.begin(), families.end(), *name) == families.end())
        throw error(message::unknown_family, *name, entry.place_of("family"), listed(families));
    return *name;
}

std::optional<StatedPitch> Traditions::tonic(const std::string& tradition,
                                             const std::string& name) const {
    const auto declared = all_.find(tradition);
    if (declared == all_.end())
        return {};
    const auto found = declared->second.tonics.find(name);
    return found == declared->second.tonics.end() ? std::nullopt : std::optional(found->second);
}

std::optional<SignStyle> Traditions::signs(const std::string& tradition) const {
    const auto declared = all_.find(tradition);
    return declared == all_.end() ? std::nullopt : declared->second.signs;
}

} // namespace sectio
