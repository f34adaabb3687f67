#include <sectio/instrument/measured_page.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/measure/exact_figures.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/scale/half_width.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

using page::Column;
using page::ColumnKind;

/// Notes that people still look through; a melody has more.
constexpr std::size_t shown_notes = 40;

/// A measured note, as both tables show it.
struct Shown {
    Pitch pitch = Pitch::concert_a();
    Interval half_width;
    KeyedPitch keyed;
};

Shown shown(double hz, double half_width_cents, const Pitch& a4) {
    const Pitch pitch = pitch_of(hz);
    return {pitch, half_width_of(half_width_cents), nearest_key(pitch, a4)};
}

/// hz, cents above the tonic with what they may be off, note and deviation with what those may.
void add_figures(page::Table& table, const std::vector<Shown>& rows, const Pitch& tonic,
                 const MeasuredInterval& own_error) {
    const auto above = [&](const Shown& s) {
        return *half_width_between({s.pitch - tonic, s.half_width, Basis::recording}, own_error);
    };
    table.add(rows, Column{.head = "Hz"}.keyed("hz"),
              [](const Shown& s) { return page::hertz(s.pitch, s.half_width); });
    table.add(rows, Column{.head = "Cents", .strong = true}.keyed("cents", ""),
              [&](const Shown& s) { return page::cents(s.pitch - tonic).borne_by(above(s)); });
    table.add(rows, Column{.head = "±"}.keyed("uncertainty_cents", ""),
              [&](const Shown& s) { return page::margin(above(s)); });
    table.add(rows, Column{.head = "Note", .kind = ColumnKind::note}.keyed("note", "note_name"),
              [](const Shown& s) { return page::Note{usual_note(s.keyed.key)}; });
    table.add(rows, Column{.head = "Deviation"}.keyed("deviation_cents"), [](const Shown& s) {
        return page::cents(s.keyed.deviation).with_sign().borne_by(s.half_width);
    });
    table.add(rows, Column{.head = "±"}.keyed("pitch_uncertainty_cents", "uncertainty"),
              [](const Shown& s) { return page::margin(s.half_width); });
}

/// The table that every `measure` prints, and how often each pitch was heard. CSV holds the notes.
page::Table heard_table(const Hearing& hearing, const Pitch& a4) {
    page::Table table = pitch_table(heard_list(hearing), a4);
    for (Column& column : table.columns)
        column.field.clear();
    table.add(hearing.pitches, Column{.head = "Notes"}.keyed("notes", ""),
              [](const HeardPitch& p) { return page::count(p.notes); });
    table.add(hearing.pitches, Column{.head = "Seconds"}.keyed("seconds", ""),
              [](const HeardPitch& p) { return page::computed(p.seconds, second_digits); });
    return table;
}

struct Timed {
    const Recording* recording;
    const RecordedNote* note;
};

page::Table note_table(const Hearing& hearing, const Pitch& tonic, const Pitch& a4) {
    std::vector<Timed> notes;
    std::vector<Shown> rows;
    for (const Recording& recording : hearing.recordings)
        for (const RecordedNote& note : recording.notes) {
            notes.push_back({&recording, &note});
            rows.push_back(shown(note.pitch.hz, note.pitch.half_width_cents, a4));
        }
    page::Table table{.key = "notes", .heading = "Notes in time"};
    table.add(notes, Column{.kind = ColumnKind::words, .shown = false}.keyed("file", "file"),
              [](const Timed& t) { return page::File{t.recording->name}; });
    table.add(notes, Column{.head = "start s", .kind = ColumnKind::key}.keyed("start_s", "start"),
              [](const Timed& t) { return page::computed(t.note->start_s, second_digits); });
    table.add(notes, Column{.head = "seconds"}.keyed("duration_s", "duration"), [](const Timed& t) {
        return page::computed(t.note->end_s - t.note->start_s, second_digits);
    });
    const PitchList list = heard_list(hearing);
    add_figures(table, rows, tonic,
                list.tonic_at ? list.pitches[*list.tonic_at].above : list.zero_error);
    table.add(notes, Column{}.keyed("", "reference_hz").hidden(),
              [&](const Timed&) { return page::hertz(a4); });
    const auto of_string = [](const Timed& t, double figure) {
        return t.note->pitch.partials > 2 ? page::Cell(page::computed(figure, 7)) : page::Cell();
    };
    table.add(notes, Column{.shown = false}.keyed("inharmonicity", ""),
              [&](const Timed& t) { return of_string(t, t.note->pitch.inharmonicity); });
    table.add(notes, Column{.shown = false}.keyed("inharmonicity_uncertainty", ""),
              [&](const Timed& t) { return of_string(t, t.note->pitch.inharmonicity_half_width); });
    table.add(notes, Column{.shown = false}.keyed("glide_cents", ""),
              [](const Timed& t) { return page::computed(t.note->pitch.glide_cents, 3); });
    table.add(notes, Column{.shown = false}.keyed("wander_cents", ""),
              [](const Timed& t) { return page::computed(t.note->pitch.wander_cents, 3); });
    table.add(notes, Column{.shown = false}.keyed("partials", ""),
              [](const Timed& t) { return page::count(t.note->pitch.partials); });
    if (notes.size() > shown_notes || notes.size() == 1)
        for (Column& column : table.columns)
            column.shown = false;
    return table;
}

