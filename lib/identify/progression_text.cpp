// The evidence of a progression in words.

#include <sectio/identify/progression.hpp>
#include <sectio/page/numbers.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// Evidence of a last note that is taken for the tonic: by ear some 65 cents from it, or an octave.
constexpr double ends_there = -1.1;

/// A note within this many bins of a degree is told as its own.
constexpr int own_bins = 6;

/// "498 cents below the tonic".
std::string from_tonic(double cents) {
    return fmt::format("{:.0f} cents {} the tonic", std::abs(cents),
                       cents < -0.5 ? "below" : "above");
}

double share_at(const StageNotes& stage, const LibraryScale& scale, int height) {
    const int circle = scale.period > 0 ? bin_of(scale.period) : 0;
    double sum = 0;
    for (const Share& s : stage.shares) {
        int away = std::abs(s.bin - height);
        if (circle > 0)
            away = std::min(away % circle, circle - away % circle);
        sum += away < own_bins ? s.share : 0;
    }
    return sum;
}

std::string degree_text(const LibraryScale& scale, int number) {
    const auto& degrees = scale.entry.scale()->degrees;
    const auto index = static_cast<std::size_t>(number - 1) % degrees.size();
    return degrees[index].name.empty() ? fmt::format("degree {}", number)
                                       : fmt::format("degree {}, {}", number, degrees[index].name);
}

std::string opening_text(const Progression& progression, const LibraryScale& scale,
                         double tonic_cents) {
    const double opening = progression.opening_cents - tonic_cents;
    return progression_known(scale) ? fmt::format("{}: the melody opens about {}, {:.0f} expected",
                                                  text(scale.entry.progression().direction),
                                                  from_tonic(opening), opening_height(scale))
                                    : fmt::format("the melody opens about {}", from_tonic(opening));
}

std::string ambitus_text(const Progression& progression, const LibraryScale& scale,
                         double tonic_cents) {
    const auto& shares = progression.by_time.shares;
    return fmt::format("the melody goes from {} to {}; expected: from {} to {} ({})",
                       from_tonic(shares.front().bin * cents_per_bin - tonic_cents),
                       from_tonic(shares.back().bin * cents_per_bin - tonic_cents),
                       from_tonic(scale.ambitus->lowest), from_tonic(scale.ambitus->highest),
                       scale.entry.family());
}

std::string dominant_text(const Progression& progression, const LibraryScale& scale, int tonic) {
    const int number = *scale.entry.progression().dominant;
    const int dominant = tonic + bin_of(degree_cents(scale, number));
    return fmt::format("dominant {}: {:.0f} % of the time, {:.0f} % of the first half closes",
                       degree_text(scale, number),
                       100 * share_at(progression.by_time, scale, dominant),
                       100 * share_at(progression.stage(Stage::half_closes), scale, dominant));
}

} // namespace

std::string in_brackets(double log) {
    return " (" + true_minus(fmt::format("{:+.1f}", log)) + ")";
}

std::vector<std::string> progression_text(const Progression& progression, const LibraryScale& scale,
                                          int tonic, const ProgressionEvidence& evidence) {
    const Entry& entry = scale.entry;
    const double tonic_cents = tonic * cents_per_bin;
    std::vector<std::string> lines;
    const auto add = [&](double log, const std::string& text) {
        lines.push_back(text + in_brackets(log));
    };
    if (progression.in_time)
        add(evidence.final_note, evidence.final_note > ends_there
                                     ? "the melody ends on the tonic"
                                     : "the melody does not end on the tonic");
    if (progression.written && scale.written_tonic)
        add(evidence.place,
            fmt::format("the tonic is {}written as {}",
                        std::abs(tonic - bin_of(*scale.written_tonic)) <= 1 ? "" : "not ",
                        entry.tonic_name()));
    add(evidence.of(Stage::whole),
        fmt::format("the notes, each by {}its duration, against the degrees; mean height {}",
                    progression.in_time && progression.strengths().time_power < 1 ? "the root of "
                                                                                  : "",
                    from_tonic(progression.mean_cents - tonic_cents)));
    if (!progression.in_time)
        return lines;
    add(evidence.of(Stage::beginning),
        "the melody begins about " + from_tonic(progression.beginning_cents - tonic_cents));
    add(evidence.of(Stage::opening), opening_text(progression, scale, tonic_cents));
    if (scale.ambitus)
        lines.push_back(ambitus_text(progression, scale, tonic_cents));
    if (entry.progression().dominant)
        add(evidence.of(Stage::half_closes), dominant_text(progression, scale, tonic));
    add(evidence.of(Stage::close), "the last notes, against a close that comes down to the tonic");
    if (evidence.of(Stage::cadence) != 0)
        add(evidence.of(Stage::cadence), "the notes just before the final");
    return lines;
}

} // namespace sectio
