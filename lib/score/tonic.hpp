#pragma once
/// @file
/// Private to lib/score: the note that a tuning starts from, as both a pitch and a written note.

#include <sectio/scale/tuned_scale.hpp>
#include <sectio/score/written.hpp>

#include <string>

namespace sectio::score {

struct WrittenTonic {
    int key;            ///< base_key() of the note
    Interval deviation; ///< of the pitch from that key
    WrittenPitch note;  ///< as it was written; for a frequency the usual name of the nearest key
    std::string text;
};

WrittenTonic written_tonic(const Tonic& tonic, const Pitch& a4);

} // namespace sectio::score
