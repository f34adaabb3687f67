#include <sectio/base/each_processor.hpp>
#include <sectio/identify/fit.hpp>
#include <sectio/identify/fit_lanes.hpp>

#include <algorithm>
#include <bit>
#include <cmath>
#include <cstring>
#include <numbers>

namespace sectio {

namespace {

constexpr std::size_t word_bits = 64;
/// e^-80 of the core is nothing beside the outliers, nor beside what pulls elsewhere.
constexpr double nothing = -80;
/// So many likelihoods are multiplied before their logarithm is taken: each lies between the share
/// of the outliers and some millions.
constexpr std::size_t multiplied = 16;
/// After so many pitches the quick score asks whether the rest is worth while.
constexpr std::size_t looked_at_once = 3;

/// Lanes that the compiler holds in registers.
using Wide [[gnu::vector_size(sizeof(Lanes))]] = double;
using WideInt [[gnu::vector_size(lanes * sizeof(int))]] = int;
using WideBits [[gnu::vector_size(sizeof(Lanes))]] = std::uint64_t;

/// By reference: of vectors that functions return -Wpsabi warns.
[[gnu::always_inline]] inline void load(const Lanes& from, Wide& to) {
    std::memcpy(&to, &from, sizeof to);
}

/// e^x for x from -80 to 0, within 1e-14 of itself: with x = k ln 2 + r the series of e^r up to
/// r^11, whose rest is below r^12/12! = 6.3e-15 for |r| <= ln 2 / 2, times 2^k.
[[gnu::always_inline]] inline void quick_exp(Wide& x) {
    constexpr double to_whole = 0x1.8p52; // added, it leaves a whole number in the last bits
    constexpr double ln2_high = 0x1.62e42fefap-1, ln2_low = 0x1.cf79abc9e3b3ap-40;
    const Wide shifted = x * std::numbers::log2e + to_whole, k = shifted - to_whole;
    const Wide r = (x - k * ln2_high) - k * ln2_low;
    Wide sum = Wide{} + 1 / 39916800.0;
    for (const double factorial :
         {3628800.0, 362880.0, 40320.0, 5040.0, 720.0, 120.0, 24.0, 6.0, 2.0, 1.0, 1.0})
        sum = sum * r + 1 / factorial;
    x = reinterpret_cast<Wide>(reinterpret_cast<WideBits>(sum)
                               + (reinterpret_cast<WideBits>(shifted) << 52));
}

/// Where shifts move a pitch nearer to another degree, its deviation from that.
void look_up(const LibraryScale& scale, double cents, const LibraryScale::Held& held,
             const Lanes& shifts, Lanes& above, std::array<std::size_t, lanes>& degrees) {
    for (std::size_t lane = 0; lane < lanes; ++lane) {
        const double within = cents - held.periods - shifts[lane];
        if (within > held.low && within < held.high)
            continue;
        const LibraryScale::Nearest near = scale.nearest(cents - shifts[lane]);
        above[lane] = near.above;
        degrees[lane] = near.degree;
    }
}

/// What pitches come to, in registers.
struct WideTotals {
    Wide product = Wide{} + 1.0, logs{}, pull{}, precision{};
};

/// Adds one pitch but for its likelihoods, which it gives with the responsibilities.
[[gnu::always_inline]] inline void add(const LanePitch& pitch, const Lanes& pitch_peaks,
                                       const Wide& above, Wide& likelihood, Wide& share,
                                       WideTotals& totals) {
    Wide precision, peaks;
    load(pitch.precision, precision);
    load(pitch_peaks, peaks);
    const Wide exponent = above * above * precision * -0.5;
    Wide core = exponent < nothing ? Wide{} + nothing : exponent;
    quick_exp(core);
    core = exponent < nothing ? Wide{} : peaks * core;
    likelihood = core + model::stray;
    share = core / likelihood;
    const Wide part = pitch.weight * share * precision;
    totals.pull += part * above;
    totals.precision += part;
}

[[gnu::always_inline]] inline void add_logs(double weight, const Wide& of, Wide& logs) {
    for (std::size_t lane = 0; lane < lanes; ++lane)
        logs[lane] += weight * std::log(of[lane]);
}

/// Of a pitch that is not one, nor one of few, the logarithm is taken.
[[gnu::always_inline]] inline void multiply(double weight, bool last, const Wide& likelihood,
                                            WideTotals& totals) {
    if (weight == 1)
        totals.product *= likelihood;
    else
        add_logs(weight, likelihood, totals.logs);
    if (last) {
        add_logs(1, totals.product, totals.logs);
        totals.product = Wide{} + 1.0;
    }
}

std::uint64_t bit_of(std::size_t degree) {
    return std::uint64_t{1} << (degree % word_bits);
}

/// Of what is not negative.
[[gnu::always_inline]] inline void cut(Wide& cents) {
    cents = __builtin_convertvector(__builtin_convertvector(cents, WideInt), Wide);
}

/// How far the pitch, in whole cents, lies from the nearest degree at each shift, rounded.
[[gnu::always_inline]] inline void distances(const LibraryScale& scale, double pitch,
                                             const Wide& shifts, Wide& distance) {
    constexpr std::uint64_t sign = std::uint64_t{1} << 63;
    const double again = scale.period > 0 ? scale.period : HUGE_VAL;
    Wide at = pitch - scale.begin - shifts;
    at = at < 0.0 ? at + scale.period : at;
    cut(at);
    at += scale.begin;
    distance = again - at;
    for (const double degree : scale.degrees) {
        const Wide above = at - degree;
        const Wide away = reinterpret_cast<Wide>(reinterpret_cast<WideBits>(above) & ~sign);
        distance = away < distance ? away : distance;
    }
    distance += 0.5;
    cut(distance);
}

} // namespace

SECTIO_FOR_EACH_PROCESSOR
void add_gains(const LibraryScale& scale, const std::vector<QuickPitch>& pitches, double peak,
               const Lanes& shifts, double least, Lanes& score, Lanes& matched) {
    Wide places;
    load(shifts, places);
    Wide sum{}, count{};
    for (std::size_t i = 0; i < pitches.size(); ++i) {
        const QuickPitch& pitch = pitches[i];
        Wide distance;
        distances(scale, pitch.at, places, distance);
        const Wide gained = peak - distance * distance * pitch.sharpness;
        sum += gained > 0.0 ? pitch.weight * gained : Wide{};
        count += gained > 0.0 ? Wide{} + 1.0 : Wide{};
        bool reaches = (i + 1) % looked_at_once != 0;
        for (std::size_t lane = 0; !reaches && lane < lanes; ++lane)
            reaches = sum[lane] >= least - pitch.left;
        if (!reaches)
            break;
    }
    score = std::bit_cast<Lanes>(sum);
    matched = std::bit_cast<Lanes>(count);
}

SECTIO_FOR_EACH_PROCESSOR
Lanes farthest_of(const LibraryScale& scale, const std::vector<QuickPitch>& pitches,
                  const Lanes& shifts, double most) {
    Wide places;
    load(shifts, places);
    Wide farthest{};
    for (const QuickPitch& pitch : pitches) {
        Wide distance;
        distances(scale, pitch.at, places, distance);
        farthest = distance > farthest ? distance : farthest;
        bool some = false;
        for (std::size_t lane = 0; lane < lanes; ++lane)
            some |= farthest[lane] <= most;
        if (!some)
            break;
    }
    return std::bit_cast<Lanes>(farthest);
}

std::size_t count_of(const LaneDegrees& degrees, std::size_t lane) {
    std::size_t count = 0;
    for (const auto& word : degrees)
        count += static_cast<std::size_t>(std::popcount(word[lane]));
    return count;
}

bool holds(const LaneDegrees& degrees, std::size_t degree, std::size_t lane) {
    return (degrees[degree / word_bits][lane] >> (degree % word_bits) & 1) != 0;
}

namespace {

/// Without `used` neither degrees nor likelihoods are looked at.
template <bool whole>
[[gnu::always_inline]] inline void
add_up(const LibraryScale& scale, const std::vector<LanePitch>& pitches,
       const std::vector<LibraryScale::Held>& held, const std::vector<Lanes>& peaks,
       const Lanes& shifts, LaneDegrees* used, WideTotals& totals) {
    double lowest = shifts[0], highest = shifts[0];
    for (const double shift : shifts)
        lowest = std::min(lowest, shift), highest = std::max(highest, shift);
    Wide places, likelihood, share;
    load(shifts, places);
    std::array<std::size_t, lanes> degrees;
    for (std::size_t i = 0; i < pitches.size(); ++i) {
        const double within = pitches[i].cents - held[i].periods;
        const bool one_degree = within - highest > held[i].low && within - lowest < held[i].high;
        Wide above = within - held[i].at - places;
        if (!one_degree) {
            degrees.fill(held[i].degree);
            Lanes looked_up = std::bit_cast<Lanes>(above);
            look_up(scale, pitches[i].cents, held[i], shifts, looked_up, degrees);
            load(looked_up, above);
        }
        add(pitches[i], peaks[i], above, likelihood, share, totals);
        if constexpr (whole) {
            multiply(pitches[i].weight, i % multiplied == multiplied - 1, likelihood, totals);
            if (one_degree)
                degrees.fill(held[i].degree);
            for (std::size_t lane = 0; lane < lanes; ++lane)
                (*used)[degrees[lane] / word_bits][lane] |=
                    share[lane] > 0.5 ? bit_of(degrees[lane]) : 0;
        }
    }
}

} // namespace

SECTIO_FOR_EACH_PROCESSOR
void follow_pulls(const LibraryScale& scale, const std::vector<LanePitch>& pitches,
                  const std::vector<LibraryScale::Held>& held, const std::vector<Lanes>& peaks,
                  int steps, Lanes& shifts) {
    for (int step = 0; step < steps; ++step) {
        WideTotals totals;
        add_up<false>(scale, pitches, held, peaks, shifts, nullptr, totals);
        Wide places;
        load(shifts, places);
        places += totals.precision > 0.0 ? totals.pull / totals.precision : Wide{};
        shifts = std::bit_cast<Lanes>(places);
    }
}

SECTIO_FOR_EACH_PROCESSOR
LaneTotals added_up(const LibraryScale& scale, const std::vector<LanePitch>& pitches,
                    const std::vector<LibraryScale::Held>& held, const std::vector<Lanes>& peaks,
                    const Lanes& shifts, LaneDegrees& used) {
    used.assign((scale.degrees.size() + word_bits - 1) / word_bits, {});
    WideTotals totals;
    add_up<true>(scale, pitches, held, peaks, shifts, &used, totals);
    return {std::bit_cast<Lanes>(totals.product), std::bit_cast<Lanes>(totals.logs),
            std::bit_cast<Lanes>(totals.precision)};
}

} // namespace sectio
