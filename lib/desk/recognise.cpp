#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/desk/thing.hpp>
#include <sectio/instrument/fret_text.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/pitch.hpp>
#include <sectio/measure/pitch_track.hpp>
#include <sectio/measure/readings.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/score/score.hpp>
#include <sectio/source/source.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <functional>
#include <optional>
#include <sstream>

namespace sectio::desk {

namespace {

std::string counted(std::size_t count, const std::string& what) {
    return fmt::format("{} {}{}", count, what, count == 1 ? "" : "s");
}

/// In words, what each content is.
struct Describer {
    Recognised operator()(const Scale& scale) const {
        return {"scale", fmt::format("{}: {}", scale.name, counted(scale.degrees.size(), "degree")),
                ""};
    }
    Recognised operator()(const PitchList& list) const {
        return {list.rising ? "scale" : "pitches",
                fmt::format("{}: {} {}", list.name, list.pitches.size(),
                            list.pitches.size() == 1 ? "pitch" : "pitches"),
                ""};
    }
    Recognised operator()(const Instrument& instrument) const {
        const std::string frets = instrument.fret_scale ? "frets by a scale"
                                  : instrument.frets.empty()
                                      ? "no frets"
                                      : counted(instrument.frets.size(), "fret");
        return {"instrument",
                fmt::format("{}: {}, {}", instrument.name,
                            counted(instrument.strings.size(), "string"), frets),
                ""};
    }
    Recognised operator()(const score::Document& document) const {
        const score::Score score = score::read_score(document);
        const std::string& title = score.page.work.empty() ? score.page.movement : score.page.work;
        return {"score",
                (title.empty() ? "" : title + ": ") + counted(score.notes.size(), "note") + ", "
                    + counted(score.parts.size(), "part"),
                ""};
    }
    Recognised operator()(const midi::File& file) const {
        return {"midi", "MIDI file: " + counted(file.tracks.size(), "track"), ""};
    }
    Recognised operator()(const source::Messages&) const {
        return {"messages", "tuning data for a synthesizer", ""};
    }
    Recognised operator()(const source::Recording& sound) const {
        return {"recording",
                fmt::format("recording: {:.1f} s, {} frames a second, {}",
                            static_cast<double>(sound.frames) / sound.rate, sound.rate,
                            counted(static_cast<std::size_t>(sound.channels), "channel")),
                ""};
    }
    Recognised operator()(const source::Folder&) const { return {"", "a folder", ""}; }
};

/// Tables that are no scale: places of frets, or a pitch over time.
std::optional<Recognised> other_table(const std::string& name) {
    const std::string text = read_text(name, limits::table_bytes);
    try {
        return Recognised{
            "places",
            "places of frets: " + counted(read_fret_table(text, name).readings.size(), "fret"), ""};
    } catch (const Error&) {
    }
    try {
        const auto track = measure::read_pitch_track(text, name, 0.01);
        return Recognised{"track", "pitch over time: " + counted(track.hz.size(), "value"), ""};
    } catch (const Error&) {
        return std::nullopt;
    }
}

/// `text` with a comma where a blank or the end of a line stands between pitches.
std::string with_commas(std::string_view text) {
    std::istringstream words{std::string(text)};
    std::string joined;
    for (std::string word; words >> word;) {
        if (!joined.empty())
            joined += joined.back() == ',' || joined.back() == ';' ? " " : ", ";
        joined += word;
    }
    return joined;
}

/// `text` with what separates its lines made commas.
std::string one_line(std::string text) {
    while (!text.empty() && std::isspace(static_cast<unsigned char>(text.back())) != 0)
        text.pop_back();
    text.erase(0, std::min(text.find_first_not_of(" \t\r\n"), text.size()));
    std::string line;
    for (const char c : text)
        if (c == '\n')
            line += line.ends_with(',') || line.ends_with(';') ? " " : ", ";
        else if (c != '\r')
            line += c;
    return line;
}

Recognised scale_text(const std::string& text) {
    const LoadedScale loaded = load_named_scale(text, Catalogue::installed(), {"typed"});
    Recognised found = std::visit(Describer(), loaded);
    found.text = text;
    return found;
}

std::optional<Recognised> entry_text(const std::string& text) {
    const auto entry =
        entry_called(Catalogue::installed(), text, [](const Entry&) { return true; });
    if (!entry)
        return std::nullopt;
    return Recognised{entry->scale() ? "scale" : "interval", entry->name, entry->id};
}

std::optional<Recognised> interval_text(const std::string& text) {
    try {
        const Interval interval = parse_interval(text, {}, Catalogue::installed().names());
        return Recognised{"interval", "interval of " + interval.cents(3) + " cents", text};
    } catch (const Error&) {
        return std::nullopt;
    }
}

} // namespace

Recognised recognise_file(const std::string& name) {
    const auto describe = [&] { return std::visit(Describer(), source::open(name).content); };
    const std::string ending = std::filesystem::path(name).extension().string();
    if (ending != ".csv" && ending != ".tsv" && ending != ".txt")
        return describe();
    try {
        return describe();
    } catch (const Error&) {
        if (const auto table = other_table(name))
            return *table;
        throw;
    }
}

Recognised recognise_text(const std::string& typed) {
    const std::string text = one_line(typed);
    if (const auto entry = entry_text(text))
        return *entry;
    if (!text.empty() && text.find_first_not_of("0123456789") == text.npos)
        return scale_text(text); // so many equal steps, as to every command
    if (const auto interval = interval_text(text))
        return *interval;
    // Between commas each pitch stands for itself to every command.
    for (const auto make : {with_commas, measure::readings_as_pitches})
        try {
            if (const std::string made = make(text); made != text)
                return scale_text(made);
        } catch (const Error&) { // what was written counts, not what was made of it
        }
    return scale_text(text);
}

std::vector<Match> matches_of(const std::string& text, std::size_t most) {
    std::istringstream stream(text);
    std::vector<std::string> words;
    for (std::string word; stream >> word;)
        words.push_back(word);
    std::vector<Match> matches;
    if (words.empty())
        return matches;
    try {
        for (const Entry* entry : look_up(Catalogue::installed(), words).all())
            if (matches.size() < most)
                matches.push_back({entry->id, entry->name, entry->scale() ? "scale" : "interval"});
    } catch (const Error&) { // nothing is found
    }
    return matches;
}

} // namespace sectio::desk
