#include <sectio/base/argument.hpp>
#include <sectio/identify/distinguish.hpp>
#include <sectio/identify/namesakes.hpp>
#include <sectio/scale/lookup.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

using Group = std::vector<const Candidate*>;

/// Degrees nearer than this many cents are one note of the staff.
constexpr double one_key = 50;

/// Degrees of `a` that lie below the tonic of `b`, where both have the very same pitches.
std::optional<std::size_t> rotation(const Candidate& a, const Candidate& b) {
    const auto near = a.scale->nearest(b.tonic_cents - a.tonic_cents);
    if (std::abs(near.above) > same_place || !same_pitches(scale_of(a), near.degree, scale_of(b)))
        return std::nullopt;
    return near.degree;
}

/// Candidates of exactly equal pitches, in the order of probability.
std::vector<Group> groups_of(const std::vector<Candidate>& candidates) {
    std::vector<Group> groups;
    for (const Candidate& candidate : candidates) {
        if (!candidate.named)
            continue;
        const auto group = std::find_if(groups.begin(), groups.end(), [&](const Group& g) {
            return rotation(*g.front(), candidate).has_value();
        });
        if (group == groups.end())
            groups.push_back({&candidate});
        else
            group->push_back(&candidate);
    }
    return groups;
}

std::vector<std::string> ids_of(const Group& group) {
    std::vector<std::string> ids;
    for (const Candidate* candidate : group)
        ids.push_back(candidate->scale->entry.id);
    return ids;
}

/// "Hüseynî: 5 (Hüseynî); Nevâ: 4 (Nevâ)", or nothing where all say the same or one says nothing.
template <typename Say>
std::string contrast(const Group& group, Say say) {
    std::string text;
    std::vector<std::string> said;
    for (const Candidate* candidate : group) {
        said.push_back(say(*candidate));
        if (said.back().empty())
            return {};
        text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", candidate->scale->entry.name,
                            said.back());
    }
    const bool all_same = std::all_of(said.begin(), said.end(),
                                      [&](const std::string& s) { return s == said.front(); });
    return all_same ? std::string() : text;
}

std::string degree_name(const Entry& entry, int degree) {
    const auto& degrees = entry.scale()->degrees;
    const auto index = static_cast<std::size_t>(degree - 1);
    const std::string& name = index < degrees.size()    ? degrees[index].name
                              : index == degrees.size() ? entry.scale()->closing.name
                                                        : std::string();
    return name.empty() ? fmt::format("degree {}", degree)
                        : fmt::format("degree {}, {}", degree, name);
}

std::string dominant_of(const Candidate& candidate) {
    const Entry& entry = candidate.scale->entry;
    return entry.progression().dominant ? degree_name(entry, *entry.progression().dominant)
                                        : std::string();
}

void add(std::vector<Distinction>& all, const Group& group, Telling by, const std::string& said) {
    if (!said.empty())
        all.push_back({ids_of(group), by, fmt::format("{}: {}", text(by), said)});
}

void compare_equal(std::vector<Distinction>& all, const Group& group) {
    if (group.size() < 2)
        return;
    const std::size_t before = all.size();
    add(all, group, Telling::tonic, contrast(group, [&](const Candidate& c) {
            return fmt::format("on the pitch of degree {} of {}", *rotation(*group.front(), c) + 1,
                               group.front()->scale->entry.name);
        }));
    add(all, group, Telling::dominant, contrast(group, dominant_of));
    add(all, group, Telling::direction, contrast(group, [](const Candidate& c) {
            return std::string(text(c.scale->entry.progression().direction));
        }));
    if (all.size() == before)
        all.push_back({ids_of(group), Telling::name,
                       "these have the same pitches, and the catalogue knows "
                       "of nothing else that tells them apart"});
}

/// Scales that are written with the same notes of the staff.
void compare_written(std::vector<Distinction>& all, const Group& group) {
    add(all, group, Telling::tonic, contrast(group, [](const Candidate& c) {
            return c.scale->written_tonic ? "written as " + c.scale->entry.tonic_name()
                                          : std::string("on any note");
        }));
    add(all, group, Telling::dominant, contrast(group, dominant_of));
}

double in_first_octave(double cents) {
    return cents - 1200 * std::floor(cents / 1200);
}

/// The degree of `b` that lies farthest from all degrees of `a`.
void compare_different(std::vector<Distinction>& all, const Candidate& a, const Candidate& b,
                       const std::string& counted_from) {
    double farthest = 0, at = 0;
    for (const double degree : b.scale->degrees) {
        const double above = a.scale->nearest(degree + b.tonic_cents - a.tonic_cents).above;
        if (std::abs(above) > std::abs(farthest)) {
            farthest = above;
            at = in_first_octave(degree + b.tonic_cents);
        }
    }
    if (farthest == 0)
        return;
    if (!a.tonic.empty() && std::abs(farthest) < one_key) {
        compare_written(all, {&a, &b});
        return;
    }
    all.push_back(
        {{a.scale->entry.id, b.scale->entry.id},
         Telling::pitch,
         fmt::format(
             "pitch: at {:.1f} cents above {} {} has a degree, that of {} lies {:.1f} cents {}", at,
             counted_from, b.scale->entry.name, a.scale->entry.name, std::abs(farthest),
             farthest > 0 ? "lower" : "higher")});
}

} // namespace

std::string_view text(Telling by) {
    constexpr std::string_view names[]{"tonic", "dominant", "direction", "pitch", "name"};
    return row_for(names, by);
}

std::vector<Distinction> distinctions(const std::vector<Candidate>& candidates,
                                      const std::string& counted_from) {
    const auto groups = groups_of(candidates);
    std::vector<Distinction> all;
    for (const Group& group : groups)
        compare_equal(all, group);
    for (std::size_t i = 1; i < groups.size(); ++i)
        compare_different(all, *groups.front().front(), *groups[i].front(), counted_from);
    return all;
}

} // namespace sectio
