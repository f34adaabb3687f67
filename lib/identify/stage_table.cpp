#include <sectio/identify/cents.hpp>
#include <sectio/identify/stage_table.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sectio {

namespace {

/// The table reaches from here to there, in octaves from the tonic.
constexpr int lowest_octave = -2, highest_octave = 4;
/// Heights in cents that a course visits seldom, and how seldom.
constexpr double lowest_usual = -900, highest_usual = 2300, unusual = 0.2;
/// Notes farther from a degree than this many cents do not count as its own.
constexpr double table_reach = 120;
/// Spread of what practice places about a comma beside its degree.
constexpr double comma_spread = 25;
/// The range over which strewn notes are even.
constexpr double even_range = 2400;
/// Shares of the way between tonic and dominant (or dominant and octave) about which the stages
/// lie.
constexpr double ascending_opening = 0.25, ascending_middle = 0.5, turning_middle = 0.85,
                 descending_middle = 0.5;
/// The close goes down from half the dominant, at most from here.
constexpr double highest_close = 450;

/// A note that a stage admits.
struct Admitted {
    double cents, weight;
    bool moved; ///< practice moves it
};

double normal(double x, double spread) {
    return std::exp(-x * x / (2 * spread * spread)) / (spread * std::sqrt(2 * std::numbers::pi));
}

/// True for the degrees that fifths and fourths from the tonic reach in five steps but for the
/// thirds and sevenths of four and five fifths up: these stand firm, the others are moved by
/// practice (common practice, no source).
bool stands_firm(double cents) {
    constexpr int firm[]{0, 4, 9, 13, 22, 31, 35, 40, 44};
    const auto comma = ((std::lround(cents * 53 / 1200) % 53) + 53) % 53;
    return std::find(std::begin(firm), std::end(firm), comma) != std::end(firm);
}

/// The octave of a degree has a part of its emphasis.
double octave_of(double emphasis) {
    return 1 + (emphasis - 1) * octave_share;
}

struct Middle {
    double cents, width;
};

double whole_middle(const LibraryScale& scale) {
    const Entry& entry = scale.entry;
    const double dominant = degree_cents(scale, *entry.course().dominant);
    if (entry.course().direction == Direction::ascending)
        return ascending_middle * dominant;
    if (entry.course().direction != Direction::descending)
        return turning_middle * dominant;
    const double lower = entry.course().second_dominant
                             ? degree_cents(scale, *entry.course().second_dominant)
                             : scale.period / 2;
    return descending_middle * (scale.period + lower) / 2;
}

Middle middle_of(const LibraryScale& scale, Stage stage) {
    const bool known = course_known(scale);
    const double wider = known ? 1 : unknown_width;
    switch (stage) {
    case Stage::whole:
        return {known ? whole_middle(scale) : unknown_middle, whole_width * wider};
    case Stage::beginning:
        return {opening_height(scale), beginning_width * wider};
    case Stage::opening:
        return {opening_height(scale), opening_width * wider};
    case Stage::half_closes:
        return {opening_height(scale), half_close_width * wider};
    case Stage::close:
        break;
    }
    const double dominant =
        known ? degree_cents(scale, *scale.entry.course().dominant) : 2 * highest_close;
    return {std::min(dominant / 2, highest_close), close_width * wider};
}

Emphasis emphasis_of(Stage stage) {
    switch (stage) {
    case Stage::whole:
        return time_emphasis;
    case Stage::beginning:
        return beginning_emphasis;
    case Stage::opening:
        return opening_emphasis;
    case Stage::half_closes:
        return half_close_emphasis;
    case Stage::close:
        break;
    }
    return close_emphasis;
}

/// The weight of degree `index` in octave `octave` before its height counts.
double degree_weight(const LibraryScale& scale, std::size_t index, int octave,
                     const Emphasis& emphasis) {
    if (index == 0 && octave == 0)
        return emphasis.tonic;
    const auto count = static_cast<int>(scale.degrees.size());
    const int number = static_cast<int>(index) + 1 + octave * count;
    const Entry& entry = scale.entry;
    double weight = index == 0 ? std::max(1.0, octave_of(emphasis.tonic)) : 1;
    if (entry.course().dominant && (*entry.course().dominant - number) % count == 0)
        weight =
            std::max(weight, number == *entry.course().dominant ? emphasis.dominant
                                                                : octave_of(emphasis.dominant));
    if (entry.course().second_dominant && number == *entry.course().second_dominant)
        weight = std::max(weight, emphasis.second);
    return weight;
}

/// All notes of all octaves that the table covers, with what their heights make of their weights.
std::vector<Admitted> admitted_of(const LibraryScale& scale, Stage stage,
                                  const std::vector<double>& degrees) {
    const Emphasis emphasis = emphasis_of(stage);
    const Middle middle = middle_of(scale, stage);
    const bool repeats = scale.period > 0;
    const int low = repeats ? static_cast<int>(std::floor(lowest_octave * 1200 / scale.period)) : 0;
    const int high =
        repeats ? static_cast<int>(std::ceil(highest_octave * 1200 / scale.period)) : 0;
    std::vector<Admitted> places;
    double sum = 0;
    const auto add = [&](double cents, double weight) {
        const double away = (cents - middle.cents) / middle.width;
        weight *= even_heights + (1 - even_heights) * std::exp(-away * away / 2);
        weight *= cents < lowest_usual || cents > highest_usual ? unusual : 1;
        sum += weight;
        places.push_back({cents, weight, !stands_firm(cents)});
    };
    for (int octave = low; octave <= high; ++octave) {
        for (std::size_t i = 0; i < scale.degrees.size(); ++i)
            add(degrees[i] + octave * scale.period, degree_weight(scale, i, octave, emphasis));
        for (const Interval& interval : scale.entry.course().mobile)
            add(cents_of(interval) + octave * scale.period, emphasis.mobile);
    }
    for (Admitted& place : places)
        place.weight /= sum;
    return places;
}

/// Density of notes at a distance from their degree, looked up in whole cents.
std::vector<double> kernel(double spread, double comma_off) {
    std::vector<double> values;
    for (double x = 0; x <= table_reach; ++x)
        values.push_back((1 - comma_off) * normal(x, spread) + comma_off * normal(x, comma_spread));
    return values;
}

} // namespace