/// B in powers of ten, for those who know strings: only where it is more than its doubt.
void add_inharmonicity(page::Facts& facts, const Hearing& hearing) {
    if (hearing.note_count() != 1)
        return;
    const NotePitch& pitch = hearing.recordings[0].notes[0].pitch;
    if (pitch.inharmonicity > pitch.inharmonicity_half_width)
        facts.facts.push_back(
            {"inharmonicity", fmt::format("B = ({:.1f} ± {:.1f}) · 10⁻⁵", pitch.inharmonicity * 1e5,
                                          std::max(0.1, pitch.inharmonicity_half_width * 1e5))});
    if (pitch.settled_s > 0)
        facts.facts.push_back(
            {"settled", fmt::format("after {:.1f} s, {:+.1f} cents from its start", pitch.settled_s,
                                    -pitch.glide_cents)});
}

/// What sounds all through a recording.
page::Table drone_table(const Hearing& hearing, const Pitch& a4) {
    std::vector<Shown> rows;
    for (const Recording& recording : hearing.recordings)
        for (const DronePitch& pitch : recording.drone)
            rows.push_back(shown(pitch.hz, pitch.half_width_cents, a4));
    page::Table table{.key = "drone", .heading = "Drone"};
    table.add(rows, Column{.head = "Hz"}.keyed("hz", ""),
              [](const Shown& s) { return page::hertz(s.pitch, s.half_width); });
    table.add(rows, Column{.head = "±"}.keyed("uncertainty_cents", ""),
              [](const Shown& s) { return page::margin(s.half_width); });
    table.add(rows, Column{.head = "Note", .kind = ColumnKind::note}.keyed("note", ""),
              [](const Shown& s) { return page::Note{usual_note(s.keyed.key)}; });
    table.add(rows, Column{.head = "Deviation"}.keyed("deviation_cents", ""), [](const Shown& s) {
        return page::cents(s.keyed.deviation).with_sign().borne_by(s.half_width);
    });
    return table;
}

bool over_drone(const Hearing& hearing) {
    return std::any_of(hearing.recordings.begin(), hearing.recordings.end(),
                       [](const Recording& r) { return !r.drone.empty(); });
}

page::Facts facts_of(const Hearing& hearing, const Pitch& tonic, const Pitch& a4) {
    double seconds = 0;
    for (const Recording& recording : hearing.recordings)
        seconds += recording.seconds;
    page::Facts facts;
    facts.facts.push_back({"recordings", page::count(hearing.recordings.size()), "recordings"});
    facts.facts.push_back({"seconds", page::computed(seconds, second_digits), "seconds"});
    facts.facts.push_back({"notes", page::count(hearing.note_count()), "note_count"});
    facts.facts.push_back({"Reference A4", page::hertz(a4).in("Hz"), "reference_hz"});
    facts.facts.push_back({"", page::hertz(a4), "a4_hz"}); // its older name
    facts.facts.push_back({"tonic", page::hertz(tonic).in("Hz"), "tonic.hz"});
    facts.facts.push_back({"", page::Note{usual_note(nearest_key(tonic, a4).key)}, "tonic.note"});
    facts.facts.push_back({"tonic is", std::string(text(hearing.tonic_basis)), "tonic.basis"});
    if (hearing.tonic_basis == TonicBasis::melody)
        facts.facts.push_back({"", page::computed(hearing.tonic_probability, 2), "tonic.share"});
    add_inharmonicity(facts, hearing);
    return facts;
}

