#pragma once
/// @file
/// The scales of the catalogue, made ready to be compared with many sets of pitches.

#include <sectio/base/argument.hpp>
#include <sectio/scale/catalogue.hpp>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// How far below and above its first degree the melodies of a scale go, the height that they keep
/// about and their spread about it, in cents.
struct Ambitus {
    double lowest, highest, middle, spread;
};

/// A scale as doubles in cents. Each degree is within 1e-9 cents of the exact size for scales of
/// less than a thousand octaves, far below anything that the statistics can see; what must be exact
/// (equality of pitches) is asked of the entry's intervals.
struct LibraryScale {
    Entry entry;
    double period = 0;           ///< in cents; 0 for a scale that does not repeat
    std::vector<double> degrees; ///< rising from 0, within the period

    /// The degrees where performers sound them, as far as that is taught; else as `degrees`.
    std::vector<double> sounded;

    /// Where the theory puts the first degree in staff notation: cents above the written C4, where
    /// the entry names its tonic by a note of the tradition.
    std::optional<double> written_tonic;
    /// All degrees are whole steps of 53: the scale is counted in commas.
    bool in_commas = false;
    /// The same for 12, and whether its melodies are written in the twelve notes of the staff most
    /// of all, whatever their sizes are.
    bool in_twelve = false, of_the_staff = false;
    /// Where theory says it without a progression: of what is written on the staff.
    std::optional<Ambitus> ambitus;

    /// How many degrees lie at or below each whole cent of the period, or of the span with its
    /// margins; empty of 256 degrees and more.
    std::vector<std::uint8_t> degrees_below;
    double begin = 0; ///< the cent that degrees_below[0] stands for

    /// The same number for scales of exactly the same pitches from their first degrees.
    std::size_t pitches = 0;
    /// The same number for scales that are rotations of one another, as modes are, and by how many
    /// degrees of the first of them, less than it repeats after, this one begins later.
    std::size_t cycle = 0, turned = 0;
    /// The same number for scales of as many degrees and the same period.
    std::size_t size_class = 0;
    /// From each so many degrees on the same pitches come again: as many as there are of most
    /// scales, 1 of equal steps.
    std::size_t repeats_after = 0;

    /// From where on, above the first degree, the same pitches come again; 0 for a scale that does
    /// not repeat.
    double repeat() const {
        return repeats_after < degrees.size() ? degrees[repeats_after] : period;
    }
    /// The circle that a pitch is placed on: the period, or the span with its margins.
    double circle = 0;
    /// Index of the degree nearest to `cents` above the first degree, and the distance from that
    /// degree to it (positive above), periods taken away.
    struct Nearest {
        std::size_t degree = 0;
        double above = 0;
    };
    /// @throws Error unfit_argument without degrees, and for cents that are no number
    Nearest nearest(double cents) const;

    /// The degree nearest to some height, kept while the height moves a little: above() then needs
    /// no search, and answers as nearest() does, to the last digit.
    struct Held {
        double periods = 0;        ///< to be taken from the height, in cents
        double at = 0;             ///< the degree, or the period above the first
        double low = 0, high = -1; ///< the degree is the nearest to what lies between, less periods
        std::size_t degree = 0;
    };
    /// How far `cents` lie above the nearest degree, which becomes the one that is held.
    /// @throws Error as nearest()
    double above(double cents, Held& held) const;

  private:
    friend class ScaleLibrary;
    /// Fills `circle` and `degrees_below` from the degrees.
    void lay_out();
    /// nearest() for `cents` within the period, where `up` is the index of the first degree above
    /// them, or the number of degrees.
    Nearest nearest(double cents, std::size_t up) const;
    /// Index of the first degree above `cents`.
    std::size_t first_above(double cents) const;
    double hold(double cents, Held& held) const;
};

/// How many whole periods lie below `cents`: -1 within the period below the first.
inline double periods_below(double cents, double period) {
    if (std::abs(cents) < period)
        return cents < 0 ? -1 : 0;
    return std::floor(cents / period);
}

inline std::size_t LibraryScale::first_above(double cents) const {
    constexpr std::size_t few = 12; // sooner counted than looked up
    if (degrees.size() <= few) {
        std::size_t up = 0;
        for (const double degree : degrees)
            up += degree <= cents ? 1 : 0;
        return up;
    }
    const double at = cents - begin;
    if (!(at >= 0 && at < static_cast<double>(degrees_below.size())))
        return static_cast<std::size_t>(std::upper_bound(degrees.begin(), degrees.end(), cents)
                                        - degrees.begin());
    std::size_t up = degrees_below[static_cast<std::size_t>(at)];
    while (up < degrees.size() && degrees[up] <= cents)
        ++up;
    return up;
}

inline LibraryScale::Nearest LibraryScale::nearest(double cents) const {
    check_argument(!degrees.empty() && std::isfinite(cents), "cents on a scale of the library",
                   "a finite number, and the scale one with degrees");
    if (period > 0)
        cents -= period * periods_below(cents, period);
    return nearest(cents, first_above(cents));
}

inline LibraryScale::Nearest LibraryScale::nearest(double cents, std::size_t up) const {
    // Below: the degree before, or the last one a period lower; above: the next, or the first.
    const std::size_t below = up > 0 ? up - 1 : 0;
    Nearest best{below, cents - degrees[below]};
    if (up < degrees.size() && degrees[up] - cents < std::abs(best.above))
        best = {up, cents - degrees[up]};
    if (up == degrees.size() && period > 0 && period - cents < best.above)
        best = {0, cents - period};
    return best;
}

inline double LibraryScale::above(double cents, Held& held) const {
    const double within = cents - held.periods;
    return within > held.low && within < held.high ? within - held.at : hold(cents, held);
}

class PreparedTables; // private to lib/identify

/// Every scale and system of a catalogue that has degrees to compare with.
class ScaleLibrary {
  public:
    explicit ScaleLibrary(const std::vector<Entry>& entries);
    /// The scales of Catalogue::installed(), prepared once and there to the end of the program.
    /// @throws Error as Catalogue::installed()
    static const ScaleLibrary& installed();

    /// Those that every word matches: words begin a word of the id, a name, the kind, the
    /// tradition or the family, compared folded(); no words match all.
    /// @throws Error nothing_among
    ScaleLibrary among(const std::vector<std::string>& words) const;

    const std::vector<LibraryScale>& scales() const { return scales_; }
    /// A scale by its index, and by how many degrees of another it begins later.
    struct Turned {
        std::size_t scale, by;
    };
    /// The scales of each number `cycle` as rotations of the first of them, those of few degrees
    /// first, by size class.
    const std::vector<std::vector<Turned>>& different() const { return different_; }

    /// What the scales expect of a melody, made once, when it is first asked for.
    PreparedTables& tables() const { return *tables_; }

  private:
    ScaleLibrary();
    /// The notes that a general scale names, folded, above the written C4.
    void name_notes(const Entry& general_scale);
    std::optional<double> written_place(const Entry& entry) const;
    void order_different();

    std::map<std::string, double> notes_;
    std::vector<LibraryScale> scales_;
    std::vector<std::vector<Turned>> different_;
    std::shared_ptr<PreparedTables> tables_; ///< of copies too, whose scales are the same
};

} // namespace sectio
