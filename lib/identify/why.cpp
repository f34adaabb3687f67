// Two sentences of theory, and the notes that decide.

#include <sectio/base/argument.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/why.hpp>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <map>

namespace sectio {

namespace {

constexpr std::size_t most_reasons = 2, most_notes = 3, most_bars = 8;
/// A reason is at least so strong, a note adds at least this part of what the first adds.
constexpr double least_log = 0.05, least_part = 0.25;
/// A note within this many cents of a degree is called by it.
constexpr double own_cents = 15;

static_assert(static_cast<int>(Grounds::cadence) == static_cast<int>(Stage::cadence));

std::string name_of_degree(const LibraryScale& scale, int number) {
    const auto count = static_cast<int>(scale.degrees.size());
    const int octave = (number - 1 >= 0 ? number - 1 : number - count) / count;
    const auto index = static_cast<std::size_t>(number - 1 - octave * count);
    const Scale& of = *scale.entry.scale();
    if (index == 0 && octave == 1 && !of.closing.name.empty())
        return of.closing.name;
    const std::string& name = of.degrees[index].name;
    const std::string text = name.empty() ? fmt::format("degree {}", index + 1) : name;
    const char* const where[]{" an octave down", "", " an octave up"};
    return text + where[static_cast<std::size_t>(std::clamp(octave, -1, 1) + 1)];
}

/// The number of the degree that lies `cents` above the first, if one does.
std::optional<int> degree_at(const LibraryScale& scale, double cents) {
    const auto near = scale.nearest(cents);
    if (std::abs(near.above) > own_cents)
        return std::nullopt;
    const double below = cents - near.above - scale.degrees[near.degree];
    const int octave = scale.period > 0 ? static_cast<int>(std::lround(below / scale.period)) : 0;
    return static_cast<int>(near.degree) + 1 + octave * static_cast<int>(scale.degrees.size());
}

std::string note_name(const Laid& first, const Laid& other, int bin) {
    const double above = (bin - first.tonic) * cents_per_bin;
    if (const auto number = degree_at(first.scale, above))
        return name_of_degree(first.scale, *number);
    if (const auto number = degree_at(other.scale, (bin - other.tonic) * cents_per_bin))
        return name_of_degree(other.scale, *number);
    return fmt::format("the note {:.0f} cents above the tonic", above);
}

/// A note of a stage, and how much it speaks for the first scale.
struct Deciding {
    std::string name;
    double log = 0;
    std::vector<int> bins;
    bool foreign = false; ///< no degree of the other scale
};

std::vector<Deciding> deciding_notes(const Progression& progression, Stage stage, const Laid& first,
                                     const Laid& other) {
    const auto at = static_cast<std::size_t>(stage);
    std::map<std::string, Deciding> by_name;
    for (const Share& s : progression.stage(stage).shares) {
        Deciding& note = by_name[note_name(first, other, s.bin)];
        note.log +=
            s.share
            * (first.tables[at].at(s.bin - first.tonic) - other.tables[at].at(s.bin - other.tonic));
        note.bins.push_back(s.bin);
        note.foreign =
            degree_at(first.scale, (s.bin - first.tonic) * cents_per_bin).has_value()
            && !degree_at(other.scale, (s.bin - other.tonic) * cents_per_bin).has_value();
    }
    std::vector<Deciding> notes;
    for (auto& [name, note] : by_name) {
        note.name = name;
        notes.push_back(std::move(note));
    }
    std::stable_sort(notes.begin(), notes.end(),
                     [](const Deciding& a, const Deciding& b) { return a.log > b.log; });
    const auto weak = [&](const Deciding& note) {
        return note.log <= 0 || note.log < least_part * notes.front().log;
    };
    notes.erase(std::find_if(notes.begin(), notes.end(), weak), notes.end());
    notes.resize(std::min(notes.size(), most_notes));
    return notes;
}

/// The measures of a stage in which the notes stand, each once.
std::vector<std::string> bars_of(const Progression& progression, Stage stage,
                                 const std::vector<Deciding>& notes) {
    std::vector<std::string> bars;
    const auto decides = [&](int bin) {
        return std::any_of(notes.begin(), notes.end(), [&](const Deciding& note) {
            return std::find(note.bins.begin(), note.bins.end(), bin) != note.bins.end();
        });
    };
    for (const ProgressionNote& note : progression.notes)
        if (note.in[static_cast<std::size_t>(stage)] && !note.bar.empty() && decides(note.bin)
            && std::find(bars.begin(), bars.end(), note.bar) == bars.end())
            bars.push_back(note.bar);
    return bars;
}

/// The notes that theory lets a progression show; nothing where it states none.
std::string shown(const LibraryScale& scale) {
    const MelodicProgression& progression = scale.entry.progression();
    if (!progression.dominant)
        return {};
    std::string text = "shows its dominant " + name_of_degree(scale, *progression.dominant);
    for (const auto& further : {progression.second_dominant, progression.dwells_on})
        if (further)
            text += " and " + name_of_degree(scale, *further);
    return text;
}

std::string opening(const LibraryScale& scale) {
    const auto number = degree_at(scale, opening_height(scale));
    return number ? "opens about " + name_of_degree(scale, *number)
                  : fmt::format("opens about {:.0f} cents above its tonic", opening_height(scale));
}

/// What theory says of a stage, without the scale's name.
std::string theory(const LibraryScale& scale, Stage stage) {
    const std::string notes = shown(scale);
    if (stage != Stage::beginning && stage != Stage::opening)
        return notes;
    return opening(scale) + (notes.empty() ? "" : " and " + notes);
}

/// What theory says of a stage of both, where it tells them apart.
std::string theories(const LibraryScale& first, const LibraryScale& other, Stage stage) {
    std::string text;
    if (theory(first, stage) == theory(other, stage))
        return text;
    for (const LibraryScale* scale : {&first, &other})
        if (const std::string said = theory(*scale, stage); !said.empty())
            text += scale->entry.name + " " + said + "; ";
    return text;
}

std::string list_of(const std::vector<Deciding>& notes) {
    std::vector<std::string> names;
    for (const Deciding& note : notes)
        names.push_back(note.name);
    return fmt::format("{}", fmt::join(names, ", "));
}

std::string in_bars(const std::vector<std::string>& bars) {
    if (bars.empty())
        return {};
    const auto end = bars.begin() + static_cast<std::ptrdiff_t>(std::min(bars.size(), most_bars));
    return fmt::format(" ({} {}{})", bars.size() == 1 ? "bar" : "bars",
                       fmt::join(bars.begin(), end, ", "), end == bars.end() ? "" : " …");
}

Reason stage_reason(const Progression& progression, Stage stage, const Laid& first,
                    const Laid& other) {
    constexpr const char* places[]{"in the whole",   "at the beginning",  "in the opening",
                                   "where it rests", "in the last notes", "before the final"};
    const auto at = static_cast<std::size_t>(stage);
    const auto notes = deciding_notes(progression, stage, first, other);
    Reason reason{static_cast<Grounds>(stage), 0, {}, {}, bars_of(progression, stage, notes)};
    for (const Deciding& note : notes)
        reason.notes.push_back(note.name);
    std::vector<Deciding> foreign;
    std::ranges::copy_if(notes, std::back_inserter(foreign), &Deciding::foreign);
    const std::string heard =
        fmt::format("{} the melody has {}{}", places[at], list_of(notes), in_bars(reason.bars));
    const std::string said = theories(first.scale, other.scale, stage) + heard;
    const std::string &mine = first.scale.entry.name, &its = other.scale.entry.name;
    reason.text =
        foreign.size() == notes.size() && !foreign.empty()
            ? fmt::format("{}, which {} lacks", heard, its)
        : !foreign.empty() ? fmt::format("{}, of which {} lacks {}", heard, its, list_of(foreign))
        : said == heard    ? fmt::format("{}, which {} has oftener than {}", heard, mine, its)
                           : said;
    return reason;
}

Reason place_reason(const Laid& first, const Laid& other) {
    const auto place = [](const LibraryScale& scale) {
        return scale.written_tonic ? "as " + scale.entry.tonic_name() : std::string("on any note");
    };
    return {Grounds::tonic,
            0,
            fmt::format("theory writes the tonic of {} {}, that of {} {}", first.scale.entry.name,
                        place(first.scale), other.scale.entry.name, place(other.scale)),
            {},
            {}};
}

Reason prior_reason(const Laid& first, const Laid& other) {
    return {Grounds::use,
            0,
            fmt::format("{} is used more than {}, before the melody is looked at",
                        first.scale.entry.name, other.scale.entry.name),
            {},
            {}};
}

} // namespace

std::string_view text(Grounds by) {
    constexpr std::string_view names[]{"whole", "beginning", "opening", "half_closes",
                                       "close", "cadence",   "tonic",   "use"};
    return row_for(names, by);
}

std::vector<Reason> reasons(const Progression& progression, const Laid& first, const Laid& other) {
    const auto evidence = [&](const Laid& laid) {
        return progression_evidence(progression, laid.scale, laid.tables, laid.tonic);
    };
    const ProgressionEvidence mine = evidence(first), its = evidence(other);
    std::vector<Reason> all;
    const auto add = [&](double log, auto make) {
        if (log < least_log)
            return;
        all.push_back(make());
        all.back().log = log;
    };
    for (std::size_t s = 0; s < stage_count; ++s)
        add(mine.stages[s] - its.stages[s],
            [&] { return stage_reason(progression, static_cast<Stage>(s), first, other); });
    add(mine.place - its.place, [&] { return place_reason(first, other); });
    add(mine.prior - its.prior, [&] { return prior_reason(first, other); });
    std::stable_sort(all.begin(), all.end(),
                     [](const Reason& a, const Reason& b) { return a.log > b.log; });
    all.resize(std::min(all.size(), most_reasons));
    return all;
}

} // namespace sectio
