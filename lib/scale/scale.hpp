#pragma once
/// @file
/// A scale: degrees above a tonic, as exact intervals, with what is known of each.

#include <sectio/base/error.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>
#include <sectio/interval/stated_pitch.hpp>
#include <sectio/scale/sign_style.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// One degree of a scale. Not a step count: the degree numbers of a scale are positions in it.
struct Degree {
    Interval interval{};                   ///< above the tonic
    std::string written{};                 ///< the expression as the scale's author wrote it
    std::string name{};                    ///< what the trade or the player calls it; may be empty
    std::string note{};                    ///< note name in the author's notation; may be empty
    std::optional<Interval> uncertainty{}; ///< half width of a measured degree, as an interval up
};

/// Degrees, rising; one of them is 1/1, the tonic. Where there is a period, the tonic is the first,
/// all degrees lie within the period, and the period itself closes the scale without being a
/// degree. A set without period may also reach below its tonic.
struct Scale {
    std::string id{};     ///< catalogue id, or empty
    std::string name{};   ///< never empty
    std::string source{}; ///< where the figures come from; may be empty
    std::optional<StatedPitch> tonic{};
    std::optional<TuningReference> reference{};
    std::optional<Interval> period{}; ///< none for a set of pitches that does not repeat
    std::vector<Degree> degrees{};
    Degree closing{}; ///< the period's own name and note, where the author gave them
    std::optional<SignStyle> signs{};   ///< that its tradition or its author writes it with
    std::vector<std::string> remarks{}; ///< what a reader should know of it

    /// True where any degree was measured: such figures are shown only as finely as they were
    /// taken.
    bool measured() const;
    /// Index of the tonic, the degree 1/1.
    std::size_t tonic_index() const;
};

/// Reads a scale file (TOML; docs/scale-files.md). `file_name` stands in errors.
/// @throws Error with file, line and column
Scale read_scale_file(std::string_view toml, const std::string& file_name,
                      const NameLookup& names = nullptr);

/// Reads degrees separated by commas: "9/8, 5/4, 31of53". The period is 2/1.
/// @throws Error with the place in `text`
Scale parse_degrees(std::string_view text, const std::string& source,
                    const NameLookup& names = nullptr);

/// Refuses a scale that does not keep the rules of Scale.
/// @throws Error degrees_not_rising, degree_outside_period, no_tonic_degree, uncertainty_negative
void check_rules(const Scale& scale);

/// Checks and completes a scale: puts 1/1 first, takes a written period out of the degrees.
/// @throws Error degrees_not_rising, degree_outside_period, too_many_degrees, no_degrees
void complete(Scale& scale, const std::vector<Place>& places);

} // namespace sectio
