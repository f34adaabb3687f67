#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/interval/messages.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace sectio {

namespace {

Targets checked(const Targets& targets, const Interval& period) {
    if (!(period > Interval()))
        throw error(message::period_not_rising, to_expression(period), {});
    return without_periods(targets, period);
}

/// `cents` rounded to `digits`, if every number within `bound` of it rounds likewise.
std::optional<std::string> quick_decimal(double cents, double bound, int digits) {
    if (digits > 9)
        return std::nullopt;
    const double scale = std::pow(10.0, digits), scaled = cents * scale;
    // The product and the distance are rounded by 2^-53 of `scaled` each.
    const double slack = bound * scale * 1.01 + scaled * 0x1p-51;
    const double to_half = std::fabs(scaled - std::floor(scaled) - 0.5);
    if (scaled > 0x1p40 || to_half <= slack)
        return std::nullopt;
    return decimal_text(Integer(std::llround(scaled)), digits);
}

} // namespace

void check_range(DivisionRange range) {
    for (const std::int64_t end : {range.from, range.to})
        if (end < 1 || end > limits::division_steps)
            throw error(message::division_out_of_range, fmt::to_string(end), {},
                        limits::division_steps);
    if (range.from > range.to)
        throw error(message::division_range_empty, "", {}, range.from, range.to);
}

ErrorTable::ErrorTable(const Targets& targets, const Interval& period)
    : targets_(checked(targets, period)),
      exact_(target_classes(targets_.intervals, period), period),
      weight_(static_cast<double>(targets_.intervals.size())),
      sums_(target_sums(targets_, period)) {
    for (const Interval& target : targets_.intervals)
        sizes_.push_back(quotient_of_sizes(target, period));
}

Integer ErrorTable::nearest(std::size_t target, std::int64_t division) const {
    const double x = static_cast<double>(division) * sizes_[target], rounded = std::nearbyint(x);
    // Off by 2^-53 each for the size and the product, both relative.
    if (std::fabs(x) < 0x1p50 && std::fabs(x - rounded) + std::fabs(x) * 0x1p-51 < 0.5)
        return Integer(static_cast<std::int64_t>(rounded));
    return EqualDivision(division, period()).nearest(targets_.intervals[target]);
}

std::optional<bool> ErrorTable::consistent(std::int64_t division) const {
    if (sums_.empty())
        return std::nullopt;
    return std::all_of(sums_.begin(), sums_.end(), [&](const TargetSum& s) {
        const Integer sum = s.sum ? nearest(*s.sum, division) : Integer(0);
        return nearest(s.first, division) + nearest(s.second, division)
               == sum + Integer(s.periods) * division;
    });
}

ErrorRow ErrorTable::row(std::int64_t division, int digits) const {
    check_range({division, division});
    check_digits(digits);
    const auto n = static_cast<double>(division);
    double largest = 0, squares = 0;
    for (const TargetClass& c : exact_.classes()) {
        const double error = std::fabs(screened_error(n, c.place));
        largest = std::max(largest, error);
        squares += c.weight * error * error;
    }
    const double period_cents = 1200 * period().estimate().value;
    // A root of a mean square moves no more than the errors do. The sums round by 2^-53 for each
    // target, and the period is good to 2^-50 of itself.
    const double bound = period_cents * screen_error, relative = (weight_ + 16) * 0x1p-52;
    const auto shown = [&](double steps) {
        const double cents = steps / n * period_cents;
        return quick_decimal(cents, bound + cents * relative, digits);
    };
    const ExactErrors::Worst worst = exact_.worst(division);
    ErrorRow row{division, "", "", exact_.classes()[worst.target_class].first_target,
                 consistent(division)};
    const auto max_cents = shown(largest), rms_cents = shown(std::sqrt(squares / weight_));
    row.max_error_cents = max_cents ? *max_cents : exact_.error_of(worst, division).cents(digits);
    row.rms_error_cents = rms_cents ? *rms_cents : exact_.rms_cents(division, digits);
    return row;
}

bool ErrorTable::smaller(Measure measure, const Score& a, const Score& b) const {
    // The mean square's own rounding stays below 2^-52 for each of up to 2^14 targets, of errors of
    // at most half a period.
    const double slack = 2 * screen_error + (a.error + b.error) * (weight_ + 16) * 0x1p-52;
    if (std::fabs(a.error - b.error) > slack)
        return a.error < b.error;
    const auto order = exact_.compare(measure, a.division, b.division);
    return order == std::strong_ordering::equal ? a.division < b.division
                                                : order == std::strong_ordering::less;
}

/// Some divisions from `first` on, screened.
struct ErrorTable::Screened {
    std::int64_t first;
    std::size_t count;
    ScreenBlock block;
};

