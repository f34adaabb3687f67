#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/instrument/load_instrument.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/scale/load.hpp>

#include <filesystem>

namespace sectio {

std::optional<Instrument> load_instrument(const std::string& path) {
    if (!path.ends_with(".toml") || !is_file(path))
        return std::nullopt;
    const std::string text = read_text(path, limits::scale_file_bytes);
    if (!looks_like_instrument_file(text))
        return std::nullopt;
    return read_instrument_file(text, path);
}

Scale played_scale(const Instrument& instrument, const Catalogue& catalogue,
                   std::string_view string) {
    const InstrumentString& played = instrument.string(string);
    if (!instrument.fret_scale && instrument.frets.empty())
        throw error(message::instrument_without_frets, instrument.name, {});
    if (!instrument.fret_scale)
        return scale_of(instrument, played);
    Scale scale =
        to_scale(load_named_scale(*instrument.fret_scale, catalogue, instrument.fret_scale_place));
    scale.reference = instrument.reference;
    if (played.open)
        scale.tonic = played.open;
    return scale;
}

} // namespace sectio
