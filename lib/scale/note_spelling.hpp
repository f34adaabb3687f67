#pragma once
/// @file
/// Which of its names a key takes where it is a degree of a scale.

#include <sectio/interval/pitch.hpp>
#include <sectio/scale/scale.hpp>

#include <cstddef>
#include <optional>
#include <vector>

namespace sectio {

/// A tonic whose name somebody wrote: it keeps it.
struct NamedTonic {
    NoteInOctave note;
    std::size_t index = 0; ///< among the degrees
};

/// The keys' names for a scale that has one degree a letter: seven degrees go up the letters from
/// the tonic's (E♭ and F♯ after D, not D♯ and F♯; C D♭ E♭♭ F, not D after D♭) where double
/// accidentals suffice; any other scale takes usual_note(). A note name that the author gave
/// decides where it names the same key. @throws Error unfit_argument unless there are
/// as many keys as degrees
std::vector<NoteInOctave> spelled(const std::vector<int>& keys, const std::vector<Degree>& degrees,
                                  const std::optional<NamedTonic>& tonic = std::nullopt);

} // namespace sectio
