#include <sectio/identify/cents.hpp>
#include <sectio/identify/stage_table.hpp>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <numbers>
#include <numeric>

namespace sectio {

namespace {

/// The table reaches from here to there, in octaves from the tonic.
constexpr int lowest_octave = -2, highest_octave = 4;
/// Heights in cents that a progression visits seldom, and how seldom.
constexpr double lowest_usual = -900, highest_usual = 2300, unusual = 0.2;
/// Notes farther from a degree than this many cents do not count as its own.
constexpr double table_reach = 120;
/// Spread of what practice places about a comma beside its degree.
constexpr double comma_spread = 25;
/// The range over which scattered notes are even.
constexpr double even_range = 2400;
/// Shares of the way from tonic to dominant, or dominant to octave, that the stages lie about.
constexpr double ascending_opening = 0.25, ascending_middle = 0.5, turning_middle = 0.85,
                 descending_middle = 0.5;
/// The close goes down from half the dominant, at most from here.
constexpr double highest_close = 450;
/// The last notes before the final lie about here, whatever the progression was.
constexpr double cadence_middle = 225;

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
double octave_of(double emphasis, const Strengths& strengths) {
    return 1 + (emphasis - 1) * strengths.octave_share;
}

double whole_middle(const LibraryScale& scale) {
    const MelodicProgression& progression = scale.entry.progression();
    const double dominant = degree_cents(scale, *progression.dominant);
    if (progression.direction == Direction::ascending)
        return ascending_middle * dominant;
    if (progression.direction != Direction::descending)
        return turning_middle * dominant;
    const auto second = progression.second_dominant;
    const double lower = second ? degree_cents(scale, *second) : scale.period / 2;
    return descending_middle * (scale.period + lower) / 2;
}

/// The height that a stage lies about.
double middle_of(const LibraryScale& scale, Stage stage) {
    const bool known = progression_known(scale);
    switch (stage) {
    case Stage::whole:
        return scale.ambitus ? opening_height(scale) : known ? whole_middle(scale) : unknown_middle;
    case Stage::beginning:
    case Stage::opening:
    case Stage::half_closes:
        return opening_height(scale);
    case Stage::cadence:
        return cadence_middle;
    case Stage::close:
        break;
    }
    return known ? std::min(degree_cents(scale, *scale.entry.progression().dominant) / 2,
                            highest_close)
                 : highest_close;
}

/// Cadences are alike; what is not known of a progression widens the other stages.
double width_of(const LibraryScale& scale, Stage stage, const Strengths& strengths) {
    if (stage == Stage::whole && scale.ambitus)
        return scale.ambitus->spread;
    const bool wider = stage != Stage::cadence && !progression_known(scale);
    return strengths.of(stage).width * (wider ? unknown_width : 1);
}

/// The weight of degree `number`, 1 the tonic, before its height counts.
double degree_weight(const LibraryScale& scale, int number, Stage stage,
                     const Strengths& strengths) {
    const StageStrength& emphasis = strengths.of(stage);
    if (number == 1)
        return emphasis.tonic;
    const auto count = static_cast<int>(scale.degrees.size());
    const MelodicProgression& progression = scale.entry.progression();
    const bool octave_of_tonic = (number - 1) % count == 0;
    double weight = octave_of_tonic ? std::max(1.0, octave_of(emphasis.tonic, strengths)) : 1;
    if (progression.dominant && (*progression.dominant - number) % count == 0)
        weight = std::max(weight, number == *progression.dominant
                                      ? emphasis.dominant
                                      : octave_of(emphasis.dominant, strengths));
    if (number == progression.second_dominant)
        weight = std::max(weight, emphasis.second);
    if (number == progression.dwells_on)
        weight = std::max(weight, 1 + (emphasis.second - 1) * dwelt_share);
    return weight;
}

constexpr int first_bin = lowest_octave * bins_per_octave,
              table_bins = (highest_octave - lowest_octave) * bins_per_octave + 1;
/// A place has density in this many bins at most.
constexpr int place_bins = static_cast<int>(2 * table_reach / cents_per_bin) + 1;

/// A note of one octave that a scale admits, and the density of notes about it.
struct Place {
    double cents;
    int number; ///< of the degree, counted on over the octaves; of a mobile note no_degree
    int first;  ///< bin of the table that density[0] is for; may lie beyond its ends
    std::array<float, place_bins> density;
};
constexpr int no_degree = std::numeric_limits<int>::min();

/// Density of notes at a distance from their degree, looked up in whole cents.
std::vector<double> kernel(double spread, double comma_off) {
    std::vector<double> values;
    for (double x = 0; x <= table_reach; ++x)
        values.push_back((1 - comma_off) * normal(x, spread) + comma_off * normal(x, comma_spread));
    return values;
}

/// ln `x` for x > 0, within 2e-7 of it and a rounding. With x = m 2^e and m from 2/3 to 4/3 it is
/// e ln 2 + 2 artanh z where z = (m - 1)/(m + 1); of the series the terms after z^7 are left out,
/// less than 2 |z|^9 / (9 (1 - z^2)), which is 1.2e-7 at |z| = 1/5. Tables are logarithms for the
/// most part, and loops of this one go several at once.
float quick_log(float x) {
    constexpr std::uint32_t two_thirds = 0x3f2aaaab;
    const auto bits = std::bit_cast<std::uint32_t>(x);
    const auto exponent = static_cast<std::int32_t>(bits - two_thirds) >> 23;
    const auto m = std::bit_cast<float>(bits - (static_cast<std::uint32_t>(exponent) << 23));
    const float z = (m - 1) / (m + 1), y = z * z;
    const float artanh = z * (1 + y * (1 / 3.0F + y * (1 / 5.0F + y / 7.0F)));
    return static_cast<float>(exponent) * std::numbers::ln2_v<float> + 2 * artanh;
}

/// Makes the tables of scales for one kind of melody.
class TableMaker {
  public:
    explicit TableMaker(const Strengths& strengths)
        : strengths_(strengths), firm_(kernel(strengths.spread, strengths.comma_off)),
          moved_(kernel(strengths.moved_spread, strengths.comma_off)) {}

