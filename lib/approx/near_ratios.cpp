#include <sectio/approx/messages.hpp>
#include <sectio/approx/near_ratios.hpp>
#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>

#include <algorithm>
#include <cmath>
#include <compare>
#include <queue>

namespace sectio {

namespace {

/// A fraction of the tree; 1/0 stands above all.
struct Fraction {
    Integer above, below;
    Integer product() const { return above * below; }
};

/// left + k * right, term by term.
Fraction mediant(const Fraction& left, const Integer& k, const Fraction& right) {
    return {left.above + k * right.above, left.below + k * right.below};
}

/// Two neighbours of the tree, and the simplest fraction between them that lies in the window.
struct Gap {
    Fraction left, found, right;
};
struct LessSimple {
    bool operator()(const Gap& a, const Gap& b) const {
        const Integer first = a.found.product(), second = b.found.product();
        return first != second ? first > second
                               : a.found.above * b.found.below > b.found.above * a.found.below;
    }
};

/// Search of the tree for the fractions of a window. Between neighbours l and r of the tree every
/// fraction has the form (m l + n r), term by term, with m, n >= 1, so the mediant l + r is the
/// simplest of them in either term, and fractions further down have larger terms.
class Search {
  public:
    Search(const Interval& low, const Interval& high, const NearBounds& bounds)
        : low_(low), high_(high), low_size_(low.estimate()), high_size_(high.estimate()),
          bounds_(bounds) {}

    std::vector<Interval> run() {
        add({0, 1}, {1, 0});
        std::vector<Interval> ratios;
        while (ratios.size() < bounds_.most && !gaps_.empty()) {
            if (ratios.size() == limits::listed_ratios)
                refuse_argument("the number of ratios", fmt::format("at most {}", ratios.size()));
            const Gap gap = gaps_.top();
            gaps_.pop();
            ratios.push_back(Interval::from_ratio(gap.found.above, gap.found.below));
            add(gap.left, gap.found);
            add(gap.found, gap.right);
        }
        return ratios;
    }

  private:
    bool too_large(const Fraction& f) const {
        return f.above > bounds_.max_term || f.below > bounds_.max_term;
    }

    /// -1 below the window, 0 in it, 1 above. Doubles go ahead: converting both terms and two
    /// logarithms cost less than 8 ulp of 64 where neither has more than 64 bits, so that `doubt`
    /// bounds all errors but those of the window's own estimates.
    int place(const Fraction& f) const {
        constexpr double doubt = 0x1p-42, most = 0x1p64;
        const auto above = f.above.convert_to<double>(), below = f.below.convert_to<double>();
        if (f.above > 0 && f.below > 0 && above < most && below < most) {
            const double size = std::log2(above) - std::log2(below);
            const double to_low = size - low_size_.value, to_high = size - high_size_.value;
            if (std::abs(to_low) > low_size_.error_bound + doubt
                && std::abs(to_high) > high_size_.error_bound + doubt)
                return to_low < 0 ? -1 : to_high > 0 ? 1 : 0;
        }
        const Interval size = Interval::from_ratio(f.above, f.below);
        return size < low_ ? -1 : size > high_ ? 1 : 0;
    }

    /// The largest k for which toward + ... stays on `side`: `from` + k * `toward`, k >= 1 known to
    /// hold for k = 1. Doubling, then halving; nothing is sought beyond the bounds of the terms.
    Integer last_on_side(const Fraction& from, const Fraction& toward, int side) const {
        const auto stays = [&](const Integer& k) {
            const Fraction f = mediant(from, k, toward);
            return !too_large(f) && place(f) == side;
        };
        Integer good = 1, bad = 2;
        for (; stays(bad); bad *= 2)
            good = bad;
        while (bad - good > 1) {
            const Integer middle = (good + bad) / 2;
            (stays(middle) ? good : bad) = middle;
        }
        return good;
    }

    /// Finds the simplest fraction between two neighbours that lies in the window, if its terms are
    /// within the bounds. While the mediant lies outside, the neighbour on its side moves up.
    void add(Fraction left, Fraction right) {
        for (;;) {
            const Fraction middle = mediant(left, 1, right);
            if (too_large(middle))
                return;
            const int side = place(middle);
            if (side == 0) {
                gaps_.push({left, middle, right});
                return;
            }
            if (side < 0)
                left = mediant(left, last_on_side(left, right, side), right);
            else
                right = mediant(right, last_on_side(right, left, side), left);
        }
    }

    Interval low_, high_;
    Interval::Estimate low_size_, high_size_;
    const NearBounds& bounds_;
    std::priority_queue<Gap, std::vector<Gap>, LessSimple> gaps_;
};

std::vector<Interval> of_prime_limit(const Interval& low, const Interval& high,
                                     const NearBounds& bounds) {
    RatioBounds window{*bounds.prime_limit, low, high, true, true, bounds.max_term, {}, {}};
    auto found = ratios_within(window);
    sort_by_benedetti_height(found);
    found.resize(std::min(found.size(), bounds.most));
    std::vector<Interval> ratios;
    std::transform(found.begin(), found.end(), std::back_inserter(ratios), interval_of);
    return ratios;
}

} // namespace

std::vector<Interval> near_ratios(const Interval& interval, const Interval& tolerance,
                                  const NearBounds& bounds) {
    if (tolerance < Interval())
        throw error(message::tolerance_negative, to_expression(tolerance), {});
    if (bounds.max_term < 1)
        throw error(message::bound_not_positive, bounds.max_term.str(), {});
    if (bit_length(bounds.max_term) > limits::term_bits)
        throw error(message::bound_too_large, "", {}, limits::term_bits);
    const Interval low = interval - tolerance, high = interval + tolerance;
    return bounds.prime_limit ? of_prime_limit(low, high, bounds) : Search(low, high, bounds).run();
}

std::vector<Interval> successive_approximations(const Interval& interval, const Interval& tolerance,
                                                const NearBounds& bounds) {
    NearBounds one = bounds;
    one.most = 1;
    std::vector<Interval> ratios;
    for (Interval reach = tolerance; ratios.size() < bounds.most;) {
        const auto next = near_ratios(interval, reach, one);
        if (next.empty())
            break;
        ratios.push_back(next.front());
        const Interval error = absolute(next.front() - interval);
        if (error.is_unison())
            break;
        reach = error * Rational(1, 4);
    }
    return ratios;
}

} // namespace sectio
