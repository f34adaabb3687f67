#pragma once
/// @file
/// Private to lib/measure: which partials a note has, and so which pitch it can have.

#include <sectio/measure/note_spectra.hpp>

#include <vector>

namespace sectio::measure {

/// A maximum of a note's mean spectrum that stands out of its noise.
struct Peak {
    double hz = 0;
    double power = 0; ///< without the noise
    double above_noise_db = 0;
};

/// A peak that is the partial `number` of the note; 1 is the lowest.
struct Partial {
    int number = 1;
    Peak peak;
};

/// Partials of one string or pipe, f(n) = n f √(1 + B n²), as far as they were found.
struct PartialSet {
    double fundamental_hz = 0; ///< f
    double inharmonicity = 0;  ///< B
    std::vector<Partial> partials;
    double explained_power = 0;
    double foreign_power = 0; ///< of peaks that are no partial
    int holes = 0;            ///< partials missing below the highest one
    double score = 0;

    bool has(int number) const;
};

std::vector<Peak> peaks_of(const NoteSpectra& spectra);

/// The set that explains the peaks with the fewest partials missing, among those whose fundamental
/// is `about_hz` times or divided by a small number. A peak speaks for a set by its height above
/// the noise; a missing partial speaks against it.
PartialSet best_partials(const std::vector<Peak>& peaks, const NoteSpectra& spectra,
                         double about_hz);

/// Whether more than one note must be sounding: peaks with much power belong to no partial, or the
/// lowest partials and many others are missing, as in a just chord over its own fundamental.
bool several_notes(const PartialSet& set);

} // namespace sectio::measure
