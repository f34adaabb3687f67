#pragma once
/// @file
/// Private to lib/identify: what a scale expects of each stage of a progression, made ready to be
/// asked for many melodies.

#include <sectio/identify/library.hpp>
#include <sectio/identify/strengths.hpp>

#include <array>
#include <mutex>
#include <vector>

namespace sectio {

/// Heights are counted in quarters of a comma of 53, so that what is written in commas is exact and
/// what is heard errs by less than 3 cents.
inline constexpr int bins_per_octave = 4 * 53;
inline constexpr double cents_per_bin = 1200.0 / bins_per_octave;

/// Logarithm of the density of notes at each height above the tonic, against notes spread evenly
/// over two octaves.
class StageTable {
  public:
    StageTable() = default;
    /// From the lowest height of the table up.
    explicit StageTable(std::vector<float> logs) : logs_(std::move(logs)) {}

    /// `height` in bins above the tonic; beyond the table's ends what its ends say.
    double at(int height) const;

  private:
    std::vector<float> logs_;
};

/// The tables of all stages.
using StageTables = std::array<StageTable, stage_count>;
StageTables stage_tables(const LibraryScale& scale, const Strengths& strengths);

/// The tables of all scales of a library, in its order: those for each kind of melody, made when
/// they are first asked for, by any thread.
class PreparedTables {
  public:
    const std::vector<StageTables>& of(const std::vector<LibraryScale>& scales,
                                       const Strengths& strengths);

  private:
    struct Kind {
        std::once_flag made;
        std::vector<StageTables> tables;
    };
    std::array<Kind, melody_kinds> kinds_;
};

/// Degree `number` (1 is the tonic, 8 the octave of seven degrees) in cents above the tonic.
double degree_cents(const LibraryScale& scale, int number);
/// Where the progression opens, in cents above the tonic: a little above it where the progression
/// ascends, about the dominant where it ascends and descends, about the octave where it descends.
double opening_height(const LibraryScale& scale);
/// True where theory tells the dominant and the direction.
bool progression_known(const LibraryScale& scale);

} // namespace sectio