    StageTables operator()(const LibraryScale& scale) const {
        const std::vector<Place> places = places_of(scale);
        StageTables tables;
        for (std::size_t s = 0; s < stage_count; ++s)
            tables[s] = table(scale, static_cast<Stage>(s), places);
        return tables;
    }

  private:
    Place place(double cents, int number) const {
        const auto& shape = stands_firm(cents) ? firm_ : moved_;
        const int from = static_cast<int>(std::ceil((cents - table_reach) / cents_per_bin));
        Place place{cents, number, from - first_bin, {}};
        for (int i = 0; i < place_bins; ++i) {
            const double away = std::abs((from + i) * cents_per_bin - cents);
            if (away <= table_reach)
                place.density[static_cast<std::size_t>(i)] =
                    static_cast<float>(shape[static_cast<std::size_t>(std::lround(away))]);
        }
        return place;
    }

    /// All notes of all octaves that the table covers. Those beyond the ends of a scale that does
    /// not repeat have no density, but their weight: no scale is more probable for its narrowness.
    std::vector<Place> places_of(const LibraryScale& scale) const {
        const double period = scale.period > 0
                                  ? scale.period
                                  : 1200 * std::max(1.0, std::ceil(scale.degrees.back() / 1200));
        const int low = static_cast<int>(std::floor(lowest_octave * 1200 / period));
        const int high = static_cast<int>(std::ceil(highest_octave * 1200 / period));
        const auto& degrees =
            strengths_.sounded && !scale.sounded.empty() ? scale.sounded : scale.degrees;
        std::vector<Place> places;
        for (int octave = low; octave <= high; ++octave) {
            const auto count = static_cast<int>(degrees.size());
            const std::size_t first = places.size();
            for (int i = 0; i < count; ++i)
                places.push_back(place(degrees[static_cast<std::size_t>(i)] + octave * period,
                                       i + 1 + octave * count));
            for (const Interval& interval : scale.entry.progression().mobile)
                places.push_back(place(cents_of(interval) + octave * period, no_degree));
            if (scale.period == 0 && octave != 0)
                for (std::size_t i = first; i < places.size(); ++i)
                    places[i].density.fill(0);
        }
        return places;
    }

