// What theory makes of a course: the likelihoods. docs/identification.md gives the reasons.

#include <sectio/identify/cents.hpp>
#include <sectio/identify/course.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sectio {

namespace {

// Pitches. A note lies about its degree by one of two spreads in cents, each in half of the cases:
// that of careful intonation, and that of a degree that practice places about a comma elsewhere.
constexpr double near_spread = 10, far_spread = 25;
constexpr double reach = 100;
/// Share of notes that belong to no degree: passing modulations and chromatic turns.
constexpr double stray = 0.06;
// How much time a degree gets, in units of an ordinary one. The dominant is the second important
// note of a makam after its tonic.
constexpr double tonic_time = 2, dominant_time = 2, second_time = 1.5, mobile_time = 0.5;
// The same for the notes that phrases end on: the full close is on the tonic, the half close on the
// dominant.
constexpr double tonic_rest = 4, dominant_rest = 4, second_rest = 2;
// Notes of a melody depend on one another: four count as one, and not more than these count at all.
constexpr double notes_for_one = 4, most_notes = 40, most_rests = 12;

// The final note is the tonic but for scores that do not print their course to its end.
constexpr double final_is_tonic = 0.99;
// A tonic stands where the theory names it, an octave from there, or anywhere in a transposition.
constexpr double at_named_place = 0.9, octave_away = 0.05, anywhere = 0.05;
constexpr double place_tolerance = 30;
/// Probability that a melody written in commas is of a scale that theory does not count in commas.
constexpr double foreign_to_commas = 0.02;

// Registers: the beginning and the mean height are spread this much, in cents, about what the
// direction asks for; a tenth of the melodies begin anywhere in two octaves.
constexpr double beginning_spread = 300, mean_spread = 250;
constexpr double free_beginning = 0.1, free_range = 2400;
/// Where nothing is known of a course: log of the density over four thirds of an octave.
const double unknown_register = -std::log(1600.0);

/// Factor for scales that are named among the most used of their tradition.
constexpr double common_factor = 3;

double normal(double x, double spread) {
    return std::exp(-x * x / (2 * spread * spread)) / (spread * std::sqrt(2 * std::numbers::pi));
}

double kernel(double x) {
    return 0.5 * normal(x, near_spread) + 0.5 * normal(x, far_spread);
}

/// Distance on the circle of the scale's period.
double distance(const LibraryScale& scale, double x) {
    if (scale.period <= 0)
        return std::abs(x);
    return std::abs(std::remainder(x, scale.period));
}

struct Emphasis {
    double tonic, dominant, second, mobile;
};

/// Degree `number` (1 is the tonic, 8 the octave of seven degrees) in cents above the tonic.
double degree_cents(const LibraryScale& scale, int number) {
    const auto count = static_cast<int>(scale.degrees.size());
    const int index = (number - 1) % count, periods = (number - 1) / count;
    return scale.degrees[static_cast<std::size_t>(index)] + periods * scale.period;
}

/// Degrees and admitted notes with their shares, which add up to 1.
std::vector<Share> emphasised(const LibraryScale& scale, const Emphasis& emphasis) {
    const Entry& entry = scale.entry;
    std::vector<Share> shares;
    for (const double degree : scale.degrees)
        shares.push_back({degree, 1});
    const auto emphasise = [&](std::optional<int> number, double amount) {
        if (!number)
            return;
        const auto index = static_cast<std::size_t>(*number - 1) % shares.size();
        if (index != 0)
            shares[index].share = std::max(shares[index].share, amount);
    };
    shares.front().share = emphasis.tonic;
    emphasise(entry.dominant, emphasis.dominant);
    emphasise(entry.second_dominant, emphasis.second);
    for (const Interval& interval : entry.mobile)
        shares.push_back({cents_of(interval), emphasis.mobile});
    double sum = 0;
    for (const Share& s : shares)
        sum += s.share;
    for (Share& s : shares)
        s.share /= sum;
    return shares;
}

/// Mean log of the density of `notes` under the scale, against an even one over the period, or over
/// the melody's `range` where the scale does not repeat.
double mean_log_ratio(const std::vector<Share>& notes, const LibraryScale& scale, double tonic,
                      double range, const Emphasis& emphasis) {
    const std::vector<Share> degrees = emphasised(scale, emphasis);
    const double circle = scale.period > 0 ? scale.period : std::max(1200.0, range);
    double sum = 0;
    for (const Share& note : notes) {
        double density = 0;
        for (const Share& degree : degrees)
            if (const double d = distance(scale, note.cents - tonic - degree.cents); d < reach)
                density += degree.share * kernel(d);
        sum += note.share * std::log((1 - stray) * density * circle + stray);
    }
    return sum;
}

double range_of(const Course& course) {
    return course.pitches.back().cents - course.pitches.front().cents;
}

double counted_notes(const Course& course) {
    return course.in_time ? std::min(course.notes / notes_for_one, most_notes) : most_notes / 2;
}

double counted_rests(const Course& course) {
    return std::min(course.resting_notes, most_rests);
}

double place_evidence(const Course& course, const LibraryScale& scale, double tonic) {
    if (!course.written)
        return 0;
    const double commas = 53;
    double log = -std::log(commas); // any of the 53 places
    if (scale.written_tonic) {
        const double away = tonic - *scale.written_tonic;
        if (std::abs(away) < place_tolerance)
            log = std::log(at_named_place);
        else if (std::abs(std::remainder(away, 1200)) < place_tolerance)
            log = std::log(octave_away);
        else
            log = std::log(anywhere / commas);
    }
    if (course.in_commas && !scale.in_commas)
        log += std::log(foreign_to_commas);
    return log;
}

double final_evidence(const Course& course, double tonic) {
    if (!course.in_time)
        return 0;
    const auto others = std::max(1.0, static_cast<double>(course.pitches.size()) - 1);
    return std::log(std::abs(course.final_cents - tonic) < place_tolerance
                        ? final_is_tonic
                        : (1 - final_is_tonic) / others);
}

/// Where the course begins, above the tonic: about the tonic and the way to the dominant where it
/// ascends, about the dominant where it ascends and descends, about the octave where it descends.
std::optional<double> expected_beginning(const LibraryScale& scale) {
    const Entry& entry = scale.entry;
    if (entry.begins)
        return degree_cents(scale, *entry.begins);
    if (!entry.dominant || entry.direction.empty())
        return std::nullopt;
    const double dominant = degree_cents(scale, *entry.dominant);
    if (entry.direction == "ascending")
        return dominant / 2;
    return entry.direction == "descending" ? scale.period : dominant;
}

/// Mean height of all: between tonic and dominant, about the dominant, or between the lower
/// dominant and the octave.
std::optional<double> expected_mean(const LibraryScale& scale) {
    const Entry& entry = scale.entry;
    if (!entry.dominant || entry.direction.empty())
        return std::nullopt;
    const double dominant = degree_cents(scale, *entry.dominant);
    if (entry.direction == "ascending")
        return 0.75 * dominant;
    if (entry.direction != "descending")
        return dominant;
    const double lower =
        entry.second_dominant ? degree_cents(scale, *entry.second_dominant) : scale.period / 2;
    return (scale.period + lower) / 2;
}

double register_evidence(std::optional<double> expected, double found, double spread) {
    if (!expected)
        return unknown_register;
    return std::log((1 - free_beginning) * normal(found - *expected, spread)
                    + free_beginning / free_range);
}

constexpr Emphasis time_emphasis{tonic_time, dominant_time, second_time, mobile_time};
constexpr Emphasis rest_emphasis{tonic_rest, dominant_rest, second_rest, mobile_time};

double log_binomial(double n, double k) {
    return std::lgamma(n + 1) - std::lgamma(k + 1) - std::lgamma(n - k + 1);
}

double share_at(const std::vector<Share>& shares, const LibraryScale& scale, double cents) {
    double sum = 0;
    for (const Share& s : shares)
        if (distance(scale, s.cents - cents) < place_tolerance)
            sum += s.share;
    return sum;
}

std::string degree_text(const LibraryScale& scale, int number) {
    const auto& degrees = scale.entry.scale->degrees;
    const auto index = static_cast<std::size_t>(number - 1) % degrees.size();
    return degrees[index].name.empty() ? fmt::format("degree {}", number)
                                       : fmt::format("degree {}, {}", number, degrees[index].name);
}

} // namespace

