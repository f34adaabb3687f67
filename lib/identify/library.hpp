#pragma once
/// @file
/// The scales of the catalogue, made ready to be compared with many sets of pitches.

#include <sectio/scale/catalogue.hpp>

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
    /// Where theory says it without a course: of what is written on the staff.
    std::optional<Ambitus> ambitus;

    /// Distance in whole cents from each whole cent of the period (or of the span, with margins) to
    /// the nearest degree, at most 255: within 1 cent of the true distance.
    std::vector<std::uint8_t> distance;
    double distance_begin = 0; ///< the cent that distance[0] stands for

    /// The circle that a pitch is placed on: the period, or the span with its margins.
    double circle() const { return static_cast<double>(distance.size()); }
    /// Index of the degree nearest to `cents` above the first degree, and the distance from that
    /// degree to it (positive above), periods taken away.
    struct Nearest {
        std::size_t degree = 0;
        double above = 0;
    };
    Nearest nearest(double cents) const;
    /// The same for `cents` within the period, where `up` is the index of the first degree above
    /// them, or the number of degrees.
    Nearest nearest(double cents, std::size_t up) const;
};

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

    /// What the scales expect of a melody, made once, when it is first asked for.
    PreparedTables& tables() const { return *tables_; }

  private:
    ScaleLibrary();
    /// The notes that a general scale names, folded, above the written C4.
    void name_notes(const Entry& general_scale);
    std::optional<double> written_place(const Entry& entry) const;

    std::map<std::string, double> notes_;
    std::vector<LibraryScale> scales_;
    std::shared_ptr<PreparedTables> tables_; ///< of copies too, whose scales are the same
};

} // namespace sectio