    /// Density of the notes of one stage, before the outliers.
    std::vector<float> density(const LibraryScale& scale, Stage stage,
                               const std::vector<Place>& places) const {
        const std::vector<double> weights = weights_of(scale, stage, places);
        const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
        std::vector<float> density(table_bins + 2 * place_bins); // with room beyond the ends
        for (std::size_t i = 0; i < places.size(); ++i) {
            const int first = places[i].first;
            if (first <= -place_bins || first >= table_bins)
                continue;
            const auto weight = static_cast<float>(weights[i] / sum);
            float* const at = density.data() + first + place_bins;
            for (std::size_t k = 0; k < place_bins; ++k)
                at[k] += weight * places[i].density[k];
        }
        return density;
    }

    std::vector<double> weights_of(const LibraryScale& scale, Stage stage,
                                   const std::vector<Place>& places) const {
        const double middle = middle_of(scale, stage), width = width_of(scale, stage, strengths_);
        const double even = strengths_.even_heights;
        const Ambitus range = scale.ambitus.value_or(Ambitus{lowest_usual, highest_usual, 0, 0});
        std::vector<double> weights;
        for (const Place& place : places) {
            const double away = (place.cents - middle) / width;
            const bool usual = place.cents > range.lowest - 1 && place.cents < range.highest + 1;
            const double own = place.number == no_degree
                                   ? mobile_emphasis
                                   : degree_weight(scale, place.number, stage, strengths_);
            weights.push_back(own * (even + (1 - even) * std::exp(-away * away / 2))
                              * (usual ? 1 : unusual));
        }
        return weights;
    }

    StageTable table(const LibraryScale& scale, Stage stage,
                     const std::vector<Place>& places) const {
        const std::vector<float> all = density(scale, stage, places);
        const auto stray = static_cast<float>(strengths_.stray);
        const auto even = static_cast<float>((1 - strengths_.stray) * even_range);
        std::vector<float> logs(table_bins);
        for (std::size_t i = 0; i < logs.size(); ++i)
            logs[i] = quick_log(even * all[i + place_bins] + stray);
        return StageTable(std::move(logs));
    }

    Strengths strengths_;
    std::vector<double> firm_, moved_;
};

} // namespace

double degree_cents(const LibraryScale& scale, int number) {
    const auto count = static_cast<int>(scale.degrees.size());
    const int index = (number - 1) % count, periods = (number - 1) / count;
    return scale.degrees[static_cast<std::size_t>(index)] + periods * scale.period;
}

bool progression_known(const LibraryScale& scale) {
    return scale.entry.progression().dominant && scale.entry.progression().direction;
}

double opening_height(const LibraryScale& scale) {
    const Entry& entry = scale.entry;
    if (entry.progression().begins)
        return degree_cents(scale, *entry.progression().begins);
    if (!progression_known(scale))
        return scale.ambitus ? scale.ambitus->middle : unknown_middle;
    const double dominant = degree_cents(scale, *entry.progression().dominant);
    if (entry.progression().direction == Direction::ascending)
        return ascending_opening * dominant;
    return entry.progression().direction == Direction::descending ? scale.period : dominant;
}

double StageTable::at(int height) const {
    const int index = height - first_bin;
    return logs_[static_cast<std::size_t>(
        std::clamp(index, 0, static_cast<int>(logs_.size()) - 1))];
}

StageTables stage_tables(const LibraryScale& scale, const Strengths& strengths) {
    return TableMaker(strengths)(scale);
}

const std::vector<StageTables>& PreparedTables::of(const std::vector<LibraryScale>& scales,
                                                   const Strengths& strengths) {
    Kind& kind = kinds_[static_cast<std::size_t>(strengths.of_what)];
    std::call_once(kind.made, [&] {
        const TableMaker make(strengths);
        for (const LibraryScale& scale : scales)
            kind.tables.push_back(make(scale));
    });
    return kind.tables;
}

} // namespace sectio
