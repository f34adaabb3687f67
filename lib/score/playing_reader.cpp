#include <sectio/base/text_cursor.hpp>
#include <sectio/score/context_readers.hpp>
#include <sectio/score/read_values.hpp>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

namespace sectio::score {

namespace {

/// Quarter notes of a note value. Source: MusicXML 4.0, simple type note-type-value.
std::optional<QuarterNotes> quarters(std::string_view type) {
    constexpr std::array names{"maxima", "long", "breve", "whole", "half",  "quarter", "eighth",
                               "16th",   "32nd", "64th",  "128th", "256th", "512th",   "1024th"};
    for (std::size_t i = 0; i < names.size(); ++i)
        if (type == names[i])
            return i < 5 ? QuarterNotes(32 >> i, 1) : QuarterNotes(1, std::int64_t{1} << (i - 5));
    return std::nullopt;
}

/// A number above 0 that an attribute or text has; tempos and loudness beyond 10,000 mean nothing.
std::optional<QuarterNotes> positive(std::string_view text) {
    const std::optional<QuarterNotes> value = decimal_number(text);
    const bool usable = value && *value > QuarterNotes() && *value <= QuarterNotes(10'000, 1);
    return usable ? value : std::nullopt;
}

/// The first number in "c. 96" or "96-104".
std::string_view first_number(std::string_view text) {
    constexpr std::string_view digits = "0123456789";
    text.remove_prefix(std::min(text.find_first_of(digits), text.size()));
    const std::size_t whole = std::min(text.find_first_not_of(digits), text.size());
    const bool decimals = whole + 1 < text.size() && text[whole] == '.'
                          && digits.find(text[whole + 1]) != digits.npos;
    return text.substr(0, decimals ? text.find_first_not_of(digits, whole + 1) : whole);
}

/// The passes up to 31 that "1, 2" names, as bits; 0 where it names none.
std::uint32_t passes_of(std::string_view text) {
    std::uint32_t passes = 0;
    for (const int pass : numbers_of_passes(text))
        passes |= pass <= 31 ? 1U << (pass - 1) : 0U;
    return passes;
}

/// How often a repeat is played; more than Bar::most_times is that.
int times_of(const XmlStart& start) {
    const std::string_view text = trimmed(attribute(start, "times"));
    const bool beyond = text.size() > std::to_string(Bar::most_times).size()
                        && text.find_first_not_of("0123456789") == text.npos && text[0] != '0';
    return beyond ? Bar::most_times : counting_attribute(start, "times", Bar::most_times, 2);
}

} // namespace

void PlayingReader::open(Tag tag, const XmlStart& start, const XmlCursor& /*cursor*/) {
    switch (tag) {
    case Tag::repeat:
        open_repeat(start);
        break;
    case Tag::ending:
        open_ending(start);
        break;
    case Tag::sound:
        open_sound(start);
        break;
    case Tag::sound_instrument: {
        const std::string& first = builder_.state().instrument;
        of_first_ = first.empty() || attribute(start, "id") == first;
        break;
    }
    case Tag::direction:
        marked_tempo_.reset();
        sounded_ = false;
        break;
    case Tag::offset:
        sounds_ = attribute(start, "sound") == "yes";
        break;
    case Tag::metronome:
        metronome_ = {};
        break;
    case Tag::beat_unit_dot:
        ++metronome_.dots;
        break;
    default:
        break;
    }
}

void PlayingReader::open_repeat(const XmlStart& start) {
    Bar& bar = builder_.score.bars.back();
    if (attribute(start, "direction") == "forward")
        bar.repeat_begins = true;
    else
        bar.times = times_of(start);
}

void PlayingReader::open_ending(const XmlStart& start) {
    Bar& bar = builder_.score.bars.back();
    if (attribute(start, "type") == "start")
        bar.passes = passes_of(attribute(start, "number"));
    else
        bar.ending_ends = true;
}

void PlayingReader::open_sound(const XmlStart& start) {
    const auto tempo = positive(attribute(start, "tempo"));
    const auto loudness = positive(attribute(start, "dynamics"));
    sounded_ = sounded_ || tempo;
    marked_ = tempo || loudness;
    passes_ = builder_.passes(attribute(start, "time-only"));
    if (marked_)
        mark(tempo, loudness).passes = passes_;
    for (const char* jump : {"dacapo", "dalsegno", "tocoda"})
        builder_.score.jumps += start.attributes.find(jump) ? 1 : 0;
}

void PlayingReader::close(Tag tag, std::size_t /*offset*/, std::string_view text,
                          const XmlCursor& cursor) {
    PartState& state = builder_.state();
    Score& score = builder_.score;
    if (tag == Tag::bar_style && trimmed(text) == "light-heavy" && state.last_note)
        score.notes[*state.last_note].flags |= Note::phrase_end;
    else if (tag == Tag::words)
        builder_.look_for_makam(text);
    else if (tag == Tag::beat_unit)
        metronome_.unit = quarters(trimmed(text));
    else if (tag == Tag::per_minute)
        metronome_.per_minute = positive(first_number(text));
    else if (tag == Tag::metronome)
        close_metronome();
    else if (tag == Tag::offset && sounds_)
        offset_ = offset(text);
    else if (tag == Tag::sound_offset && marked_)
        score.played.back().at = state.cursor + offset(text);
    else if (tag == Tag::sound_program && of_first_)
        change_program(midi_program(text, cursor));
    else if (tag == Tag::direction) {
        if (marked_tempo_ && !sounded_)
            mark(marked_tempo_, std::nullopt);
        offset_ = {};
    }
}

PlayingMark& PlayingReader::mark(std::optional<QuarterNotes> tempo,
                                 std::optional<QuarterNotes> loudness) {
    Score& score = builder_.score;
    return score.played.emplace_back(
        PlayingMark{builder_.state().cursor + offset_, static_cast<std::uint16_t>(builder_.part),
                    static_cast<std::uint32_t>(score.bars.size() - 1), tempo, loudness});
}

/// The present <sound> changes the program of its part.
void PlayingReader::change_program(int program) {
    if (!std::exchange(marked_, true))
        mark(std::nullopt, std::nullopt).passes = passes_;
    builder_.score.played.back().program = program;
}

/// Quarter notes of an <offset>; none where it has no number.
QuarterNotes PlayingReader::offset(std::string_view divisions) {
    return decimal_number(divisions).value_or(QuarterNotes()) / builder_.state().divisions;
}

/// Quarters a minute: each dot adds half of what the one before added.
void PlayingReader::close_metronome() {
    if (!metronome_.unit || !metronome_.per_minute || metronome_.dots > 3)
        return;
    const std::int64_t twice = std::int64_t{1} << metronome_.dots;
    const QuarterNotes quarters = *metronome_.unit * QuarterNotes(2 * twice - 1, twice);
    marked_tempo_ = *metronome_.per_minute * quarters;
}

} // namespace sectio::score
