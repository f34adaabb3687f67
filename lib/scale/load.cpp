#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/written_pitch.hpp>

#include <algorithm>
#include <array>
#include <filesystem>

namespace sectio {

namespace {

/// True unless the text might be meant as a ratio, `3/2`, that a folder happens to be called like.
bool is_path(std::string_view text) {
    return text.find_first_not_of("0123456789/:,;") != text.npos || text.starts_with('/');
}

/// A number of equal steps alone, `31` or `13(3/1)`.
std::optional<EqualDivision> steps_of(std::string_view text, const Place& place) {
    const std::string_view written = trimmed(text);
    const std::size_t end = std::min(written.find_first_not_of("0123456789"), written.size());
    const bool counts = end > 0 && (end == written.size() || written[end] == '(');
    return counts ? std::optional(parse_division(written, place)) : std::nullopt;
}

/// "D E F#": notes without their octaves, which parse_pitches() asks for.
bool lists_notes(std::string_view text) {
    for (text = trimmed(text); !text.empty();) {
        const std::size_t end = std::min(text.find(' '), text.size());
        if (!is_note_name(text.substr(0, end)))
            return false;
        text = trimmed(text.substr(end));
    }
    return true;
}

/// "31" of "31 equal steps", "31-EDO" and the like; empty for anything else.
std::string_view steps_in_words(std::string_view text) {
    static constexpr std::array words{"edo", "et", "tet", "step", "equal", "tone", "note"};
    const std::size_t end = std::min(text.find_first_not_of("0123456789"), text.size());
    const std::string_view rest =
        text.substr(std::min(text.find_first_not_of(" -", end), text.size()));
    const std::string said = folded(rest.substr(0, rest.find_first_of(" -")));
    const bool begins =
        std::ranges::any_of(words, [&](std::string_view word) { return said.starts_with(word); });
    return begins ? text.substr(0, end) : std::string_view();
}

/// Refuses a number of steps in words, a scale's name behind its tonic, and a pitch alone.
void check_argument(std::string_view text, const Catalogue& catalogue, const Place& place,
                    const Accepted& is_scale) {
    if (const std::string_view steps = steps_in_words(text); !steps.empty())
        throw error(message::steps_in_words, text, place, steps);
    if (looks_like_pitch(text) && text.find_first_of(",; \n") == text.npos)
        throw error(message::pitch_is_no_scale, text, place, text);
    const std::size_t blank = std::min(text.find(' '), text.size());
    const std::string_view note = text.substr(0, blank), rest = trimmed(text.substr(blank));
    if (is_note_name(note) && !rest.empty() && entry_called(catalogue, rest, is_scale))
        throw error(message::tonic_before_name, text, place, rest, note);
}

/// A catalogue id, a number of steps, a name, or a list; what is none of them is `unknown`.
LoadedScale named_or_listed(const std::string& text, const Catalogue& catalogue, const Place& place,
                            Message unknown) {
    if (is_id(text) && catalogue.find(text))
        return catalogue.scale(text);
    if (const auto steps = steps_of(text, place))
        return as_scale(*steps);
    const Accepted is_scale = [](const Entry& entry) { return entry.scale() != nullptr; };
    if (const auto entry = entry_called(catalogue, text, is_scale))
        return *entry->scale();
    check_argument(trimmed(text), catalogue, place, is_scale);
    if (text.find_first_of("0123456789,;") == std::string::npos && !lists_notes(text))
        throw error(unknown, text, place, suggestion(catalogue, text, is_scale));
    return parse_pitches(text, place, catalogue.names());
}

} // namespace

LoadedScale load_named_scale(const std::string& text, const Catalogue& catalogue,
                             const Place& place) {
    return named_or_listed(text, catalogue, place, message::unknown_named_scale);
}

LoadedScale load_scale_argument(const std::string& text, const ScaleSources& sources) {
    const Catalogue& catalogue = sources.catalogue;
    const NameLookup names = catalogue.names();
    if (text == "-")
        return read_pitches(read_text(sources.input, "standard input", limits::table_bytes),
                            "standard input", names);
    const bool known = is_id(text) && catalogue.find(text);
    if (!known && names_a_file(text))
        return read_pitches(read_text(text, limits::table_bytes), text, names);
    std::error_code ignored;
    if (!known && is_path(text) && std::filesystem::is_directory(text, ignored)
        && catalogue.named(text).empty())
        throw error(message::scale_is_directory, text, {"SCALE"});
    return named_or_listed(text, catalogue, {"SCALE"}, message::unknown_scale);
}

namespace {

/// The list with its notes where the reference puts them, its frequencies as they were. Notes were
/// read from A4 = 440 Hz, those of a tuner's table from the list's own reference.
PitchList at_reference(PitchList list, const std::optional<TuningReference>& reference) {
    if (!list.zero || list.pitches.empty())
        return list;
    const Pitch a4 = reference_of(reference, list.reference);
    const Interval notes = a4 - Pitch::concert_a(), tuned_notes = a4 - reference_of(list.reference);
    if (notes.is_unison() && tuned_notes.is_unison())
        return list;
    const auto moved = [&](const ListedPitch& pitch) {
        if (!pitch.sounds || !pitch.sounds->note())
            return Interval();
        return pitch.above.basis == Basis::tuner ? tuned_notes : notes;
    };
    const Interval zero = moved(list.pitches.front());
    for (ListedPitch& pitch : list.pitches)
        pitch.above.figure += moved(pitch) - zero;
    *list.zero = *list.zero + zero;
    return list;
}

} // namespace

Scale to_scale(const LoadedScale& loaded) {
    const auto* scale = std::get_if<Scale>(&loaded);
    return scale ? *scale : to_scale(to_list(loaded));
}

PitchList to_list(const LoadedScale& loaded) {
    const auto* list = std::get_if<PitchList>(&loaded);
    return list ? at_reference(*list, std::nullopt) : to_list(std::get<Scale>(loaded));
}

Melody to_melody(const LoadedScale& loaded) {
    return to_melody(to_list(loaded));
}

TunedScale tuned(const LoadedScale& loaded, const TuningOptions& options) {
    const auto* read = std::get_if<PitchList>(&loaded);
    if (!read || !read->zero)
        return tuned(to_scale(loaded), options);
    const PitchList list = at_reference(*read, options.reference);
    if (!options.tonic)
        return tuned(to_scale(list), options);
    const Pitch a4 = reference_of(options.reference, list.reference);
    const std::size_t index = listed_tonic(list, options.tonic->at(a4), {"--tonic"});
    return tuned(to_scale(list, index), {std::nullopt, options.reference});
}

Scale kept_scale(const LoadedScale& loaded, const TuningOptions& options) {
    const TunedScale on_tonic = tuned(loaded, options);
    Scale scale = on_tonic.scale();
    if (options.tonic)
        scale.tonic = on_tonic.tonic().stated;
    if (options.reference)
        scale.reference = options.reference;
    return scale;
}

Scale load_scale(const std::string& text, const Catalogue& catalogue, std::istream& input) {
    return to_scale(load_scale_argument(text, {catalogue, input}));
}

Melody load_melody(const std::string& text, const Catalogue& catalogue, std::istream& input) {
    return to_melody(load_scale_argument(text, {catalogue, input}));
}

Scale as_scale(const EqualDivision& division) {
    if (division.steps() > limits::scale_degrees)
        throw error(message::too_many_degrees, division.text(), {}, limits::scale_degrees);
    Scale scale;
    scale.name = division.text() + " equal steps";
    scale.period = division.period();
    for (Integer step = 1; step < division.steps(); ++step) {
        const Interval size = division.at(step);
        scale.degrees.push_back({size, to_expression(size), "", "", std::nullopt});
    }
    complete(scale, {});
    return scale;
}

} // namespace sectio