/// To a millionth of a cent, as it is written: far finer than any measurement, and readable.
void round_degree(Degree& degree) {
    constexpr int digits = 6;
    const auto round = [](Interval& interval) {
        const Rational cents = size_in_cents(interval).rounded(digits);
        interval = Interval::from_cents(cents);
        return decimal(cents, digits) + "c";
    };
    degree.written = round(degree.interval);
    if (degree.uncertainty)
        round(*degree.uncertainty);
}

/// Hills of the histogram that are nearer cannot be told apart.
Interval same_degree() {
    return Interval::from_cents(30);
}

} // namespace

page::Page hearing_page(const Hearing& hearing, const Pitch& a4,
                        const std::optional<Interval>& period) {
    check_heard(hearing);
    const Pitch tonic = pitch_of(hearing.tonic_hz);
    page::Page page{.title = "Measured pitches", .kind = "measured-pitches", .digits = 2};
    page::Facts facts = facts_of(hearing, tonic, a4);
    add_period(facts, period, same_degree());
    page.blocks.push_back(std::move(facts));
    page.blocks.push_back(heard_table(hearing, a4));
    if (over_drone(hearing))
        page.blocks.push_back(drone_table(hearing, a4));
    page.blocks.push_back(note_table(hearing, tonic, a4));
    page::Paragraphs remarks{.key = "remarks"};
    for (const Recording& recording : hearing.recordings)
        for (const std::string& remark : recording.remarks)
            remarks.paragraphs.push_back({page::Role::remark, recording.name + ": " + remark});
    page.blocks.push_back(std::move(remarks));
    return page;
}

PitchList heard_list(const Hearing& hearing) {
    check_heard(hearing);
    PitchList list;
    list.name = "Measured scale";
    list.source = "measured in " + hearing.recordings.front().name;
    for (const DronePitch& drone : hearing.recordings.front().drone)
        list.source += fmt::format(", over {:.2f} Hz", drone.hz);
    list.same_within = same_degree();
    const Pitch tonic = pitch_of(hearing.tonic_hz);
    list.zero = tonic;
    if (hearing.tonic_basis == TonicBasis::asked)
        list.tonic = StatedPitch::in_hertz(frequency(tonic).rounded(6));
    for (const HeardPitch& heard : hearing.pitches) {
        const Pitch pitch = pitch_of(heard.hz);
        if (pitch == tonic)
            list.tonic_at = list.pitches.size();
        ListedPitch& listed = list.pitches.emplace_back();
        listed.above = {pitch - tonic, half_width_of(heard.half_width_cents), Basis::recording};
        listed.sounds = StatedPitch::in_hertz(frequency(pitch).rounded(6));
        listed.written = listed.sounds->text();
        listed.label = heard.label;
    }
    if (!list.tonic_at && hearing.tonic_half_width_cents > 0)
        list.zero_error = {Interval(), half_width_of(hearing.tonic_half_width_cents),
                           Basis::recording};
    return list;
}

Scale scale_of(const Hearing& hearing, const std::optional<Interval>& period,
               const std::optional<TuningReference>& reference) {
    PitchList list = heard_list(hearing);
    list.period = period;
    list.reference = reference;
    Scale scale = to_scale(list);
    for (Degree& degree : scale.degrees)
        round_degree(degree);
    return scale;
}

Melody melody_of(const Hearing& hearing) {
    check_heard(hearing);
    if (!hearing.is_melody())
        return to_melody(to_list(scale_of(hearing, std::nullopt)));
    PitchList list;
    list.name = hearing.recordings.front().name;
    list.in_time = true;
    for (const Recording& recording : hearing.recordings)
        for (const RecordedNote& note : recording.notes) {
            const Pitch pitch = pitch_of(note.pitch.hz);
            if (!list.zero)
                list.zero = pitch;
            ListedPitch& listed = list.pitches.emplace_back();
            listed.above = {pitch - *list.zero, half_width_of(note.pitch.half_width_cents),
                            Basis::recording};
            listed.weight = rounded(note.end_s - note.start_s, second_digits);
        }
    if (!list.pitches.empty())
        list.pitches.back().ends_phrase = true;
    return to_melody(list);
}

Melody melody_of(const Recording& recording) {
    return melody_of(hear({recording}));
}

} // namespace sectio::measure
