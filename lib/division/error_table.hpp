#pragma once
/// @file
/// How well equal divisions approximate some targets.
///
/// Definitions. The error of a target in a division is the division's nearest step minus the
/// target; the maximum error is the largest absolute one, the RMS error the root of the mean of the
/// squares over all targets, the relative error the maximum error in steps of the division. A
/// division is a record where its error is smaller than that of every smaller division of the
/// period; one that equals an earlier error is none. A division is consistent where the nearest
/// steps add up whenever targets do (target_sums).
///
/// Speed and proof. Errors of all divisions of a range are computed by doubles within a stated
/// bound (2^-51 of the period); every comparison closer than the bound is made again exactly, and
/// ties are found as ties. So order, records and printed digits are those of the exact numbers.
/// Time grows as divisions times different targets, a tenth of a nanosecond for each.

#include <sectio/base/progress.hpp>
#include <sectio/division/error_kind.hpp>
#include <sectio/division/targets.hpp>
#include <sectio/interval/real.hpp>

#include <memory>
#include <optional>
#include <vector>

namespace sectio {

/// One division's row.
struct ErrorRow {
    std::int64_t division;
    Real max_error_cents;
    Real rms_error_cents;
    Real max_error_steps; ///< the relative error: 0 … 0.5
    /// The first of the targets with the largest absolute error; nothing where no target errs.
    std::optional<std::size_t> worst;
    /// Nothing where no targets add up to one.
    std::optional<bool> consistent;
};

/// Error tables of one set of targets and one period. A copy shares its figures with the original.
class ErrorTable {
  public:
    /// Targets that are a whole number of periods are left out.
    /// @throws Error period_not_rising, no_targets, too_many_targets
    explicit ErrorTable(const Targets& targets, const Interval& period = Interval::octave());

    const std::vector<Interval>& targets() const;
    const Interval& period() const;

    /// @throws Error division_out_of_range
    ErrorRow row(std::int64_t division) const;

    /// The records among `range`, ascending. They are records over all divisions from 1 on, so a
    /// range that begins later loses some and gains none.
    /// @throws Error division_range_empty, division_out_of_range, order_undecided
    std::vector<std::int64_t> records(ErrorKind kind, DivisionRange range,
                                      const Progress& progress = nullptr) const;

    /// The records of the maximum and the RMS error, found in one go.
    struct Records {
        std::vector<std::int64_t> max, rms;
    };
    Records records(DivisionRange range, const Progress& progress = nullptr) const;

    /// The `count` divisions of the range with the smallest error, best first; equal ones by
    /// number.
    /// @throws Error as records(), and too_many_rows beyond limits::listed_rows
    std::vector<std::int64_t> best(ErrorKind kind, DivisionRange range, std::int64_t count,
                                   const Progress& progress = nullptr) const;

  private:
    struct Figures;
    std::shared_ptr<const Figures> figures_;
};

} // namespace sectio
