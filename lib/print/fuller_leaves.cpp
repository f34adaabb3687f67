#include <sectio/print/fuller_leaves.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

constexpr double least_filled = 0.25;

bool is_short(const LaidLeaves& laid, std::size_t leaf) {
    return leaf > 0 && laid.filled[leaf] < least_filled;
}

std::size_t short_leaves(const LaidLeaves& laid) {
    std::size_t count = 0;
    for (std::size_t leaf = 0; leaf < laid.filled.size(); ++leaf)
        count += is_short(laid, leaf) ? 1 : 0;
    return count;
}

/// The blocks before which this leaf might begin, the last first: those of its part that the leaf
/// before was reached with.
std::vector<std::size_t> breaks_for(const Page& page, const LaidLeaves& laid, std::size_t leaf) {
    std::vector<std::size_t> blocks;
    for (std::size_t i = laid.begun.size(); i-- > 0 && laid.begun[i] + 1 >= leaf;) {
        if (laid.begun[i] >= leaf)
            continue;
        if (std::holds_alternative<NewLeaf>(page.blocks[i]))
            break;
        blocks.push_back(i);
    }
    return blocks;
}

} // namespace

SetDocument with_fuller_leaves(const Page& page, const LayOut& lay_out) {
    std::set<std::size_t> breaks;
    LaidLeaves best = lay_out(breaks);
    for (std::size_t leaf = 1; leaf < best.filled.size(); ++leaf) {
        if (!is_short(best, leaf))
            continue;
        for (const std::size_t block : breaks_for(page, best, leaf)) {
            std::set<std::size_t> more = breaks;
            more.insert(block);
            LaidLeaves tried = lay_out(more);
            if (tried.filled.size() <= best.filled.size()
                && short_leaves(tried) < short_leaves(best)) {
                best = std::move(tried), breaks = std::move(more);
                break;
            }
        }
    }
    return std::move(best.document);
}

} // namespace sectio::page
