#include <sectio/measure/settling.hpp>
#include <sectio/measure/statistics.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace sectio::measure {

namespace {

constexpr std::size_t most_blocks = 8, least_block_frames = 3;

/// One block's pitch beside the whole note's: each partial beside itself, so that neither
/// inharmonicity nor a displaced partial enters.
Block block_of(const std::vector<Followed>& followed, std::size_t first, std::size_t last) {
    double sw = 0, sc = 0, power = 0;
    for (const Followed& f : followed) {
        power += f.phase.power(first, last);
        const Frequency part = f.phase.slope(first, last);
        if (part.variance <= 0 || f.whole.variance <= 0)
            continue;
        const double w = std::pow(part.hz, 2) / part.variance;
        sw += w, sc += w * cents_above(part.hz, f.whole.hz);
    }
    return sw > 0 ? Block{sc / sw, cents_per_e * cents_per_e / sw, power} : Block{0, 0, power};
}

/// How far a block lies off the others, over what is allowed: a cent, but no less than the errors
/// make likely, and no more than they do where blocks wander as far about as the others do.
double off_by(const Block& block, Blocks others) {
    constexpr double settled_cents = 1, likely = 4;
    const Mean rest = mean_of(others);
    if (rest.count == 0)
        return 0;
    if (block.variance <= 0)
        return std::numeric_limits<double>::infinity();
    const double wander2 = rest.count > 1 ? std::max(1.0, rest.chi2 / (rest.count - 1)) : 1.0;
    const double least = likely * std::sqrt(block.variance + rest.variance * wander2);
    const double most = likely * std::sqrt((block.variance + rest.variance) * wander2);
    return std::abs(block.cents - rest.cents) / std::clamp(settled_cents, least, most);
}

/// Whether a block lies no further off those that seem settled than chance, once in a thousand
/// times, makes of so few that wander as these do: they are but calmer.
bool wanders_as(const Block& block, Blocks calm) {
    const double count = static_cast<double>(calm.size());
    double mean = 0, squares = 0;
    for (const Block& other : calm)
        mean += other.cents / count;
    for (const Block& other : calm)
        squares += std::pow(other.cents - mean, 2);
    const double deviation = std::sqrt(squares / (count - 1) * (1 + 1 / count));
    return block.variance > 0
           && std::abs(block.cents - mean)
                  < student_999(static_cast<int>(calm.size()) - 1) * deviation;
}

/// Whether the sound loses half of its power after the first block, by the median of the later
/// half. The tension of a string that was struck hard, and its pitch, fall as its power does (K. A.
/// Legge, N. H. Fletcher, "Nonlinear generation of missing modes on a vibrating string", Journal of
/// the Acoustical Society of America 76, 1984; from memory): what is not softer has not settled.
bool dies_away(Blocks blocks) {
    std::vector<double> later;
    for (const Block& block : blocks.subspan(blocks.size() / 2))
        later.push_back(block.power);
    return blocks.front().power > 2 * median(later);
}

} // namespace

Mean mean_of(Blocks blocks) {
    Mean mean;
    double sw = 0, sc = 0;
    for (const Block& block : blocks)
        if (block.variance > 0)
            sw += 1 / block.variance, sc += block.cents / block.variance, ++mean.count;
    if (sw == 0)
        return mean;
    mean.cents = sc / sw, mean.variance = 1 / sw;
    for (const Block& block : blocks)
        if (block.variance > 0)
            mean.chi2 += std::pow(block.cents - mean.cents, 2) / block.variance;
    return mean;
}

double wander(const Mean& mean) {
    const int freedom = mean.count - 1;
    if (freedom < 1 || mean.chi2 < chance_chi2(freedom))
        return 0;
    return (mean.chi2 / freedom - 1) * mean.variance;
}

Blocks settled_of(Blocks blocks) {
    const std::size_t least = std::max<std::size_t>(2, (blocks.size() + 1) / 2);
    std::size_t first = 0, count = blocks.size();
    while (count > least) {
        const Blocks left = blocks.subspan(first, count);
        const double start = off_by(left.front(), left.subspan(1));
        const double end = off_by(left.back(), left.first(count - 1));
        if (std::max(start, end) < 1)
            break;
        first += start > end ? 1 : 0, --count;
    }
    const auto settled = [&] { return blocks.subspan(first, count); };
    while (first > 0 && !dies_away(blocks) && wanders_as(blocks[first - 1], settled()))
        --first, ++count;
    while (first + count < blocks.size() && wanders_as(blocks[first + count], settled()))
        ++count;
    return settled();
}

std::vector<Block> blocks_of(const std::vector<Followed>& followed, std::size_t frames) {
    const std::size_t count = std::clamp<std::size_t>(frames / least_block_frames, 1, most_blocks);
    std::vector<Block> blocks;
    for (std::size_t i = 0; i < count; ++i)
        blocks.push_back(block_of(followed, i * frames / count, (i + 1) * frames / count));
    return blocks;
}

} // namespace sectio::measure
