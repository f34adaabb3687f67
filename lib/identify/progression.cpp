#include <sectio/identify/cents.hpp>
#include <sectio/identify/heard.hpp>
#include <sectio/identify/progression.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace sectio {

namespace {

/// A long note is at least twice the usual one and among the longest 15 of 100.
constexpr double long_factor = 2, long_quantile = 0.85;
/// Shares of the time: the progression begins and opens in the first ones, half closes are looked
/// for in the third, and the close is the last part.
constexpr double beginning_part = 0.05, opening_part = 0.28, half_close_part = 0.56,
                 close_part = 0.1;
/// Notes before the final that are the cadence.
constexpr std::size_t cadence_notes = 10;
/// Heights of at least this share of the time may be the tonic.
constexpr double least_tonic_share = 0.03, least_peak_share = 0.02;
/// A peak of what was heard stands above its neighbours within this many bins, smoothed by as many.
constexpr int peak_reach = 6, smoothing = 4;

/// Adds up a stage.
class Notes {
  public:
    void add(int bin, double amount) {
        shares_[bin] += amount;
        total_ += amount;
        ++notes_;
    }
    StageNotes normalised() const {
        StageNotes stage;
        stage.notes = notes_;
        for (const auto& [bin, amount] : shares_)
            stage.shares.push_back({bin, amount / total_});
        return stage;
    }

  private:
    std::map<int, double> shares_;
    double total_ = 0, notes_ = 0;
};

/// From which weight on a note counts as long.
double long_weight(const Melody& melody) {
    std::vector<double> weights;
    for (const WeightedPitch& note : melody.notes)
        weights.push_back(weight_of(note));
    std::sort(weights.begin(), weights.end());
    const auto at = [&](double q) {
        return weights[static_cast<std::size_t>(q * static_cast<double>(weights.size()))];
    };
    return std::max(at(long_quantile), long_factor * at(0.5));
}

double total_weight(const Melody& melody) {
    double total = 0;
    for (const WeightedPitch& note : melody.notes)
        total += weight_of(note);
    return total;
}

double mean_cents(const StageNotes& stage) {
    double sum = 0;
    for (const Share& s : stage.shares)
        sum += s.share * s.bin * cents_per_bin;
    return sum;
}

/// Which stages a note belongs to that begins at this share of the time, with so many after it.
std::array<bool, stage_count> stages_of(const WeightedPitch& note, double begins, double long_from,
                                        std::size_t after) {
    std::array<bool, stage_count> in{};
    const auto set = [&](Stage s, bool is) { in[static_cast<std::size_t>(s)] = is; };
    set(Stage::whole, true);
    set(Stage::beginning, begins < beginning_part);
    set(Stage::opening, begins < opening_part);
    set(Stage::half_closes,
        begins < half_close_part && (note.ends_phrase || weight_of(note) >= long_from));
    set(Stage::close, begins >= 1 - close_part);
    set(Stage::cadence, after > 0 && after <= cadence_notes);
    return in;
}

/// The stages after the whole, each by where its notes begin.
void add_stages(Progression& progression, const Melody& melody) {
    const double total = total_weight(melody), long_from = long_weight(melody);
    std::array<Notes, stage_count> stages;
    double time = 0;
    std::size_t left = melody.notes.size();
    for (const WeightedPitch& note : melody.notes) {
        const double weight = weight_of(note);
        progression.notes.push_back({bin_of(cents_of(note.interval)),
                                     stages_of(note, time / total, long_from, --left), note.bar});
        const ProgressionNote& last = progression.notes.back();
        for (std::size_t s = 1; s < stage_count; ++s) // the whole stands already
            if (last.in[s])
                stages[s].add(last.bin, static_cast<Stage>(s) == Stage::half_closes ? 1 : weight);
        time += weight;
    }
    for (std::size_t s = 1; s < stage_count; ++s)
        progression.stages[s] = stages[s].normalised();
    progression.final_bin = progression.notes.back().bin;
    progression.beginning_cents = mean_cents(progression.stage(Stage::beginning));
    progression.opening_cents = mean_cents(progression.stage(Stage::opening));
}

/// The time at each height, smoothed, from the lowest height less a margin.
std::vector<double> smoothed(const std::vector<Share>& shares, int from, int to) {
    std::vector<double> time(static_cast<std::size_t>(to - from + 1), 0.0);
    for (const Share& s : shares)
        for (int d = -smoothing; d <= smoothing; ++d)
            time[static_cast<std::size_t>(s.bin + d - from)] +=
                s.share * std::exp(-2.0 * d * d / (smoothing * smoothing));
    return time;
}

} // namespace

int bin_of(double cents) {
    return static_cast<int>(std::lround(cents / cents_per_bin));
}

std::vector<int> peaks(const std::vector<Share>& shares) {
    const int margin = smoothing + peak_reach;
    const int from = shares.front().bin - margin, to = shares.back().bin + margin;
    const std::vector<double> time = smoothed(shares, from, to);
    std::vector<int> found;
    for (int bin = from + peak_reach; bin <= to - peak_reach; ++bin) {
        const auto at = time.begin() + (bin - from);
        if (*at >= least_peak_share && std::max_element(at - peak_reach, at + peak_reach + 1) == at)
            found.push_back(bin);
    }
    return found;
}

bool counted_in(const Melody& melody, int steps) {
    return std::all_of(melody.notes.begin(), melody.notes.end(), [&](const WeightedPitch& n) {
        const auto cents = n.interval.exact_cents();
        return cents && (*cents * Integer(steps) / Integer(1200)).denominator() == 1;
    });
}

Progression progression_of(const Melody& melody) {
    Progression progression;
    progression.written = melody.zero == MelodyZero::written;
    const bool semitones = counted_in(melody, 12);
    progression.in_commas = !semitones && counted_in(melody, 53);
    progression.in_twelve = semitones && progression.written;
    progression.in_time = melody.in_time;
    progression.heard = is_heard(melody);
    Notes by_time, whole;
    const double power = melody.in_time ? progression.strengths().time_power : 1;
    for (const WeightedPitch& note : melody.notes) {
        const int bin = bin_of(cents_of(note.interval));
        by_time.add(bin, weight_of(note));
        whole.add(bin, std::pow(weight_of(note), power));
    }
    progression.by_time = by_time.normalised();
    progression.stages[static_cast<std::size_t>(Stage::whole)] = whole.normalised();
    progression.mean_cents = mean_cents(progression.by_time);
    if (melody.in_time)
        add_stages(progression, melody);
    return progression;
}

std::vector<int> possible_tonics(const Progression& progression) {
    const auto& shares = progression.by_time.shares;
    std::vector<int> tonics;
    if (progression.heard)
        tonics = peaks(shares);
    else
        for (const Share& s : shares)
            if (s.share >= least_tonic_share)
                tonics.push_back(s.bin);
    if (progression.in_time
        && std::find(tonics.begin(), tonics.end(), progression.final_bin) == tonics.end())
        tonics.push_back(progression.final_bin);
    return tonics;
}

} // namespace sectio
