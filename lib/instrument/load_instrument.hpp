#pragma once
/// @file
/// Instrument files where a scale is needed.

#include <sectio/instrument/instrument.hpp>
#include <sectio/scale/catalogue.hpp>

#include <optional>
#include <string>
#include <string_view>

namespace sectio {

/// The instrument in the file `path`; nothing where there is no such file, or it holds none.
/// @throws Error of read_instrument_file(), cannot_read
std::optional<Instrument> load_instrument(const std::string& path);

/// What sounds on one string of an instrument: its measured frets, or the scale that its file
/// names, on the open string. @throws Error instrument_without_frets, unknown_string, and those of
/// load_scale()
Scale played_scale(const Instrument& instrument, const Catalogue& catalogue,
                   std::string_view string = {});

} // namespace sectio
