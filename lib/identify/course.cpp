#include <sectio/identify/cents.hpp>
#include <sectio/identify/course.hpp>

#include <algorithm>
#include <cmath>
#include <map>

namespace sectio {

namespace {

/// The beginning is the first notes that fill this share of the whole duration: one or two phrases
/// of a song of four lines with repeats.
constexpr double beginning_share = 0.06;
/// A long note is at least twice the usual one and among the longest 15 of 100.
constexpr double long_factor = 2, long_quantile = 0.85;

double weight_of(const WeightedPitch& note) {
    return boost::rational_cast<double>(note.weight);
}

bool is_multiple(const Interval& interval, int steps) {
    const auto cents = interval.exact_cents();
    return cents && (*cents * Integer(steps) / Integer(1200)).denominator() == 1;
}

bool counted_in_commas(const Melody& melody) {
    const auto all = [&](int steps) {
        return std::all_of(melody.notes.begin(), melody.notes.end(),
                           [&](const WeightedPitch& n) { return is_multiple(n.interval, steps); });
    };
    return all(53) && !all(12);
}

/// Shares of the different pitches, rising.
class Shares {
  public:
    void add(double cents, double amount) {
        // Equal intervals have equal estimates; what differs by less than a thousandth of a cent
        // is one pitch to the statistics.
        const long key = std::lround(cents * 1000);
        auto& share = shares_[key];
        share.cents = cents;
        share.share += amount;
        total_ += amount;
    }
    std::vector<Share> normalised() const {
        std::vector<Share> all;
        for (const auto& [key, share] : shares_)
            all.push_back({share.cents, share.share / total_});
        return all;
    }
    double total() const { return total_; }

  private:
    std::map<long, Share> shares_;
    double total_ = 0;
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

void add_times(Course& course, const Melody& melody, double total) {
    Shares rests;
    const double long_from = long_weight(melody);
    double time = 0, moment = 0, early_time = 0, early_moment = 0;
    for (const WeightedPitch& note : melody.notes) {
        const double cents = cents_of(note.interval), weight = weight_of(note);
        if (note.ends_phrase || weight >= long_from)
            rests.add(cents, 1);
        time += weight;
        moment += weight * cents;
        if (early_time < beginning_share * total) {
            early_time += weight;
            early_moment += weight * cents;
        }
    }
    course.rests = rests.normalised();
    course.resting_notes = rests.total();
    course.mean_cents = moment / time;
    course.beginning_cents = early_moment / early_time;
    course.final_cents = cents_of(melody.notes.back().interval);
}

} // namespace

Course course_of(const Melody& melody) {
    Course course;
    Shares pitches;
    for (const WeightedPitch& note : melody.notes)
        pitches.add(cents_of(note.interval), weight_of(note));
    course.pitches = pitches.normalised();
    course.notes = static_cast<double>(melody.notes.size());
    course.written = melody.zero == MelodyZero::written;
    course.in_commas = counted_in_commas(melody);
    course.in_time = melody.in_time;
    if (melody.in_time)
        add_times(course, melody, pitches.total());
    return course;
}

} // namespace sectio
