#pragma once
/// @file
/// A neck whose outer strings may differ in length: nut, bridge and frets are straight and slant.
///
/// Nut and bridge are divided alike, so that string k leaves the nut and reaches the bridge at the
/// same share of both. A point at the share t of every string, from the nut, then lies on one
/// straight line: (1-t) N + t B, where N and B go along nut and bridge, is linear in that share. So
/// a straight fret stops all strings at the same interval.

#include <sectio/base/length.hpp>
#include <sectio/interval/real.hpp>

namespace sectio {

/// The widest spread that a template's page holds, in mm.
inline constexpr int widest_spread_mm = 90;

struct NeckShape {
    Length first, last;               ///< of the outer strings, each along itself
    Length nut_spread, bridge_spread; ///< between the middles of the outer strings, square to the
                                      ///< centre line of the neck
    std::size_t perpendicular = 0;    ///< number of the fret that is square to it; 0 the nut
    Interval perpendicular_interval;  ///< that it sounds

    bool slanted() const { return first != last; }
    /// By how much an outer string lies farther from the centre line at the bridge than at the nut.
    Length flare() const { return (bridge_spread - nut_spread) * Rational(1, 2); }
    /// Length in mm of the string that lies `across` of the way from the first to the last.
    Real length_at(const Rational& across) const;
};

/// Refuses a shape that cannot be drawn.
/// @throws Error length_not_positive, spread_too_wide, flare_too_wide
void check(const NeckShape& neck);

/// Places on paper in mm: x across the neck, y along its centre line.
struct NeckPoint {
    double x = 0, y = 0;
};

/// The outer strings as they are drawn, from `left` on; the first end of the nut lies at y = 0.
class DrawnNeck {
  public:
    /// Strings of one length, side by side.
    DrawnNeck(const Length& length, double left, double right);
    /// Within 1e-9 mm. `middle`: of the neck.
    DrawnNeck(const NeckShape& neck, double middle);

    /// The point `across` of the way from the first string to the last, at the share `along` of its
    /// length from the nut.
    NeckPoint at(double across, double along) const;
    /// The greatest y of nut, bridge and what lies before them.
    double end(double along) const;

  private:
    struct Side {
        NeckPoint nut;
        double out = 0, along = 0; ///< from nut to bridge in x and y
    };
    Side first_, last_;
};

} // namespace sectio
