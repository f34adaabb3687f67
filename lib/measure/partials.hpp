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
    double hidden = 0; ///< amplitude of a drone's partial at the same place, as a part of its own
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
    double weight = 0; ///< power times frequency of the partials: how loud they are as a whole
    double foreign_power = 0; ///< of peaks that are no partial
    int holes = 0;            ///< partials missing below the highest one
    double score = 0;

    bool has(int number) const;
    double place(int number) const; ///< in Hz, by the model
};

std::vector<Peak> peaks_of(const NoteSpectra& spectra);

/// The set that explains the peaks with the fewest partials missing, among those whose fundamental
/// is `about_hz` times or divided by a small number. A peak speaks for a set by its height above
/// the noise; a missing partial speaks against it. Of two sets, one of which is part of the other,
/// the higher one is chosen where the rest is a softer sound; but not where a drone covers the
/// first partial of the lower one (`covered`: the frequencies of peaks that were left out) and
/// `about_hz`, which was found beside the drone, is that one's.
PartialSet best_partials(const std::vector<Peak>& peaks, const NoteSpectra& spectra,
                         double about_hz, const std::vector<double>& covered = {});

/// The first partial of a bar with free ends, whose others lie 2.756, 5.404 and 8.933 times as high
/// (Lord Rayleigh, "The Theory of Sound", 1877, § 170ff.; from memory): such a bar is heard at its
/// first partial. Empty where the strong peaks lie elsewhere.
PartialSet bar_partial(const std::vector<Peak>& peaks);

/// Whether more than one note must be sounding: peaks with much power belong to no partial, or the
/// lowest partials and many others are missing, as in a just chord over its own fundamental.
/// Over a drone partials may be hidden, and none is missed.
bool several_notes(const PartialSet& set, bool over_drone = false);

} // namespace sectio::measure
