#include <sectio/base/argument.hpp>
#include <sectio/scale/entry.hpp>
#include <sectio/scale/messages.hpp>

#include <algorithm>
#include <array>

namespace sectio {

namespace {

constexpr std::array<std::string_view, 4> kind_names{"interval", "comma", "scale", "system"};
constexpr std::array<std::string_view, 3> direction_names{"ascending", "descending",
                                                          "ascending-descending"};

/// What an entry of another kind has instead of a text.
const std::string& nothing() {
    static const std::string text;
    return text;
}

const std::string& text_or_nothing(const Degrees* degrees, std::string Degrees::*text) {
    return degrees ? degrees->*text : nothing();
}

} // namespace

std::string_view text(EntryKind kind) {
    return row_for(kind_names, kind);
}

EntryKind parse_kind(std::string_view name, const Place& place) {
    for (std::size_t i = 0; i < kind_names.size(); ++i)
        if (name == kind_names[i] || name == std::string(kind_names[i]) + "s")
            return static_cast<EntryKind>(i);
    throw error(message::unknown_kind, name, place);
}

bool is_id(std::string_view text) {
    return text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == text.npos
           && text.find_first_of("abcdefghijklmnopqrstuvwxyz") != text.npos;
}

std::string_view text(const std::optional<Direction>& direction) {
    return direction ? row_for(direction_names, *direction) : std::string_view();
}

Direction parse_direction(std::string_view name, const Place& place) {
    const auto found = std::find(direction_names.begin(), direction_names.end(), name);
    if (found == direction_names.end())
        throw error(message::unknown_direction, name, place);
    return static_cast<Direction>(found - direction_names.begin());
}

const Interval* Entry::interval() const {
    if (const auto* of_interval = std::get_if<IntervalFacts>(&facts))
        return &of_interval->interval;
    const auto* of_comma = std::get_if<CommaFacts>(&facts);
    return of_comma ? &of_comma->interval : nullptr;
}

const Degrees* Entry::degrees() const {
    if (const auto* of_scale = std::get_if<ScaleFacts>(&facts))
        return of_scale;
    return std::get_if<SystemFacts>(&facts);
}

const EqualDivision* Entry::division() const {
    const auto* of_system = std::get_if<SystemFacts>(&facts);
    return of_system && of_system->division ? &*of_system->division : nullptr;
}

const std::string& Entry::tradition() const {
    return text_or_nothing(degrees(), &Degrees::tradition);
}

const std::string& Entry::tonic_name() const {
    return text_or_nothing(degrees(), &Degrees::tonic_name);
}

const std::string& Entry::family() const {
    const auto* of_scale = std::get_if<ScaleFacts>(&facts);
    return of_scale ? of_scale->family : nothing();
}

const MelodicProgression& Entry::progression() const {
    static const MelodicProgression unknown;
    const auto* of_scale = std::get_if<ScaleFacts>(&facts);
    return of_scale ? of_scale->progression : unknown;
}

const std::vector<PractisedDegree>& Entry::practised() const {
    static const std::vector<PractisedDegree> none;
    const auto* of_scale = std::get_if<ScaleFacts>(&facts);
    return of_scale ? of_scale->practised : none;
}

const std::string& Entry::form_of() const {
    const auto* of_scale = std::get_if<ScaleFacts>(&facts);
    return of_scale ? of_scale->form_of : nothing();
}

bool Entry::common() const {
    const auto* of_scale = std::get_if<ScaleFacts>(&facts);
    return of_scale && of_scale->common;
}

bool Entry::most_used() const {
    const auto* of_scale = std::get_if<ScaleFacts>(&facts);
    return of_scale && of_scale->most_used;
}

} // namespace sectio
