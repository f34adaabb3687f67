// The table of docs/measuring-studies.md: made tones, measured by Sectio and, where it is
// installed, by the pitch methods of aubio (aubio.org), each by the median of its frames. By hand:
//
//   build/tests/bench/pitch_study 1700 0/12 > part0     # tones a row; the part of how many
//   build/tests/bench/pitch_study table part*           # all parts as one table
//
// A tone depends on its row and number alone, so that parts may run at any time and in any order.

#include "outcomes.hpp"

#include <sectio/base/error.hpp>
#include <sectio/measure/recording.hpp>

#include <fmt/format.h>
#include <support/tones.hpp>

#ifdef SECTIO_AUBIO
#include <aubio/aubio.h>
#endif

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <random>
#include <string_view>

namespace {

using pitch_study::Outcome;

struct Condition {
    const char* name;
    double noise_db, fundamental;
};

constexpr Condition conditions[] = {{"40 dB", 40, 1},
                                    {"20 dB", 20, 1},
                                    {"10 dB", 10, 1},
                                    {"20 dB, fundamental −30 dB", 20, 0.03},
                                    {"10 dB, fundamental −30 dB", 10, 0.03},
                                    {"20 dB, no fundamental", 20, 0}};

/// The other methods serve for comparison, and yin is slow.
constexpr int compared = 10;

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

/// Of the processor, which other work on the machine hardly lengthens.
double seconds_since(std::clock_t start) {
    return static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
}

Outcome by_sectio(const support::Tone& tone, const std::vector<float>& sound) {
    Outcome outcome{.method = "Sectio"};
    const std::clock_t start = std::clock();
    try {
        const auto recording = sectio::measure::listen(sound, static_cast<int>(tone.rate), "tone");
        const auto& pitch = recording.notes.front().pitch;
        outcome.error_cents = 1200 * std::log2(pitch.hz / tone.hz);
        outcome.half_width_cents = pitch.half_width_cents;
        outcome.notes = static_cast<int>(recording.notes.size());
    } catch (const sectio::Error&) {
        outcome.notes = 0;
    }
    outcome.worked_s = seconds_since(start);
    return outcome;
}

#ifdef SECTIO_AUBIO
/// The pitch of every frame after the first, whose memory is not full yet.
std::vector<float> frames_by_aubio(const char* method, const support::Tone& tone,
                                   const std::vector<float>& sound) {
    // Frames of 93 ms or, where that is the method's need, the next power of two above it.
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
    return found;
}

Outcome by_aubio(const char* method, const support::Tone& tone, const std::vector<float>& sound) {
    Outcome outcome{.method = std::string("aubio ") + method};
    const std::clock_t start = std::clock();
    std::vector<float> found = frames_by_aubio(method, tone, sound);
    outcome.notes = found.empty() ? 0 : 1;
    if (!found.empty()) {
        const auto middle = found.begin() + static_cast<std::ptrdiff_t>(found.size() / 2);
        std::nth_element(found.begin(), middle, found.end());
        outcome.error_cents = 1200 * std::log2(static_cast<double>(*middle) / tone.hz);
    }
    outcome.worked_s = seconds_since(start);
    return outcome;
}
#endif

void study_tone(const Condition& condition, int number) {
    std::seed_seq seed{20261125, static_cast<int>(&condition - conditions), number};
    std::mt19937_64 random(seed);
    const support::Tone tone = any_tone(random, condition);
    const std::vector<float> sound = support::tone(tone, random());
    const auto write = [&](Outcome outcome) {
        outcome.condition = condition.name;
        outcome.tone = fmt::format("{} {}", condition.name, number);
        outcome.about = fmt::format("{:.3f} Hz, B {:.2e}, {:.2f} s at {:.0f}", tone.hz,
                                    tone.inharmonicity, tone.seconds, tone.rate);
        outcome.sounded_s = tone.seconds;
        fmt::print("{}\n", to_line(outcome));
    };
    write(by_sectio(tone, sound));
#ifdef SECTIO_AUBIO
    if (number % compared == 0)
        for (const char* method :
             {"fcomb", "mcomb", "schmitt", "specacf", "yin", "yinfast", "yinfft"})
            write(by_aubio(method, tone, sound));
#endif
    std::fflush(stdout);
}

} // namespace

int main(int count, char** arguments) {
    if (count > 1 && std::string_view(arguments[1]) == "table") {
        fmt::print("{}", pitch_study::table({arguments + 2, arguments + count}));
        return 0;
    }
    const int tones = count > 1 ? std::atoi(arguments[1]) : 1700;
    int part = 0, parts = 1;
    if (count > 2 && std::sscanf(arguments[2], "%d/%d", &part, &parts) != 2)
        return 2;
    // Tens of tones go round the parts, so that each has its share of those compared.
    for (const Condition& condition : conditions)
        for (int i = 0; i < tones; ++i)
            if (i / compared % parts == part)
                study_tone(condition, i);
}
