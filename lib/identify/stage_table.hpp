#pragma once
/// @file
/// Private to lib/identify: what a scale expects of each stage of a course, made ready to be asked
/// for many melodies.

#include <sectio/identify/library.hpp>
#include <sectio/identify/strengths.hpp>

#include <array>
#include <vector>

namespace sectio {

/// The parts of a course that are looked at.
enum class Stage { whole, beginning, opening, half_closes, close };
inline constexpr std::size_t stage_count = 5;

/// Heights are counted in quarters of a comma of 53, so that what is written in commas is exact and
/// what is heard errs by less than 3 cents.
inline constexpr int bins_per_octave = 4 * 53;
inline constexpr double cents_per_bin = 1200.0 / bins_per_octave;

/// Logarithm of the density of notes at each height above the tonic, against notes strewn evenly
/// over two octaves.
class StageTable {
  public:
    StageTable(const LibraryScale& scale, Stage stage, const Strengths& strengths);

    /// `height` in bins above the tonic; beyond the table's ends what its ends say.
    double at(int height) const;

  private:
    std::vector<float> logs_;
};

/// The tables of all stages.
using StageTables = std::array<StageTable, stage_count>;
StageTables stage_tables(const LibraryScale& scale, const Strengths& strengths);

/// Degree `number` (1 is the tonic, 8 the octave of seven degrees) in cents above the tonic.
double degree_cents(const LibraryScale& scale, int number);
/// Where the course opens, in cents above the tonic: a little above it where the course ascends,
/// about the dominant where it ascends and descends, about the octave where it descends.
double opening_height(const LibraryScale& scale);
/// True where theory tells the dominant and the direction.
bool course_known(const LibraryScale& scale);

} // namespace sectio
