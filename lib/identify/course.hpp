#pragma once
/// @file
/// Private to lib/measure: the course of a melody, and what theory makes of it. Each part is
/// explained in docs/identification.md.

#include <sectio/identify/library.hpp>
#include <sectio/scale/melody.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// A pitch in cents above the melody's zero, and its share of something.
struct Share {
    double cents = 0;
    double share = 0;
};

/// What the model looks at in a melody. All pitches in cents above Melody::zero.
struct Course {
    std::vector<Share> pitches; ///< the different pitches, rising, by duration; shares add up to 1
    std::vector<Share> rests;   ///< the notes that phrases end on, by number; empty for a bag
    double notes = 0;           ///< how many notes there are
    double resting_notes = 0;
    bool in_time = false;
    double final_cents = 0;     ///< last note
    double beginning_cents = 0; ///< mean over the first part
    double mean_cents = 0;      ///< mean over all
    bool written = false;       ///< zero is the written C4
    bool in_commas = false;     ///< all pitches are whole commas of 53, and not all are semitones
};

Course course_of(const Melody& melody);

/// Logarithms of likelihood ratios against a melody whose notes are strewn evenly, part by part.
struct CourseEvidence {
    double place = 0; ///< where the tonic stands in the notation, and what it is counted in
    double final_note = 0;
    double pitches = 0;
    double rests = 0;
    double beginning = 0;
    double mean = 0;
    double prior = 0; ///< before the melody is looked at, among the scales of the catalogue
    double total() const { return place + final_note + pitches + rests + beginning + mean + prior; }
};

/// The evidence for `scale` with its first degree at `tonic`, in cents above the zero.
CourseEvidence course_evidence(const Course& course, const LibraryScale& scale, double tonic);

/// The evidence that the melody is in a scale that the catalogue lacks.
double unknown_scale_evidence(const Course& course);

/// The evidence in words, for people.
std::vector<std::string> course_text(const Course& course, const LibraryScale& scale, double tonic,
                                     const CourseEvidence& evidence);

} // namespace sectio