CourseEvidence course_evidence(const Course& course, const LibraryScale& scale, double tonic) {
    CourseEvidence evidence;
    evidence.place = place_evidence(course, scale, tonic);
    evidence.final_note = final_evidence(course, tonic);
    evidence.pitches =
        counted_notes(course)
        * mean_log_ratio(course.pitches, scale, tonic, range_of(course), time_emphasis);
    evidence.prior = scale.entry.common ? std::log(common_factor) : 0;
    if (!course.in_time)
        return evidence;
    evidence.rests = counted_rests(course)
                     * mean_log_ratio(course.rests, scale, tonic, range_of(course), rest_emphasis);
    evidence.beginning = register_evidence(expected_beginning(scale),
                                           course.beginning_cents - tonic, beginning_spread);
    evidence.mean = register_evidence(expected_mean(scale), course.mean_cents - tonic, mean_spread);
    return evidence;
}

double unknown_scale_evidence(const Course& course) {
    constexpr double places = 53, least_share = 0.02;
    // An unknown scale has a degree wherever the melody has a pitch of some weight; which of the
    // 53 places those are had to be chosen.
    LibraryScale unknown;
    unknown.period = 1200;
    for (const Share& pitch : course.pitches)
        if (pitch.share >= least_share) {
            const double cents = pitch.cents - 1200 * std::floor(pitch.cents / 1200);
            if (std::none_of(unknown.degrees.begin(), unknown.degrees.end(),
                             [&](double d) { return distance(unknown, d - cents) < 1; }))
                unknown.degrees.push_back(cents);
        }
    if (unknown.degrees.empty())
        unknown.degrees.push_back(0);
    std::sort(unknown.degrees.begin(), unknown.degrees.end());
    const auto count = static_cast<double>(unknown.degrees.size());
    const double registers = course.in_time ? 2 * unknown_register : 0;
    const double place = course.written ? -std::log(places) : 0;
    return -log_binomial(places, std::min(count, places)) + registers + place
           + counted_notes(course) * mean_log_ratio(course.pitches, unknown, 0, 0, {1, 1, 1, 1})
           + counted_rests(course) * mean_log_ratio(course.rests, unknown, 0, 0, {1, 1, 1, 1});
}

