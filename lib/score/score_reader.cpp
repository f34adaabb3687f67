#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/score_reader.hpp>

#include <algorithm>

namespace sectio::score {

namespace {

/// White space as one space each: part names are broken into lines for the page.
std::string one_line(std::string_view text) {
    std::string out;
    for (const char c : trimmed(text)) {
        const bool space = c == ' ' || c == '\t' || c == '\r' || c == '\n';
        if (!space)
            out += c;
        else if (out.back() != ' ')
            out += ' ';
    }
    return out;
}

Error bad_number(std::string_view element, std::string_view text, const XmlCursor& cursor) {
    return error(message::score_number, text, cursor.place(), element);
}

Beats number(std::string_view element, std::string_view text, const XmlCursor& cursor) {
    const std::optional<Beats> value = decimal_number(text);
    if (!value)
        throw bad_number(element, text, cursor);
    return *value;
}

/// A whole number from -limit to limit.
int whole(std::string_view element, std::string_view text, int limit, const XmlCursor& cursor) {
    const Beats value = number(element, text, cursor);
    if (value.den() != 1 || value.num() < -limit || value.num() > limit)
        throw bad_number(element, text, cursor);
    return static_cast<int>(value.num());
}

constexpr int largest_staff = 10'000;

int staff_attribute(const XmlStart& start) {
    const auto text = start.attributes.find("number");
    const std::optional<Beats> value = text ? decimal_number(*text) : std::nullopt;
    const bool usable =
        value && value->den() == 1 && value->num() > 0 && value->num() < largest_staff;
    return usable ? static_cast<int>(value->num()) : 0;
}

char letter(std::string_view text, const XmlCursor& cursor) {
    const std::string_view step = trimmed(text);
    if (step.size() != 1 || step[0] < 'A' || step[0] > 'G')
        throw error(message::score_step, text, cursor.place());
    return step[0];
}

/// The value that holds for `staff`: its own, or that of every staff, or none (0).
std::uint16_t of_staff(const std::map<int, std::uint16_t>& values, int staff) {
    for (const int wanted : {std::max(staff, 1), 0})
        if (const auto found = values.find(wanted); found != values.end())
            return found->second;
    return 0;
}

/// A new value for every staff replaces those of single staves.
void set_of_staff(std::map<int, std::uint16_t>& values, int staff, std::uint16_t value) {
    if (staff == 0)
        values.clear();
    values[staff] = value;
}

} // namespace

template <typename T>
std::uint16_t Interned<T>::operator()(const T& value) {
    const auto found = places_.find(value);
    if (found != places_.end())
        return found->second;
    if (values_.size() >= limits::score_variety)
        throw error(message::score_too_varied, "", {}, limits::score_variety, what_);
    const auto place = static_cast<std::uint16_t>(values_.size());
    values_.push_back(value);
    places_.emplace(value, place);
    return place;
}

ScoreReader::ScoreReader()
    : spellings_(score_.spellings, "spellings"), keys_(score_.keys, "keys"),
      transpositions_(score_.transpositions, "transpositions"), voices_(score_.voices, "voices") {
    keys_({});
    transpositions_({});
    voices_("");
}

Score ScoreReader::finished(Encoding encoding) && {
    score_.encoding = encoding;
    return std::move(score_);
}

bool ScoreReader::start(const XmlStart& start, const XmlCursor& cursor) {
    const Tag parent = stack_.back();
    const TagEntry* entry = parent == Tag::other ? nullptr : known_tag(parent, start.name);
    if (entry != nullptr && misplaced(parent, entry->tag))
        entry = nullptr;
    if (parent == Tag::document)
        open_root(start, cursor);
    if (music_next_ && !start.in_entity)
        score_.page.first_music_at = start.offset;
    music_next_ = false;
    stack_.push_back(entry == nullptr ? Tag::other : entry->tag);
    if (entry != nullptr)
        open(entry->tag, start, cursor);
    return entry != nullptr && entry->text;
}

/// Music stands in measures of parts (partwise) or in parts of measures (timewise), nowhere else.
bool ScoreReader::misplaced(Tag parent, Tag tag) const {
    const Tag outer = score_.timewise ? Tag::measure : Tag::part;
    const Tag inner = score_.timewise ? Tag::part : Tag::measure;
    if (parent == Tag::root)
        return tag == inner;
    return parent == outer ? tag != inner : parent == inner && tag == outer;
}

void ScoreReader::end(std::size_t offset, std::string_view text, const XmlCursor& cursor) {
    const Tag tag = stack_.back();
    stack_.pop_back();
    music_next_ = false;
    if (tag != Tag::other)
        close(tag, offset, text, cursor);
}

void ScoreReader::open_root(const XmlStart& start, const XmlCursor& cursor) {
    if (start.name == "opus")
        throw error(message::score_is_opus, start.name, cursor.place());
    if (start.name != "score-partwise" && start.name != "score-timewise")
        throw error(message::not_a_score, start.name, cursor.place());
    score_.timewise = start.name == "score-timewise";
    score_.version =
        start.attributes.find("version").value_or("1.0"); // the default of the standard's schema
}

void ScoreReader::open(Tag tag, const XmlStart& start, const XmlCursor& cursor) {
    switch (tag) {
    case Tag::part:
        open_part(start, cursor);
        break;
    case Tag::measure:
        open_measure(start);
        break;
    case Tag::note:
        open_note(start);
        break;
    case Tag::key:
        key_ = {};
        staff_of_attribute_ = staff_attribute(start);
        break;
    case Tag::transpose:
        transposition_ = {};
        staff_of_attribute_ = staff_attribute(start);
        break;
    case Tag::creator:
    case Tag::credit:
    case Tag::credit_words:
    case Tag::part_list:
    case Tag::score_part:
        open_in_header(tag, start);
        break;
    default:
        if (stack_.size() > 5) // root, part, measure, note, child
            open_in_note(tag, start);
    }
}

void ScoreReader::open_in_header(Tag tag, const XmlStart& start) {
    if (tag == Tag::creator)
        creator_ = start.attributes.find("type").value_or("");
    if (tag == Tag::part_list && !start.in_entity)
        score_.page.part_list_at = start.offset;
    if (tag == Tag::credit) {
        score_.page.credits = true;
        first_page_ = trimmed(start.attributes.find("page").value_or("1")) == "1";
    }
    if (tag == Tag::credit_words && first_page_)
        if (const auto y = start.attributes.find("default-y"))
            if (const auto height = decimal_number(*y))
                score_.page.lowest_credit =
                    std::min(score_.page.lowest_credit.value_or(*height), *height);
    if (tag == Tag::score_part) {
        score_.parts.push_back({std::string(start.attributes.find("id").value_or("")), ""});
        if (score_.parts.size() > limits::score_variety)
            throw error(message::score_too_varied, "", {}, limits::score_variety, "parts");
        parts_.emplace(score_.parts.back().id, score_.parts.size() - 1);
        states_.emplace_back();
    }
}

void ScoreReader::open_part(const XmlStart& start, const XmlCursor& cursor) {
    const std::string_view id = start.attributes.find("id").value_or("");
    const auto found = parts_.find(id);
    if (found == parts_.end())
        throw error(message::score_part_unknown, id, cursor.place());
    part_ = found->second;
    if (score_.timewise)
        begin_measure_of_part();
}

void ScoreReader::open_measure(const XmlStart& start) {
    score_.measures.emplace_back(start.attributes.find("number").value_or(""));
    if (!score_.timewise)
        begin_measure_of_part();
}

void ScoreReader::begin_measure_of_part() {
    PartState& state = states_[part_];
    state.cursor = state.measure_end = state.measure_start;
    state.has_head = false;
    music_next_ = !score_.page.first_music_at;
}

void ScoreReader::close_measure_of_part() {
    states_[part_].measure_start = states_[part_].measure_end;
}

void ScoreReader::open_note(const XmlStart& start) {
    now_ = {};
    now_.at = start.offset;
    if (trimmed(start.attributes.find("print-object").value_or("")) == "no")
        now_.note.flags |= Note::hidden;
    if (start.in_entity)
        now_.note.flags |= Note::in_entity;
}

void ScoreReader::open_in_note(Tag tag, const XmlStart& start) {
    const auto flag = [&](Note::Flag value) { now_.note.flags |= value; };
    switch (tag) {
    case Tag::chord:
        flag(Note::chord);
        break;
    case Tag::grace:
        flag(Note::grace);
        break;
    case Tag::breath:
        flag(Note::phrase_end);
        break;
    case Tag::cue:
        flag(Note::cue);
        break;
    case Tag::pitch:
        now_.pitched = true;
        break;
    case Tag::rest:
        now_.rest = true;
        break;
    case Tag::play:
        now_.lyric_at = now_.lyric_at.value_or(start.offset);
        break;
    case Tag::tie:
    case Tag::tied: {
        const std::string_view kind = start.attributes.find("type").value_or("");
        if (kind == "start" || kind == "continue")
            flag(Note::tie_start);
        if (kind == "stop" || kind == "continue")
            flag(Note::tie_stop);
        break;
    }
    case Tag::lyric: {
        const auto line = decimal_number(start.attributes.find("number").value_or("1"));
        const bool usable = line && line->den() == 1 && line->num() > 0;
        score_.lyric_lines =
            std::max(score_.lyric_lines, usable ? static_cast<std::uint32_t>(line->num()) : 1U);
        break;
    }
    default:
        break;
    }
}

void ScoreReader::close(Tag tag, std::size_t offset, std::string_view text,
                        const XmlCursor& cursor) {
    switch (tag) {
    case Tag::note:
        close_note(offset, cursor);
        break;
    case Tag::measure:
        if (!score_.timewise)
            close_measure_of_part();
        break;
    case Tag::part:
        if (score_.timewise)
            close_measure_of_part();
        break;
    case Tag::step:
    case Tag::alter:
    case Tag::octave:
    case Tag::accidental:
    case Tag::voice:
    case Tag::staff:
    case Tag::duration:
        close_in_note(tag, text, cursor);
        break;
    case Tag::divisions:
    case Tag::fifths:
    case Tag::key_step:
    case Tag::key_alter:
    case Tag::key_accidental:
    case Tag::key:
    case Tag::diatonic:
    case Tag::chromatic:
    case Tag::octave_change:
    case Tag::transpose:
        close_in_attributes(tag, text, cursor);
        break;
    default:
        close_in_header(tag, text);
    }
}

void ScoreReader::close_in_header(Tag tag, std::string_view text) {
    switch (tag) {
    case Tag::bar_style:
        if (trimmed(text) == "light-heavy" && states_[part_].last_note)
            score_.notes[*states_[part_].last_note].flags |= Note::phrase_end;
        break;
    case Tag::part_name:
        score_.parts.back().name = one_line(text);
        break;
    case Tag::creator:
        keep_creator(one_line(text));
        break;
    case Tag::page_height:
        score_.page.height = decimal_number(text);
        break;
    case Tag::page_width:
        score_.page.width = decimal_number(text);
        break;
    case Tag::right_margin:
        score_.page.right = decimal_number(text);
        break;
    case Tag::top_margin:
        score_.page.top = decimal_number(text);
        break;
    case Tag::left_margin:
        score_.page.left = decimal_number(text);
        break;
    case Tag::bottom_margin:
        score_.page.bottom = decimal_number(text);
        break;
    case Tag::work_title:
        score_.page.work = one_line(text);
        look_for_makam(text);
        break;
    case Tag::movement_title:
        score_.page.movement = one_line(text);
        look_for_makam(text);
        break;
    case Tag::credit_words:
    case Tag::words:
        look_for_makam(text);
        break;
    default:
        break;
    }
}

void ScoreReader::keep_creator(std::string name) {
    if (creator_ == "composer" && score_.page.composer.empty())
        score_.page.composer = std::move(name);
    else if ((creator_ == "lyricist" || creator_ == "poet") && score_.page.lyricist.empty())
        score_.page.lyricist = std::move(name);
}

void ScoreReader::close_in_attributes(Tag tag, std::string_view text, const XmlCursor& cursor) {
    PartState& state = states_[part_];
    constexpr int steps = 1000;
    switch (tag) {
    case Tag::divisions:
        state.divisions = number("divisions", text, cursor);
        if (state.divisions.num() <= 0)
            throw bad_number("divisions", text, cursor);
        break;
    case Tag::fifths:
        key_.fifths = whole("fifths", text, steps, cursor);
        break;
    case Tag::key_step:
        key_.steps.push_back({letter(text, cursor), {}, no_sign});
        break;
    case Tag::key_alter:
        if (!key_.steps.empty())
            key_.steps.back().alter = number("key-alter", text, cursor);
        break;
    case Tag::key_accidental:
        if (!key_.steps.empty())
            key_.steps.back().sign = sign(text);
        break;
    case Tag::key:
        set_of_staff(state.keys, staff_of_attribute_, keys_(key_));
        break;
    case Tag::diatonic:
        transposition_.diatonic = whole("diatonic", text, steps, cursor);
        transposition_.stated_diatonic = true;
        break;
    case Tag::chromatic:
        transposition_.chromatic = number("chromatic", text, cursor);
        break;
    case Tag::octave_change:
        transposition_.octaves = whole("octave-change", text, limits::score_octaves, cursor);
        break;
    default:
        set_of_staff(state.transpositions, staff_of_attribute_, transpositions_(transposition_));
    }
}

void ScoreReader::close_in_note(Tag tag, std::string_view text, const XmlCursor& cursor) {
    switch (tag) {
    case Tag::step:
        now_.spelling.step = letter(text, cursor);
        now_.step = true;
        break;
    case Tag::alter:
        now_.spelling.alter = number("alter", text, cursor);
        break;
    case Tag::octave:
        now_.note.octave =
            static_cast<std::int8_t>(whole("octave", text, limits::score_octaves, cursor));
        now_.octave = true;
        break;
    case Tag::accidental:
        now_.spelling.sign = sign(text);
        break;
    case Tag::voice:
        now_.note.voice = voices_(std::string(trimmed(text)));
        break;
    case Tag::staff:
        now_.note.staff =
            static_cast<std::uint16_t>(std::max(0, whole("staff", text, largest_staff, cursor)));
        break;
    default: {
        const Beats value = number("duration", text, cursor);
        if (value.num() < 0)
            throw bad_number("duration", text, cursor);
        const Beats beats = value / states_[part_].divisions;
        if (stack_.back() == Tag::note)
            now_.note.duration = beats;
        else
            move(stack_.back() == Tag::backup ? Beats(-beats.num(), beats.den()) : beats);
    }
    }
}

void ScoreReader::move(Beats by) {
    PartState& state = states_[part_];
    state.cursor = std::max(state.cursor + by, state.measure_start);
    state.measure_end = std::max(state.measure_end, state.cursor);
}

void ScoreReader::close_note(std::size_t offset, const XmlCursor& cursor) {
    PartState& state = states_[part_];
    if (!state.has_head) // a chord has its first note in the same measure
        now_.note.flags &= static_cast<std::uint16_t>(~Note::chord);
    const bool chord = now_.note.is(Note::chord);
    if (!chord) {
        state.has_head = true;
        state.chord_size = 0;
        state.head_at = now_.at;
        state.head_in_entity = now_.note.is(Note::in_entity);
        state.head_onset = state.cursor;
    }
    score_.largest_chord = std::max(score_.largest_chord, ++state.chord_size);
    if (now_.pitched)
        keep_note(offset, cursor);
    else
        ++(now_.rest ? score_.without_pitch.rests : score_.without_pitch.unpitched);
    if (!chord && !now_.note.is(Note::grace))
        move(now_.note.duration);
}

void ScoreReader::keep_note(std::size_t offset, const XmlCursor& cursor) {
    if (!now_.step || !now_.octave)
        throw error(message::score_pitch_incomplete, "", cursor.place());
    const PartState& state = states_[part_];
    Note& note = now_.note;
    note.head_at = state.head_at;
    if (state.head_in_entity)
        note.flags |= Note::in_entity;
    note.lyric_at = now_.lyric_at.value_or(offset);
    note.onset = state.head_onset;
    note.measure = static_cast<std::uint32_t>(score_.measures.size() - 1);
    note.part = static_cast<std::uint16_t>(part_);
    note.spelling = note.tied = spellings_(now_.spelling);
    note.key = of_staff(state.keys, note.staff);
    note.transposition = of_staff(state.transpositions, note.staff);
    tie(note);
    states_[part_].last_note = score_.notes.size();
    score_.notes.push_back(note);
}

/// A note that is tied to and bears no sign keeps the pitch of the note before the tie.
void ScoreReader::tie(Note& note) {
    auto& open = states_[part_].open_ties;
    const std::pair<char, int> place(now_.spelling.step, note.octave);
    if (note.is(Note::tie_stop))
        if (const auto found = open.find(place); found != open.end()) {
            if (now_.spelling.sign == no_sign)
                note.tied = found->second;
            open.erase(found);
        }
    if (note.is(Note::tie_start))
        open[place] = note.tied;
}

Sign ScoreReader::sign(std::string_view text) {
    const std::string_view name = trimmed(text);
    if (const std::optional<Sign> found = sign_named(name))
        return *found;
    if (name.empty())
        return no_sign;
    ++score_.unknown_signs[std::string(name)];
    return *sign_named("other");
}

void ScoreReader::look_for_makam(std::string_view text) {
    for (const std::string_view word : {"makam", "Makam", "MAKAM"})
        score_.names_a_makam = score_.names_a_makam || text.find(word) != std::string_view::npos;
}

Score read_score(const Document& document) {
    try {
        ScoreReader quick;
        if (read_plain_xml(document.bytes, quick))
            return std::move(quick).finished(Encoding::utf8);
    } catch (const Error&) { // read_xml() finds the same error, and its line and column
    }
    ScoreReader reader;
    const Encoding encoding = read_xml(document.bytes, document.source, reader);
    return std::move(reader).finished(encoding);
}

} // namespace sectio::score
