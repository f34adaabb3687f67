#include <sectio/base/folded.hpp>
#include <sectio/identify/cents.hpp>
#include <sectio/identify/library.hpp>
#include <sectio/identify/messages.hpp>
#include <sectio/identify/stage_table.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

namespace sectio {

namespace {

/// A set that does not repeat is compared this far beyond its ends.
constexpr double margin = 255;

/// The general scale whose lowest note, Kaba Çârgâh, is the written C4
/// (data/catalogue/turkish.toml).
constexpr std::string_view general_scale_id = "turkish-24";

bool counted_in(int steps, const Scale& scale) {
    return std::all_of(scale.degrees.begin(), scale.degrees.end(), [&](const Degree& degree) {
        const auto cents = degree.interval.exact_cents();
        return cents && (*cents * Integer(steps) / Integer(1200)).denominator() == 1;
    });
}

/// Scales whose melodies are written in the twelve notes of the staff most of all: the church
/// modes, major, minor and their like.
bool of_the_staff(const Entry& entry) {
    constexpr std::string_view families[]{"church mode, authentic", "church mode, plagal",
                                          "diatonic", "minor", "pentatonic"};
    constexpr std::string_view traditions[]{"Western twelve-tone", "European chant", "many"};
    return std::ranges::count(families, entry.family()) > 0
           && std::ranges::count(traditions, entry.tradition()) > 0;
}

/// An authentic mode goes from its final to the octave, or from a note below, a plagal one from the
/// fourth below to the fifth above, or to a note above (wikipedia-gregorian-mode, seen). The ninth
/// of authentic modes, the heights that both keep about, and that a melody in another scale of the
/// staff may lie as the one or as the other, are common practice, no source.
std::optional<Ambitus> ambitus_of(const Entry& entry, const std::vector<double>& degrees) {
    constexpr double tone = 204, fourth = 498, fifth = 702, octave = 1200, narrow = 300, wide = 500;
    constexpr double plagal_middle = (fifth - fourth) / 2;
    const auto dominant = static_cast<std::size_t>(entry.progression().dominant.value_or(1)) - 1;
    const bool within = dominant > 0 && dominant < degrees.size(); // not an octave up
    const double authentic_middle = within ? degrees[dominant] / 2 : fifth / 2;
    if (entry.family() == "church mode, authentic")
        return Ambitus{-tone, octave + tone, authentic_middle, narrow};
    if (entry.family() == "church mode, plagal")
        return Ambitus{-fourth, fifth + tone, plagal_middle, narrow};
    if (!of_the_staff(entry))
        return std::nullopt;
    return Ambitus{-fourth - tone, octave + tone, (authentic_middle + plagal_middle) / 2, wide};
}

/// Scales whose pitches differ by less are asked whether they are exactly the same, in cents.
constexpr double doubtful = 1e-6;

/// True where the scale has the pitches of another from its degree `by` on.
bool begins_at(const LibraryScale& other, std::size_t by, const LibraryScale& scale) {
    const std::vector<double>& d = other.degrees;
    if (d.size() != scale.degrees.size())
        return false;
    for (std::size_t i = 0; i < d.size(); ++i) {
        const std::size_t j = i + by;
        const double at = j < d.size() ? d[j] : d[j - d.size()] + other.period;
        if (std::abs(at - d[by] - scale.degrees[i]) > doubtful)
            return false;
    }
    return same_pitches(*other.entry.scale(), by, *scale.entry.scale());
}

/// After how many degrees the same pitches come again.
std::size_t repetition(const LibraryScale& scale) {
    const std::size_t count = scale.degrees.size();
    for (std::size_t by = 1; by < count; ++by)
        if (scale.period > 0 && count % by == 0 && begins_at(scale, by, scale))
            return by;
    return count;
}

double sum_of_squared_steps(const LibraryScale& scale) {
    double sum = 0;
    for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
        const bool last = i + 1 == scale.degrees.size();
        const double above = last ? std::max(scale.period, scale.degrees[i]) : scale.degrees[i + 1];
        sum += (above - scale.degrees[i]) * (above - scale.degrees[i]);
    }
    return sum;
}

/// Numbers scales so that rotations have the same number, and those of exactly the same pitches
/// have. Only such are compared whose steps have nearly the same sum of squares.
void number_pitches(std::vector<LibraryScale>& scales) {
    constexpr double near = 0.01;
    std::multimap<double, std::size_t> by_steps;
    std::map<std::pair<std::size_t, std::size_t>, std::size_t> known;
    for (std::size_t i = 0; i < scales.size(); ++i) {
        LibraryScale& scale = scales[i];
        scale.cycle = i;
        const double sum = sum_of_squared_steps(scale);
        const auto end = by_steps.upper_bound(sum + near);
        for (auto it = by_steps.lower_bound(sum - near); it != end && scale.cycle == i; ++it) {
            const LibraryScale& other = scales[it->second];
            for (std::size_t by = 0; by < other.repeats_after && scale.cycle == i; ++by)
                if (begins_at(other, by, scale))
                    scale.cycle = it->second, scale.turned = by;
        }
        if (scale.cycle == i)
            by_steps.emplace(sum, i);
        scale.pitches = known.try_emplace({scale.cycle, scale.turned}, i).first->second;
    }
}

void number_sizes(std::vector<LibraryScale>& scales) {
    std::map<std::pair<std::size_t, double>, std::size_t> known;
    for (LibraryScale& scale : scales)
        scale.size_class =
            known.try_emplace({scale.degrees.size(), scale.period}, known.size()).first->second;
}

/// The degrees in the middle of where performers are taught to sound them.
std::vector<double> sounded_degrees(const Entry& entry, std::vector<double> degrees) {
    for (const PractisedDegree& practised : entry.practised())
        degrees[static_cast<std::size_t>(practised.degree) - 1] +=
            (cents_of(practised.from) + cents_of(practised.to)) / 2;
    return degrees;
}

/// All that the words of among() are looked for in, a blank before each part.
std::string described(const Entry& entry) {
    std::string all = " " + folded(entry.id) + " " + folded(entry.name) + " "
                      + folded(std::string(text(entry.kind()))) + " " + folded(entry.tradition())
                      + " " + folded(entry.family());
    for (const std::string& other : entry.also)
        all += " " + folded(other);
    return all;
}

} // namespace

