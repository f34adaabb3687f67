#pragma once
/// @file
/// Private to lib/division: records and ranks among many divisions, screened by doubles, decided
/// exactly where these leave it open.

#include <sectio/base/progress.hpp>
#include <sectio/division/error_kind.hpp>
#include <sectio/division/exact_errors.hpp>

#include <limits>
#include <optional>
#include <vector>

namespace sectio {

/// A division with its error as screened: in periods within screen_error, or, for
/// ErrorKind::relative, in steps within that times the division.
struct Score {
    std::int64_t division;
    double error;
};

/// Some divisions from `first` on, screened.
struct Screened {
    std::int64_t first;
    std::size_t count;
    ScreenBlock block;
};

/// The order of divisions by one kind of error.
class Ranking {
  public:
    Ranking(const ExactErrors& exact, ErrorKind kind) : exact_(exact), kind_(kind) {}

    /// Smaller error, or the same and the smaller number. @throws Error order_undecided
    bool before(const Score& a, const Score& b) const;
    /// True where the error is exactly 0.
    bool is_perfect(const Score& score) const;

    /// Offers every division of a block whose error may be below `limit`: offer(score) returns the
    /// error from which on nothing more is wanted, and `limit` follows it. Blocks come ascending.
    template <typename Offer>
    void sift(const Screened& screened, double& limit, Offer offer) const {
        const auto& values =
            kind_ == ErrorKind::rms ? screened.block.squares : screened.block.worst;
        const auto wanted = [&](double n, double value) {
            const double most = slope(limit) * n + offset(limit);
            return value <= most * most;
        };
        if (!any_within(values, static_cast<double>(screened.first), slope(limit), offset(limit)))
            return;
        for (std::size_t i = 0; i < screened.count; ++i) {
            const std::int64_t division = screened.first + static_cast<std::int64_t>(i);
            const auto n = static_cast<double>(division);
            if (wanted(n, values[i]))
                limit = widened(offer(Score{division, error(n, values[i])}));
        }
    }

  private:
    double error(double n, double value) const;
    double widened(double limit) const;
    double slope(double limit) const;
    double offset(double limit) const;

    const ExactErrors& exact_;
    ErrorKind kind_;
};

/// Screens the range and shows `visit` one block after the other.
template <typename Visit>
void scan(const ExactErrors& exact, DivisionRange range, const Progress& progress, Visit visit) {
    constexpr auto size = static_cast<std::int64_t>(screen_block);
    Screened screened;
    for (std::int64_t first = range.from; first <= range.to; first += size) {
        screened.first = first;
        screened.count = static_cast<std::size_t>(std::min(range.to - first + 1, size));
        screen(exact.classes(), static_cast<double>(first), screened.block);
        visit(screened);
        if (progress && first / size % 64 == 0)
            progress(static_cast<double>(first - range.from)
                     / static_cast<double>(range.to - range.from + 1));
    }
}

/// The records of one kind of error among divisions shown in ascending order.
class RecordKeeper {
  public:
    RecordKeeper(const ExactErrors& exact, ErrorKind kind) : ranking_(exact, kind) {}

    void visit(const Screened& screened);
    /// Those from `first` on.
    std::vector<std::int64_t> from(std::int64_t first) &&;

  private:
    double offer(const Score& score);

    Ranking ranking_;
    double limit_ = std::numeric_limits<double>::infinity();
    std::optional<Score> best_;
    bool perfect_ = false; ///< no error at all, so nothing later is smaller
    std::vector<std::int64_t> records_;
};

/// The `count` divisions of the range that come first, count >= 1.
std::vector<std::int64_t> first_ranks(const ExactErrors& exact, ErrorKind kind, DivisionRange range,
                                      std::size_t count, const Progress& progress);

} // namespace sectio