std::vector<std::string> course_text(const Course& course, const LibraryScale& scale, double tonic,
                                     const CourseEvidence& evidence) {
    const Entry& entry = scale.entry;
    std::vector<std::string> lines;
    const auto add = [&](double log, const std::string& text) {
        lines.push_back(fmt::format("{} ({:+.1f})", text, log));
    };
    if (course.in_time)
        add(evidence.final_note, std::abs(course.final_cents - tonic) < place_tolerance
                                     ? "the melody ends on the tonic"
                                     : "the melody does not end on the tonic");
    if (course.written && scale.written_tonic)
        add(evidence.place, evidence.place > std::log(octave_away) - 0.01
                                ? fmt::format("the tonic is written as {}", entry.tonic_name)
                                : fmt::format("the tonic is not written as {}", entry.tonic_name));
    add(evidence.pitches, "the pitches, each by its duration, against the degrees");
    if (entry.dominant)
        add(evidence.rests,
            fmt::format(
                "dominant {}: {:.0f} % of the time, {:.0f} % of the long notes and ends",
                degree_text(scale, *entry.dominant),
                100 * share_at(course.pitches, scale, tonic + degree_cents(scale, *entry.dominant)),
                100 * share_at(course.rests, scale, tonic + degree_cents(scale, *entry.dominant))));
    if (const auto expected = expected_beginning(scale); expected && course.in_time)
        add(evidence.beginning,
            fmt::format("{}: begins about {:.0f} cents above the tonic, {:.0f} expected",
                        entry.direction.empty() ? "course" : entry.direction,
                        course.beginning_cents - tonic, *expected));
    if (const auto expected = expected_mean(scale); expected && course.in_time)
        add(evidence.mean, fmt::format("mean height {:.0f} cents above the tonic, {:.0f} expected",
                                       course.mean_cents - tonic, *expected));
    return lines;
}

} // namespace sectio