double LibraryScale::hold(double cents, Held& held) const {
    check_argument(!degrees.empty() && std::isfinite(cents), "cents on a scale of the library",
                   "a finite number, and the scale one with degrees");
    constexpr double nothing_above = std::numeric_limits<double>::infinity();
    held.periods = period > 0 ? period * periods_below(cents, period) : 0;
    cents -= held.periods;
    const std::size_t up = first_above(cents);
    const Nearest near = nearest(cents, up);
    const bool again = up == degrees.size() && near.degree == 0; // the first, a period higher
    const std::size_t last = degrees.size() - 1;
    const double end = period > 0 ? period : nothing_above;
    const auto middle = [&](std::size_t i) { // above degree i
        return i < last ? (degrees[i] + degrees[i + 1]) / 2 : (degrees[i] + end) / 2;
    };
    held.degree = near.degree;
    held.at = again ? period : degrees[near.degree];
    held.low = again             ? middle(last)
               : near.degree > 0 ? middle(near.degree - 1)
               : period > 0      ? 0
                                 : -nothing_above;
    held.high = again ? period : middle(near.degree);
    held.low += doubtful;
    held.high -= doubtful;
    return near.above;
}

void LibraryScale::lay_out() {
    circle = std::ceil(period > 0 ? period : degrees.back() + 2 * margin);
    begin = period > 0 ? 0 : -margin;
    if (degrees.size() > std::numeric_limits<std::uint8_t>::max())
        return;
    degrees_below.resize(static_cast<std::size_t>(circle));
    std::size_t up = 0;
    for (std::size_t i = 0; i < degrees_below.size(); ++i) {
        while (up < degrees.size() && degrees[up] <= begin + static_cast<double>(i))
            ++up;
        degrees_below[i] = static_cast<std::uint8_t>(up);
    }
}

