#pragma once
/// @file
/// Pitches that a page lets its reader hear. Only HTML has a player for them; on paper they are
/// left out.

#include <sectio/page/cell.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio::page {

/// A key of 12 equal steps beside a degree.
struct NeighbourKey {
    NoteInOctave note;
    Pitch pitch;
    Cell deviation; ///< the degree minus this key, in cents with its sign
};

struct SoundedDegree {
    std::string number;
    std::string name; ///< may be empty
    Pitch pitch;
    Cell cents;                               ///< above the tonic
    std::optional<NeighbourKey> below, above; ///< a degree on a key has that one below, none above
};

/// A scale to be played, and to be recognised by ear of the microphone.
struct Sounds {
    std::vector<SoundedDegree> degrees;
    std::optional<Interval> period; ///< in which all degrees come again
    Pitch drone;
    std::string drone_name; ///< "D3"
};

/// The player as an element of HTML, hidden until its script runs. Labels of figures have one
/// digit.
std::string player_html(const Sounds& sounds);
/// What the page's head needs for it: rules of style, and the script, once a page.
std::string player_style();
std::string player_script();

} // namespace sectio::page
