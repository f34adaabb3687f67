#pragma once
/// @file
/// SCALE as commands take it: a catalogue id or name, a number of equal steps, a file of any kind
/// that is read, "-" for standard input, or intervals or pitches in one argument.

#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/scale/tuned_scale.hpp>

#include <istream>
#include <string>
#include <variant>
#include <vector>

namespace sectio {

/// Where SCALE is looked for.
struct ScaleSources {
    const Catalogue& catalogue;
    std::istream& input; ///< read for "-"
};

/// A scale of the catalogue, or pitches that were read.
using LoadedScale = std::variant<Scale, PitchList>;

/// Finds out what `text` is and reads it. A catalogue id goes first, then an existing file, then a
/// number of equal steps (`31`, `13(3/1)`), then a name of the catalogue, then a list.
/// @throws Error with place and advice
LoadedScale load_scale_argument(const std::string& text, const ScaleSources& sources);

/// The same for text that comes from a file, which never makes another file be read: a catalogue id
/// or name, or a list. @throws Error with `place` and advice
LoadedScale load_named_scale(const std::string& text, const Catalogue& catalogue,
                             const Place& place);

/// What was loaded as a scale, as a list, as a melody.
Scale to_scale(const LoadedScale& loaded);
PitchList to_list(const LoadedScale& loaded);
Melody to_melody(const LoadedScale& loaded);

/// What was loaded on its tonic. Where frequencies were measured, a tonic that is asked for is the
/// listed pitch nearest to it, which keeps its frequency.
/// @throws Error tonic_not_listed, and those of tuned()
TunedScale tuned(const LoadedScale& loaded, const TuningOptions& options);

/// The same as a scale that keeps the tonic and the reference which were asked for.
Scale kept_scale(const LoadedScale& loaded, const TuningOptions& options);

/// The same in one step.
Scale load_scale(const std::string& text, const Catalogue& catalogue, std::istream& input);
Melody load_melody(const std::string& text, const Catalogue& catalogue, std::istream& input);

/// The degrees of a division as a scale: 0of12, 1of12, …
/// @throws Error too_many_degrees
Scale as_scale(const EqualDivision& division);

} // namespace sectio
