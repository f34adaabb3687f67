#pragma once
/// @file
/// How much sharper a string sounds because pressing it onto a fret stretches it.
///
/// A string at rest runs straight from nut to bridge above the frets. Pressed until it meets the
/// fret at the distance x from the nut, at the depth h below its rest, it is longer by
///     ΔL = √(x² + h²) + √((L − x)² + h²) − L,
/// its tension T rises by E·A·ΔL/L (Hooke's law; A = πd²/4 for a plain string of the gauge d), and
/// its frequency by the factor √(1 + E·A·ΔL/(L·T)).
/// Source: G. U. Varieschi, C. M. Gower, "Intonation and compensation of fretted string
/// instruments", Am. J. Phys. 78 (2010) 47-55, arXiv:0906.0127. They also have the finger press the
/// string to the board behind the fret; here that is part of the uncertainty.
///
/// The model is in doubles: it is off by per cents, they by 1e-12.

#include <optional>

namespace sectio {

/// What must be known of a string to compute its stretch; lengths in mm.
struct StretchedString {
    double length;  ///< vibrating, from nut to saddle
    double gauge;   ///< diameter of the plain string, or of the core of a wound one
    double modulus; ///< Young's modulus of what the gauge measures, in GPa (kN/mm²)
    double tension; ///< of the open string, in N
};

/// The tension in N of a string of `unit_mass` (g/m) that sounds `hertz` at `length` mm: µ(2Lf)².
double tension_of(double unit_mass, double length, double hertz);

/// How far the string lies above the fret at `from_nut`, in mm, where `action` is its height above
/// the fret at half its length and nothing at the nut (a nut as high as the frets). Lutherie states
/// the action at the fret of the octave; that it grows evenly from the nut is common practice
/// (straight neck, no source).
double clearance(double action, double length, double from_nut);

/// @throws Error unfit_argument here and below, for what no string has
/// By how many cents the string sharpens when it is pressed down by `depth` mm at `from_nut` mm.
double stretch_cents(const StretchedString& string, double from_nut, double depth);

/// How far the saddle must stand behind the nominal length, in mm, so that the place `from_nut` of
/// the nominal `length` sounds the interval that it would without stretch:
///     (L + c)·ρ/(L + c − x) = L/(L − x), ρ the frequency factor of the stretch at that place.
double compensation_for(const StretchedString& string, double from_nut, double depth);

} // namespace sectio
