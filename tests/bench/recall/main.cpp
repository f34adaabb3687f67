// What identification is worth: scales of the catalogue, disturbed, and sets at random. Prints the
// tables of docs/identification-studies.md. `recall [TRIALS]`; the sets are the same in every run.

#include <sectio/identify/identify.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/reading.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <random>

using namespace sectio;

namespace {

class Simulation {
  public:
    explicit Simulation(std::size_t trials) : trials_(trials) {
        for (const LibraryScale& scale : library_.scales())
            if (scale.entry.kind() == EntryKind::scale && scale.entry.scale()->degrees.size() >= 5
                && scale.entry.scale()->degrees.size() <= 12
                && scale.entry.scale()->period == Interval::octave())
                scales_.push_back(&scale);
    }

    void print_recall() {
        fmt::print("{} scales of 5 to 12 degrees among {}, {} trials a figure\n\n", scales_.size(),
                   library_.scales().size(), trials_);
        fmt::print("| tonic | missing | error (sd) | first | among 3 | verdict none |\n"
                   "|---|---:|---:|---:|---:|---:|\n");
        for (const bool known : {true, false})
            for (const std::size_t missing : {0, 1, 2})
                for (const double error : {1.0, 2.0, 5.0, 10.0, 15.0, 20.0})
                    print_row(known, missing, error);
    }

    void print_false_names() {
        fmt::print("\n| pitches | tonic | named (fits) | ambiguous | none |\n"
                   "|---:|---|---:|---:|---:|\n");
        for (const std::size_t pitches : {4, 5, 7, 12})
            for (const bool known : {true, false}) {
                std::size_t counts[3] = {};
                for (std::size_t i = 0; i < trials_; ++i)
                    ++counts[static_cast<std::size_t>(
                        identify(random_set(pitches), library_, options(known)).verdict)];
                fmt::print("| {} | {} | {} | {} | {} |\n", pitches, known ? "known" : "unknown",
                           percent(counts[0]), percent(counts[1]), percent(counts[2]));
            }
    }

  private:
    static IdentifyOptions options(bool known) {
        IdentifyOptions options;
        options.tonic.kind = known ? KnownTonic::Kind::known : KnownTonic::Kind::free;
        options.show = 60;
        return options;
    }

    std::string percent(std::size_t count) const {
        return fmt::format("{:.1f} %",
                           100 * static_cast<double>(count) / static_cast<double>(trials_));
    }

    double normal(double sd) { return std::normal_distribution<double>(0, sd)(random_); }

    static WeightedPitch at(double cents) {
        return {Interval::from_cents(Rational(Integer(std::lround(cents * 100)), Integer(100))),
                Rational(1), false, std::nullopt};
    }

    /// The scale with errors, some degrees left out. With an unknown tonic it is transposed, its
    /// pitches are shuffled and strewn over three octaves.
    Melody disturbed(const LibraryScale& scale, bool known, std::size_t missing, double error) {
        std::vector<double> cents(scale.degrees.begin() + 1, scale.degrees.end());
        std::shuffle(cents.begin(), cents.end(), random_);
        cents.resize(cents.size() - missing);
        cents.insert(cents.begin(), 0);
        for (double& c : cents)
            c += normal(error) + (known ? 0 : 1200.0 * static_cast<double>(random_() % 3) + 345.6);
        if (!known)
            std::shuffle(cents.begin(), cents.end(), random_);
        Melody melody;
        for (const double c : cents)
            melody.notes.push_back(at(c));
        if (known)
            melody.notes.front() = at(0);
        return melody;
    }

    Melody random_set(std::size_t pitches) {
        Melody melody;
        for (std::size_t i = 0; i < pitches; ++i)
            melody.notes.push_back(
                at(i == 0 ? 0 : std::uniform_real_distribution<double>(0, 1200)(random_)));
        return melody;
    }

    /// Scales of the very same pitches count as one; with an unknown tonic so do rotations.
    static bool same(const Candidate& c, const LibraryScale& truth, bool known) {
        const Scale& scale = *truth.entry.scale();
        const std::size_t rotations = known ? 1 : scale.degrees.size();
        for (std::size_t shift = 0; shift < rotations; ++shift)
            if (same_pitches(scale, shift, *c.scale->entry.scale()))
                return true;
        return false;
    }

    /// Place of the truth among the different sets of pitches, from 1; 0 where it is not listed.
    static std::size_t place(const Identification& answer, const LibraryScale& truth, bool known) {
        std::vector<const LibraryScale*> sets;
        for (const Candidate& c : answer.candidates) {
            if (same(c, truth, known))
                return sets.size() + 1;
            if (std::none_of(sets.begin(), sets.end(),
                             [&](const LibraryScale* s) { return same(c, *s, known); }))
                sets.push_back(c.scale);
        }
        return 0;
    }

    void print_row(bool known, std::size_t missing, double error) {
        std::size_t first = 0, among_three = 0, none = 0;
        for (std::size_t i = 0; i < trials_; ++i) {
            const LibraryScale& truth = *scales_[random_() % scales_.size()];
            const Identification answer =
                identify(disturbed(truth, known, missing, error), library_, options(known));
            const std::size_t found = place(answer, truth, known);
            first += found == 1 ? 1 : 0;
            among_three += found >= 1 && found <= 3 ? 1 : 0;
            none += answer.verdict == Verdict::none ? 1 : 0;
        }
        fmt::print("| {} | {} | {:.0f} c | {} | {} | {} |\n", known ? "known" : "unknown", missing,
                   error, percent(first), percent(among_three), percent(none));
    }

    const ScaleLibrary& library_ = ScaleLibrary::installed();
    std::vector<const LibraryScale*> scales_;
    std::mt19937 random_{2};
    std::size_t trials_;
};

} // namespace

int main(int argc, char** argv) {
    Simulation simulation(argc > 1 ? std::strtoul(argv[1], nullptr, 10) : 500);
    simulation.print_recall();
    simulation.print_false_names();
}
