// The table of docs/measuring.md: made tones, measured by Sectio and, where it is installed, by the
// pitch methods of aubio (aubio.org), each by the median of its frames. By hand:
// build/tests/bench/pitch_study [tones a row]

#include <sectio/base/error.hpp>
#include <sectio/measure/recording.hpp>

#include <fmt/format.h>
#include <support/tones.hpp>

#ifdef SECTIO_AUBIO
#include <aubio/aubio.h>
#endif

#include <algorithm>
#include <chrono>
#include <cmath>
#include <map>
#include <random>

namespace {

using Clock = std::chrono::steady_clock;

struct Condition {
    const char* name;
    double noise_db, fundamental;
};

struct Tally {
    std::vector<double> errors; ///< cents
    int tones = 0, held = 0, octaves = 0, refused = 0;
    double sounded_s = 0, worked_s = 0;

    void add(double hz, double truth, double half_width) {
        const double error = std::abs(1200 * std::log2(hz / truth));
        if (!(error < 100)) {
            ++octaves;
            return;
        }
        errors.push_back(error);
        held += error <= half_width;
    }
    void print(const std::string& condition, const std::string& method) {
        std::sort(errors.begin(), errors.end());
        const std::size_t n = errors.size();
        fmt::print("| {} | {} | {:.4f} | {:.4f} | {:.4f} | {} | {} | {} | {:.0f} |\n", condition,
                   method, n ? errors[n / 2] : 0, n ? errors[n * 95 / 100] : 0,
                   n ? errors[n - 1] : 0, octaves, refused,
                   method == "Sectio"
                       ? fmt::format("{:.1f}", 100.0 * held / std::max(1.0, static_cast<double>(n)))
                       : "",
                   sounded_s / worked_s);
    }
};

support::Tone any_tone(std::mt19937_64& random, const Condition& condition) {
    constexpr double rates[] = {8000, 16000, 22050, 44100, 48000, 96000, 192000};
    std::uniform_real_distribution<double> any(0, 1);
    support::Tone tone;
    tone.rate = rates[random() % std::size(rates)];
    // Where the fundamental is weak, two further partials must lie in the band.
    const double highest = condition.fundamental < 1 ? std::min(1500.0, 0.14 * tone.rate) : 1500.0;
    tone.hz = 30 * std::pow(highest / 30, any(random));
    tone.plucked = random() % 2 == 0;
    tone.inharmonicity = tone.plucked ? std::pow(10, -5 + 2 * any(random)) : 0;
    tone.seconds = 0.6 + 1.4 * any(random);
    tone.noise_db = condition.noise_db;
    tone.fundamental = condition.fundamental;
    return tone;
}

void by_sectio(const support::Tone& tone, const std::vector<float>& sound, Tally& tally) {
    const auto start = Clock::now();
    try {
        const auto recording = sectio::measure::listen(sound, static_cast<int>(tone.rate), "tone");
        const auto& pitch = recording.notes.front().pitch;
        tally.add(pitch.hz, tone.hz, pitch.half_width_cents);
    } catch (const sectio::Error&) {
        ++tally.refused;
    }
    tally.worked_s += std::chrono::duration<double>(Clock::now() - start).count();
}

#ifdef SECTIO_AUBIO
/// Frames of 93 ms or, where that is the method's need, the next power of two above it.
void by_aubio(const char* method, const support::Tone& tone, const std::vector<float>& sound,
              Tally& tally) {
    const auto start = Clock::now();
    uint_t frame = 256;
    while (frame < tone.rate * 0.0929)
        frame *= 2;
    const uint_t hop = frame / 4;
    aubio_pitch_t* pitch = new_aubio_pitch(method, frame, hop, static_cast<uint_t>(tone.rate));
    fvec_t* input = new_fvec(hop);
    fvec_t* output = new_fvec(1);
    std::vector<float> found;
    for (std::size_t at = 0; at + hop <= sound.size(); at += hop) {
        std::copy_n(sound.begin() + static_cast<std::ptrdiff_t>(at), hop, input->data);
        aubio_pitch_do(pitch, input, output);
        if (at >= frame && output->data[0] > 0)
            found.push_back(output->data[0]);
    }
    del_fvec(input), del_fvec(output), del_aubio_pitch(pitch);
    tally.worked_s += std::chrono::duration<double>(Clock::now() - start).count();
    if (found.empty()) {
        ++tally.refused;
        return;
    }
    std::nth_element(found.begin(), found.begin() + static_cast<std::ptrdiff_t>(found.size() / 2),
                     found.end());
    tally.add(static_cast<double>(found[found.size() / 2]), tone.hz, 0);
}
#endif

} // namespace

int main(int count, char** arguments) {
    const int tones = count > 1 ? std::atoi(arguments[1]) : 1700;
    constexpr Condition conditions[] = {{"40 dB", 40, 1},
                                        {"20 dB", 20, 1},
                                        {"10 dB", 10, 1},
                                        {"20 dB, fundamental −30 dB", 20, 0.03},
                                        {"10 dB, fundamental −30 dB", 10, 0.03},
                                        {"20 dB, no fundamental", 20, 0}};
    fmt::print("| noise | method | median | 95 of 100 | worst | octave errors | refused | held, % "
               "| times real time "
               "|\n|---|---|---|---|---|---|---|---|---|\n");
    for (const Condition& condition : conditions) {
        std::mt19937_64 random(20261125);
        std::map<std::string, Tally> tallies;
        for (int i = 0; i < tones; ++i) {
            const support::Tone tone = any_tone(random, condition);
            const std::vector<float> sound = support::tone(tone, random());
            by_sectio(tone, sound, tallies["Sectio"]);
#ifdef SECTIO_AUBIO
            for (const char* method :
                 {"fcomb", "mcomb", "schmitt", "specacf", "yin", "yinfast", "yinfft"})
                if (i % 10 == 0) // these serve for comparison, and yin is slow
                    by_aubio(method, tone, sound, tallies[std::string("aubio ") + method]);
#endif
            for (auto& [name, tally] : tallies)
                if (name == "Sectio" || i % 10 == 0)
                    tally.sounded_s += tone.seconds, ++tally.tones;
        }
        for (auto& [name, tally] : tallies)
            tally.print(condition.name, name);
    }
}
