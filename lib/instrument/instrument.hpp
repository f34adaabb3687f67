#pragma once
/// @file
/// A stringed instrument as a workshop writes it down: its strings, its frets, its action.

#include <sectio/base/toml.hpp>
#include <sectio/instrument/measured_frets.hpp>
#include <sectio/interval/pitch.hpp>
#include <sectio/scale/scale.hpp>

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sectio {

/// One string, and what is known of it.
struct InstrumentString {
    std::string name;
    std::optional<StatedPitch> open;    ///< "D4"; sounding by the instrument's reference
    MeasuredLength length;              ///< nominal, from nut to bridge
    bool fretted = true;                ///< false for a drone that passes beside the frets
    std::optional<Length> gauge;        ///< diameter of the plain string or of a wound one's core
    std::optional<Rational> tension;    ///< N
    std::optional<Rational> unit_mass;  ///< g/m
    std::optional<Rational> modulus;    ///< Young's modulus of what the gauge measures, GPa
    std::optional<Length> compensation; ///< where it differs from the instrument's
};

/// An instrument. Frets stand as they were measured, or as the name of the scale that they make.
struct Instrument {
    std::string name;
    std::string kind;   ///< "zither"; may be empty
    std::string source; ///< who measured it and how; may be empty
    std::optional<TuningReference> reference;
    std::vector<InstrumentString> strings;
    std::vector<FretReading> frets; ///< from the nut; empty where `fret_scale` is given, or none
    std::optional<std::string> fret_scale; ///< a catalogue id or intervals
    Place fret_scale_place;
    Length compensation;
    std::optional<MeasuredLength> action; ///< at half the length of a string
    std::vector<std::string> remarks;

    /// The string called `name` (in any case, without diacritics), or without a name the first that
    /// is fretted. @throws Error unknown_string, nothing_fretted
    const InstrumentString& string(std::string_view wanted = {}) const;
};

/// Reads an instrument file (TOML; docs/instrument-files.md). `file_name` stands in errors.
/// @throws Error with file, line and column
Instrument read_instrument_file(std::string_view toml, const std::string& file_name);

/// The same of a document that was parsed.
Instrument read_instrument(const TomlValue& document);

/// True where TOML text has the key `strings` of an instrument and not the `degrees` of a scale.
bool looks_like_instrument_file(std::string_view text);

/// What is known of how a string is pressed: gauge, modulus, action, and tension or its mass and
/// open pitch. Nothing where any of these is unknown.
std::optional<Pressing> pressing_of(const Instrument& instrument, const InstrumentString& string);

/// The measured frets of one string. @throws Error of measure_frets()
MeasuredFrets frets_of(const Instrument& instrument, const InstrumentString& string);

/// What sounds on a string, as a scale on its open pitch: its measured frets with their half
/// widths, as a set that does not repeat. Precondition: the frets were measured.
Scale scale_of(const Instrument& instrument, const InstrumentString& string);

} // namespace sectio
