#include <sectio/identify/practice.hpp>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

/// A degree of a makam, in commas of 53 above the tonic, and how far from it practice sounds it.
struct Practice {
    std::string_view id;
    int commas;
    double moved; ///< in commas, the middle of what the source says
};

// Notation has no sign for these places. Hicaz of Sabâ is sounded one or two commas higher
// (eksd-makam, Sabâ, seen), and so where Bestenigâr has Sabâ on Dügâh; Hisar of Hüzzam one comma
// higher (halkradyo-huzzam, seen).
constexpr Practice practices[]{{"saba", 18, 1.5}, {"bestenigar", 32, 1.5}, {"huzzam", 19, 1}};

/// Segâh on the way down to Dügâh is sounded one or two commas lower: meb-kemence-10, p. 15, of
/// Uşşak (seen); of the other makams that begin with its tetrachord or the Hüseynî pentachord from
/// memory.
constexpr double segah_moved = -1.5;
constexpr int segah = 8, cargah = 13, neva = 22;

int commas_of(double cents) {
    return static_cast<int>(std::lround(cents * 53 / 1200));
}

bool goes_down_through_segah(const Entry& entry, const std::vector<double>& degrees) {
    return entry.tonic_name() == "Dügâh" && degrees.size() > 3 && commas_of(degrees[1]) == segah
           && commas_of(degrees[2]) == cargah && commas_of(degrees[3]) == neva;
}

} // namespace

std::vector<double> sounded_degrees(const Entry& entry, std::vector<double> degrees) {
    constexpr double comma = 1200 / 53.0;
    if (goes_down_through_segah(entry, degrees))
        degrees[1] += segah_moved * comma;
    for (const Practice& practice : practices)
        if (practice.id == entry.id)
            for (double& degree : degrees)
                degree += commas_of(degree) == practice.commas ? practice.moved * comma : 0;
    return degrees;
}

} // namespace sectio