double degree_cents(const LibraryScale& scale, int number) {
    const auto count = static_cast<int>(scale.degrees.size());
    const int index = (number - 1) % count, periods = (number - 1) / count;
    return scale.degrees[static_cast<std::size_t>(index)] + periods * scale.period;
}

bool course_known(const LibraryScale& scale) {
    return scale.entry.course().dominant && scale.entry.course().direction;
}

double opening_height(const LibraryScale& scale) {
    const Entry& entry = scale.entry;
    if (entry.course().begins)
        return degree_cents(scale, *entry.course().begins);
    if (!course_known(scale))
        return unknown_middle;
    const double dominant = degree_cents(scale, *entry.course().dominant);
    if (entry.course().direction == Direction::ascending)
        return ascending_opening * dominant;
    return entry.course().direction == Direction::descending ? scale.period : dominant;
}

StageTable::StageTable(const LibraryScale& scale, Stage stage, const Strengths& strengths) {
    const auto firm = kernel(strengths.spread, strengths.comma_off);
    const auto moved = kernel(strengths.moved_spread, strengths.comma_off);
    constexpr int first = lowest_octave * bins_per_octave, last = highest_octave * bins_per_octave;
    std::vector<double> density(static_cast<std::size_t>(last - first + 1), 0.0);
    const auto& degrees =
        strengths.sounded && !scale.sounded.empty() ? scale.sounded : scale.degrees;
    for (const Admitted& place : admitted_of(scale, stage, degrees)) {
        const auto& shape = place.moved ? moved : firm;
        const int from = static_cast<int>(std::ceil((place.cents - table_reach) / cents_per_bin));
        const int to = static_cast<int>(std::floor((place.cents + table_reach) / cents_per_bin));
        for (int bin = std::max(from, first); bin <= std::min(to, last); ++bin) {
            const double away = std::abs(bin * cents_per_bin - place.cents);
            density[static_cast<std::size_t>(bin - first)] +=
                place.weight
                * shape[static_cast<std::size_t>(std::lround(std::min(away, table_reach)))];
        }
    }
    logs_.reserve(density.size());
    for (const double d : density)
        logs_.push_back(
            static_cast<float>(std::log((1 - strengths.stray) * d * even_range + strengths.stray)));
}

double StageTable::at(int height) const {
    const int index = height - lowest_octave * bins_per_octave;
    return logs_[static_cast<std::size_t>(
        std::clamp(index, 0, static_cast<int>(logs_.size()) - 1))];
}

StageTables stage_tables(const LibraryScale& scale, const Strengths& strengths) {
    return {StageTable(scale, Stage::whole, strengths),
            StageTable(scale, Stage::beginning, strengths),
            StageTable(scale, Stage::opening, strengths),
            StageTable(scale, Stage::half_closes, strengths),
            StageTable(scale, Stage::close, strengths)};
}

} // namespace sectio