/// Screens the range and shows `visit` one block after the other.
template <typename Visit>
void ErrorTable::scan(DivisionRange range, const Progress& progress, Visit visit) const {
    constexpr auto size = static_cast<std::int64_t>(screen_block);
    Screened screened;
    for (std::int64_t first = range.from; first <= range.to; first += size) {
        screened.first = first;
        screened.count = static_cast<std::size_t>(std::min(range.to - first + 1, size));
        screen(exact_.classes(), static_cast<double>(first), screened.block);
        visit(screened);
        if (progress && first / size % 64 == 0)
            progress(static_cast<double>(first - range.from)
                     / static_cast<double>(range.to - range.from + 1));
    }
}

/// Offers every division of a block whose error may be below `limit`: offer(score) returns the
/// error from which on nothing more is wanted, and `limit` follows it.
template <typename Offer>
void ErrorTable::sift(Measure measure, const Screened& screened, double& limit, Offer offer) const {
    for (std::size_t i = 0; i < screened.count; ++i) {
        const std::int64_t division = screened.first + static_cast<std::int64_t>(i);
        const auto n = static_cast<double>(division);
        const double worst = screened.block.worst[i], squares = screened.block.squares[i];
        const double most = limit * n;
        if (measure == Measure::max ? worst > most : squares > most * most * weight_)
            continue;
        const double error = measure == Measure::max ? worst / n : std::sqrt(squares / weight_) / n;
        // Wide enough for both errors and for the roundings of the comparison above.
        limit = offer(Score{division, error}) * (1 + (weight_ + 64) * 0x1p-51) + 2 * screen_error;
    }
}

/// The records of one measure among divisions offered in ascending order.
class ErrorTable::RecordKeeper {
  public:
    RecordKeeper(const ErrorTable& table, Measure measure) : table_(table), measure_(measure) {}

    void visit(const Screened& screened) {
        if (!perfect_)
            table_.sift(measure_, screened, limit_, [&](const Score& s) { return offer(s); });
    }

    std::vector<std::int64_t> from(std::int64_t first) && {
        std::erase_if(records_, [&](std::int64_t n) { return n < first; });
        return std::move(records_);
    }

  private:
    double offer(const Score& score) {
        // A later division of the same error is not smaller(), having the larger number.
        if (!perfect_ && (!best_ || table_.smaller(measure_, score, *best_))) {
            best_ = score;
            records_.push_back(score.division);
            const ExactErrors& exact = table_.exact_;
            perfect_ = score.error <= screen_error
                       && exact.error_of(exact.worst(score.division), score.division).is_unison();
        }
        return best_->error;
    }

    const ErrorTable& table_;
    Measure measure_;
    double limit_ = std::numeric_limits<double>::infinity();
    std::optional<Score> best_;
    bool perfect_ = false; ///< no error at all, so nothing later is smaller
    std::vector<std::int64_t> records_;
};

std::vector<std::int64_t> ErrorTable::records(Measure measure, DivisionRange range,
                                              const Progress& progress) const {
    check_range(range);
    RecordKeeper keeper(*this, measure);
    scan({1, range.to}, progress, [&](const Screened& s) { keeper.visit(s); });
    return std::move(keeper).from(range.from);
}

ErrorTable::Records ErrorTable::records(DivisionRange range, const Progress& progress) const {
    check_range(range);
    RecordKeeper max(*this, Measure::max), rms(*this, Measure::rms);
    scan({1, range.to}, progress, [&](const Screened& s) {
        max.visit(s);
        rms.visit(s);
    });
    return {std::move(max).from(range.from), std::move(rms).from(range.from)};
}

std::vector<std::int64_t> ErrorTable::best(Measure measure, DivisionRange range, std::int64_t count,
                                           const Progress& progress) const {
    check_range(range);
    count = std::min(count, range.to - range.from + 1);
    if (count > limits::listed_rows)
        throw error(message::too_many_rows, "", {}, limits::listed_rows);
    const auto order = [&](const Score& a, const Score& b) { return smaller(measure, a, b); };
    std::vector<Score> heap; // the worst of the best on top
    if (count < 1)
        return {};
    const auto full = static_cast<std::size_t>(count);
    double limit = std::numeric_limits<double>::infinity();
    const auto offer = [&](const Score& score) {
        if (heap.size() < full || order(score, heap.front())) {
            heap.push_back(score);
            std::push_heap(heap.begin(), heap.end(), order);
        }
        if (heap.size() > full) {
            std::pop_heap(heap.begin(), heap.end(), order);
            heap.pop_back();
        }
        return heap.size() < full ? std::numeric_limits<double>::infinity() : heap.front().error;
    };
    scan(range, progress, [&](const Screened& s) { sift(measure, s, limit, offer); });
    std::sort_heap(heap.begin(), heap.end(), order);
    std::vector<std::int64_t> divisions;
    for (const Score& score : heap)
        divisions.push_back(score.division);
    return divisions;
}

} // namespace sectio