void ScaleLibrary::name_notes(const Entry& general_scale) {
    const std::string low = "kaba ";
    for (const Degree& degree : general_scale.scale()->degrees) {
        const std::string name = folded(degree.name);
        notes_[name] = cents_of(degree.interval);
        if (name.starts_with(low)) // its octave has the name without "kaba"
            notes_[name.substr(low.size())] = cents_of(degree.interval) + 1200;
    }
}

std::optional<double> ScaleLibrary::written_place(const Entry& entry) const {
    if (entry.id == general_scale_id)
        return std::nullopt;
    // C4 is understood of what stands at notes of the staff.
    const bool of_notes = entry.tradition() == "Arab" || entry.tradition() == "European chant";
    if (of_notes && !entry.tonic_name().empty())
        return cents_of(entry.scale()->tonic.value_or("C4").at(Pitch::concert_a())
                        - pitch_of_key(60));
    const auto found = notes_.find(folded(entry.tonic_name()));
    return found == notes_.end() ? std::nullopt : std::optional(found->second);
}

ScaleLibrary::ScaleLibrary() : tables_(std::make_shared<PreparedTables>()) {}

ScaleLibrary::ScaleLibrary(const std::vector<Entry>& entries) : ScaleLibrary() {
    for (const Entry& entry : entries)
        if (entry.id == general_scale_id && entry.scale())
            name_notes(entry);
    for (const Entry& entry : entries) {
        if (!entry.scale() || entry.scale()->degrees.size() < 2)
            continue;
        LibraryScale scale;
        scale.entry = entry;
        scale.period = entry.scale()->period ? cents_of(*entry.scale()->period) : 0;
        for (const Degree& degree : entry.scale()->degrees)
            scale.degrees.push_back(cents_of(degree.interval));
        scale.sounded = sounded_degrees(scale.entry, scale.degrees);
        scale.written_tonic = written_place(entry);
        scale.in_commas = counted_in(53, *entry.scale());
        scale.in_twelve = counted_in(12, *entry.scale());
        scale.of_the_staff = of_the_staff(entry);
        scale.ambitus = ambitus_of(entry, scale.degrees);
        scale.lay_out();
        scale.repeats_after = repetition(scale);
        scales_.push_back(std::move(scale));
    }
    number_pitches(scales_);
    number_sizes(scales_);
    order_different();
}

void ScaleLibrary::order_different() {
    std::map<std::size_t, std::size_t> places; // of cycles
    for (std::size_t i = 0; i < scales_.size(); ++i) {
        const LibraryScale& scale = scales_[i];
        const auto [at, is_new] = places.try_emplace(scale.cycle, different_.size());
        if (is_new)
            different_.emplace_back();
        std::vector<Turned>& rotations = different_[at->second];
        const std::size_t first = is_new ? scale.turned : scales_[rotations.front().scale].turned;
        const std::size_t again = scale.repeats_after;
        rotations.push_back({i, (scale.turned + again - first) % again});
    }
    const auto size = [&](const std::vector<Turned>& rotations) {
        const LibraryScale& scale = scales_[rotations.front().scale];
        return std::pair(scale.degrees.size(), scale.size_class);
    };
    std::stable_sort(different_.begin(), different_.end(),
                     [&](const auto& a, const auto& b) { return size(a) < size(b); });
}

ScaleLibrary ScaleLibrary::among(const std::vector<std::string>& words) const {
    ScaleLibrary chosen;
    for (const LibraryScale& scale : scales_) {
        const std::string all = described(scale.entry);
        if (std::all_of(words.begin(), words.end(), [&](const std::string& word) {
                return all.find(" " + folded(word)) != std::string::npos;
            }))
            chosen.scales_.push_back(scale);
    }
    if (chosen.scales_.empty())
        throw error(message::nothing_among, fmt::format("{}", fmt::join(words, " ")), {"--among"});
    chosen.order_different();
    return chosen;
}

const ScaleLibrary& ScaleLibrary::installed() {
    // Never taken down: that would cost as much as a short command's own work.
    static const ScaleLibrary& library = *new ScaleLibrary(Catalogue::installed().all());
    return library;
}

} // namespace sectio
