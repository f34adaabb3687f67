#include <sectio/division/ranking.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

bool Ranking::before(const Score& a, const Score& b) const {
    const double steps =
        kind_ == ErrorKind::relative ? static_cast<double>(a.division + b.division) : 2;
    // The mean square's own rounding stays below 2^-52 for each of up to 2^14 targets, of errors of
    // at most half a period.
    const double slack =
        steps * screen_error + (a.error + b.error) * (exact_.weight() + 16) * 0x1p-52;
    if (std::fabs(a.error - b.error) > slack)
        return a.error < b.error;
    const auto order = exact_.compare(kind_, a.division, b.division);
    return order == std::strong_ordering::equal ? a.division < b.division
                                                : order == std::strong_ordering::less;
}

bool Ranking::is_perfect(const Score& score) const {
    const auto n = static_cast<double>(score.division);
    const double bound = kind_ == ErrorKind::relative ? n * screen_error : screen_error;
    return score.error <= bound && exact_.worst_error(score.division).is_unison();
}

double Ranking::error(double n, double value) const {
    if (kind_ == ErrorKind::relative)
        return std::sqrt(value);
    return std::sqrt(kind_ == ErrorKind::rms ? value / exact_.weight() : value) / n;
}

/// A little more than `limit` for the roundings of sums, products and roots: in periods also wide
/// enough for both errors.
double Ranking::widened(double limit) const {
    const double wide = limit * (1 + (exact_.weight() + 64) * 0x1p-51);
    return kind_ == ErrorKind::relative ? wide : wide + 2 * screen_error;
}

/// What the root of a screened value of division n is compared with is slope * n + offset. In
/// steps, the best so far belongs to a division of at most n, so both errors are within n
/// screen_error each.
double Ranking::slope(double limit) const {
    if (kind_ == ErrorKind::relative)
        return 4 * screen_error;
    return kind_ == ErrorKind::rms ? limit * std::sqrt(exact_.weight()) : limit;
}

double Ranking::offset(double limit) const {
    return kind_ == ErrorKind::relative ? limit : 0;
}

void RecordKeeper::visit(const Screened& screened) {
    if (!perfect_)
        ranking_.sift(screened, limit_, [&](const Score& s) { return offer(s); });
}

std::vector<std::int64_t> RecordKeeper::from(std::int64_t first) && {
    std::erase_if(records_, [&](std::int64_t n) { return n < first; });
    return std::move(records_);
}

double RecordKeeper::offer(const Score& score) {
    // A later division of the same error does not come before(), having the larger number.
    if (!perfect_ && (!best_ || ranking_.before(score, *best_))) {
        best_ = score;
        records_.push_back(score.division);
        perfect_ = ranking_.is_perfect(score);
    }
    return best_->error;
}

std::vector<std::int64_t> first_ranks(const ExactErrors& exact, ErrorKind kind, DivisionRange range,
                                      std::size_t count, const Progress& progress) {
    const Ranking ranking(exact, kind);
    const auto order = [&](const Score& a, const Score& b) { return ranking.before(a, b); };
    constexpr double anything = std::numeric_limits<double>::infinity();
    std::vector<Score> heap; // the worst of the best on top
    double limit = anything;
    const auto offer = [&](const Score& score) {
        if (heap.size() < count || order(score, heap.front())) {
            heap.push_back(score);
            std::push_heap(heap.begin(), heap.end(), order);
        }
        if (heap.size() > count) {
            std::pop_heap(heap.begin(), heap.end(), order);
            heap.pop_back();
        }
        return heap.size() < count ? anything : heap.front().error;
    };
    scan(exact, range, progress, [&](const Screened& s) { ranking.sift(s, limit, offer); });
    std::sort_heap(heap.begin(), heap.end(), order);
    std::vector<std::int64_t> divisions;
    for (const Score& score : heap)
        divisions.push_back(score.division);
    return divisions;
}

} // namespace sectio
