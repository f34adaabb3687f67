#include <sectio/print/fuller_pages.hpp>

#include <algorithm>

namespace sectio::page {

namespace {

constexpr double least_filled = 0.25;

bool is_short(const LaidPages& laid, std::size_t number) {
    return number > 0 && laid.filled[number] < least_filled;
}

std::size_t short_pages(const LaidPages& laid) {
    std::size_t count = 0;
    for (std::size_t number = 0; number < laid.filled.size(); ++number)
        count += is_short(laid, number) ? 1 : 0;
    return count;
}

/// The blocks before which this page might begin, the last first: those of its part that the page
/// before was reached with.
std::vector<std::size_t> breaks_for(const Page& page, const LaidPages& laid, std::size_t number) {
    std::vector<std::size_t> blocks;
    for (std::size_t i = laid.begun.size(); i-- > 0 && laid.begun[i] + 1 >= number;) {
        if (laid.begun[i] >= number)
            continue;
        if (std::holds_alternative<NewPage>(page.blocks[i]))
            break;
        blocks.push_back(i);
    }
    return blocks;
}

} // namespace

TypesetDocument with_fuller_pages(const Page& page, const LayOut& lay_out) {
    std::set<std::size_t> breaks;
    LaidPages best = lay_out(breaks);
    for (std::size_t number = 1; number < best.filled.size(); ++number) {
        if (!is_short(best, number))
            continue;
        for (const std::size_t block : breaks_for(page, best, number)) {
            std::set<std::size_t> more = breaks;
            more.insert(block);
            LaidPages tried = lay_out(more);
            if (tried.filled.size() <= best.filled.size()
                && short_pages(tried) < short_pages(best)) {
                best = std::move(tried), breaks = std::move(more);
                break;
            }
        }
    }
    return std::move(best.document);
}

} // namespace sectio::page
