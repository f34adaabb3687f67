#pragma once
/// @file
/// How well equal divisions approximate some targets.
///
/// Definitions. The error of a target in a division is the division's nearest step minus the
/// target; the maximum error is the largest absolute one, the RMS error the root of the mean of the
/// squares over all targets. A division is a record where its error is smaller than that of every
/// smaller division of the period; one that equals an earlier error is none. A division is
/// consistent where the nearest steps add up whenever targets do (target_sums).
///
/// Speed and proof. Errors of all divisions of a range are computed by doubles within screen_error
/// (2^-51 of the period); every comparison closer than the bound is made again exactly, and ties
/// are found as ties. So order, records and printed digits are those of the exact numbers. Time
/// grows as divisions times different targets, about a nanosecond for each.

#include <sectio/base/progress.hpp>
#include <sectio/division/exact_errors.hpp>
#include <sectio/division/targets.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// Divisions `from` … `to` of the table's period.
struct DivisionRange {
    std::int64_t from = 1, to = 100;
};

/// One division's row.
struct ErrorRow {
    std::int64_t division;
    std::string max_error_cents; ///< correctly rounded
    std::string rms_error_cents; ///< correctly rounded
    std::size_t worst;           ///< the first of the targets with the largest absolute error
    /// Nothing where no targets add up to one.
    std::optional<bool> consistent;
};

/// Error tables of one set of targets and one period.
class ErrorTable {
  public:
    /// Targets that are a whole number of periods are left out.
    /// @throws Error period_not_rising, no_targets, too_many_targets
    explicit ErrorTable(const Targets& targets, const Interval& period = Interval::octave());

    const std::vector<Interval>& targets() const { return targets_.intervals; }
    const Interval& period() const { return exact_.period(); }

    /// @throws Error division_out_of_range, digits_out_of_range
    ErrorRow row(std::int64_t division, int digits) const;

    /// The records among `range`, ascending. They are records over all divisions from 1 on, so a
    /// range that begins later loses some and gains none.
    /// @throws Error division_range_empty, division_out_of_range, order_undecided
    std::vector<std::int64_t> records(Measure measure, DivisionRange range,
                                      const Progress& progress = nullptr) const;

    /// The records of both measures, found in one go.
    struct Records {
        std::vector<std::int64_t> max, rms;
    };
    Records records(DivisionRange range, const Progress& progress = nullptr) const;

    /// The `count` divisions of the range with the smallest error, best first; equal ones by
    /// number.
    /// @throws Error as records(), and too_many_rows beyond limits::listed_rows
    std::vector<std::int64_t> best(Measure measure, DivisionRange range, std::int64_t count,
                                   const Progress& progress = nullptr) const;

  private:
    /// A division with its error in periods, within screen_error.
    struct Score {
        std::int64_t division;
        double error;
    };
    bool smaller(Measure measure, const Score& a, const Score& b) const;
    struct Screened;
    class RecordKeeper;
    template <typename Visit>
    void scan(DivisionRange range, const Progress& progress, Visit visit) const;
    template <typename Offer>
    void sift(Measure measure, const Screened& screened, double& limit, Offer offer) const;
    std::optional<bool> consistent(std::int64_t division) const;
    Integer nearest(std::size_t target, std::int64_t division) const;

    Targets targets_;
    ExactErrors exact_;
    double weight_;
    std::vector<TargetSum> sums_;
    std::vector<double> sizes_; ///< of the targets, in periods, within one unit in the last place
};

/// @throws Error division_range_empty, division_out_of_range
void check_range(DivisionRange range);

} // namespace sectio
