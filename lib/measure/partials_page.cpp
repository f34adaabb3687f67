#include <sectio/measure/exact_figures.hpp>
#include <sectio/measure/heard_pitches.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/statistics.hpp>
#include <sectio/scale/half_width.hpp>

#include <cmath>
#include <optional>
#include <utility>

namespace sectio::measure {

namespace {

using page::Column;
using page::ColumnKind;

constexpr int level_digits = 1;

/// A note, or the loudest sound where that has no pitch.
struct HeardSound {
    const Recording* recording;
    const RecordedNote* note;

    bool has_pitch() const { return note->pitch.trouble == NoteTrouble::none; }
};

std::vector<HeardSound> sounds_of(const std::vector<Recording>& recordings) {
    std::vector<HeardSound> sounds;
    for (const Recording& recording : recordings) {
        if (recording.unpitched)
            sounds.push_back({&recording, &*recording.unpitched});
        for (const RecordedNote& note : recording.notes)
            sounds.push_back({&recording, &note});
    }
    return sounds;
}

/// Of sounds, or of their partials.
template <class Row>
void add_place(page::Table& table, const std::vector<Row>& rows) {
    table.add(rows, Column{.kind = ColumnKind::words, .shown = false}.keyed("file", "file"),
              [](const Row& row) { return page::File{row.recording->name}; });
    table.add(rows, Column{.head = "start s", .kind = ColumnKind::key}.keyed("start_s", "start"),
              [](const Row& row) { return page::computed(row.note->start_s, second_digits); });
}

page::Cell note_cell(double hz, const Pitch& a4) {
    return page::Note{usual_note(nearest_key(pitch_of(hz), a4).key)};
}

page::Cell deviation_cell(double hz, double half_width_cents, const Pitch& a4) {
    return page::cents(nearest_key(pitch_of(hz), a4).deviation)
        .with_sign()
        .borne_by(half_width_of(half_width_cents));
}

page::Table sound_table(const std::vector<HeardSound>& sounds, const Pitch& a4) {
    page::Table table{.key = "sounds", .heading = "Sounds"};
    add_place(table, sounds);
    for (Column& column : table.columns)
        column.field.clear();
    const auto of_pitch = [](auto make) {
        return [make](const HeardSound& s) {
            return s.has_pitch() ? page::Cell(make(s.note->pitch)) : page::Cell();
        };
    };
    table.add(sounds, Column{.head = "seconds"}.keyed("duration_s", ""), [](const HeardSound& s) {
        return page::computed(s.note->end_s - s.note->start_s, second_digits);
    });
    table.add(sounds, Column{.head = "Hz"}.keyed("hz", ""), of_pitch([](const NotePitch& p) {
                  return page::hertz(pitch_of(p.hz), half_width_of(p.half_width_cents));
              }));
    table.add(sounds, Column{.head = "Note", .kind = ColumnKind::note}.keyed("note", ""),
              of_pitch([&](const NotePitch& p) { return note_cell(p.hz, a4); }));
    table.add(
        sounds, Column{.head = "Deviation"}.keyed("deviation_cents", ""),
        of_pitch([&](const NotePitch& p) { return deviation_cell(p.hz, p.half_width_cents, a4); }));
    table.add(sounds, Column{.head = "±"}.keyed("pitch_uncertainty_cents", ""),
              of_pitch([](const NotePitch& p) {
                  return page::margin(half_width_of(p.half_width_cents));
              }));
    return table;
}

/// A partial of a sound, and what its ratio is counted from: the sound's pitch, or its lowest
/// partial.
struct HeardPartial {
    const Recording* recording;
    const RecordedNote* note;
    const SoundingPartial* partial;
    double from_hz, from_half_width_cents;

    double cents() const { return cents_above(partial->hz, from_hz); }
    /// Of cents(); none of what they are counted from.
    std::optional<double> half_width_cents() const {
        if (partial->hz == from_hz)
            return std::nullopt;
        return std::hypot(partial->half_width_cents, from_half_width_cents);
    }
};

std::vector<HeardPartial> partials_of(const std::vector<HeardSound>& sounds) {
    std::vector<HeardPartial> rows;
    for (const HeardSound& sound : sounds)
        for (const SoundingPartial& partial : sound.note->partials) {
            const SoundingPartial& lowest = sound.note->partials.front();
            const NotePitch& pitch = sound.note->pitch;
            rows.push_back({sound.recording, sound.note, &partial,
                            sound.has_pitch() ? pitch.hz : lowest.hz,
                            sound.has_pitch() ? pitch.half_width_cents : lowest.half_width_cents});
        }
    return rows;
}

/// Of figures in other units than cents, a half width to so many digits.
page::HalfWidth in_unit(double half_width) {
    constexpr int digits = 9;
    return rounded(half_width, digits) + Rational(1, power_of_ten(digits));
}

page::Cell ratio_cell(const HeardPartial& row) {
    constexpr double cents_per_e = 1731.234049066757;
    const double ratio = row.partial->hz / row.from_hz;
    page::Number figure = page::computed(ratio, 7).shown_with(4).with_more(3);
    if (const auto half_width = row.half_width_cents())
        return std::move(figure).borne_by(in_unit(ratio * *half_width / cents_per_e));
    return figure;
}

void add_interval(page::Table& table, const std::vector<HeardPartial>& rows) {
    table.add(rows, Column{.head = "Ratio"}.keyed("ratio"), ratio_cell);
    table.add(
        rows, Column{.head = "Cents", .strong = true}.keyed("cents"), [](const HeardPartial& row) {
            const auto half_width = row.half_width_cents();
            return page::cents(interval_of(row.cents()))
                .borne_by(half_width ? std::optional<page::HalfWidth>(half_width_of(*half_width))
                                     : std::nullopt);
        });
    table.add(rows, Column{.head = "±"}.keyed("uncertainty_cents"), [](const HeardPartial& row) {
        const auto half_width = row.half_width_cents();
        return half_width ? page::Cell(page::margin(half_width_of(*half_width))) : page::Cell();
    });
}

void add_level(page::Table& table, const std::vector<HeardPartial>& rows) {
    table.add(rows, Column{.head = "Level dB"}.keyed("level_db"), [](const HeardPartial& row) {
        return page::computed(row.partial->level_db, level_digits);
    });
    const auto decay = [](auto make) {
        return [make](const HeardPartial& row) {
            return row.partial->decay ? page::Cell(make(*row.partial->decay)) : page::Cell();
        };
    };
    table.add(rows, Column{.head = "Decay dB/s"}.keyed("decay_db_s"), decay([](const Decay& d) {
                  return page::computed(d.db_s, 3)
                      .shown_with(level_digits)
                      .borne_by(in_unit(d.half_width));
              }));
    table.add(rows, Column{.head = "±"}.keyed("decay_uncertainty_db_s"), decay([](const Decay& d) {
                  return page::margin(in_unit(d.half_width)).shown_with(level_digits);
              }));
}

page::Table partial_table(const std::vector<HeardSound>& sounds, const Pitch& a4) {
    const std::vector<HeardPartial> rows = partials_of(sounds);
    page::Table table{.key = "partials", .heading = "Partials"};
    add_place(table, rows);
    table.columns.back().shown = sounds.size() > 1;
    table.add(rows, Column{.head = "Partial"}.keyed("number"), [](const HeardPartial& row) {
        return row.partial->number > 0 ? page::Cell(page::count(row.partial->number))
                                       : page::Cell();
    });
    table.add(rows, Column{.head = "Hz"}.keyed("hz"), [](const HeardPartial& row) {
        return page::hertz(pitch_of(row.partial->hz), half_width_of(row.partial->half_width_cents));
    });
    add_interval(table, rows);
    table.add(rows, Column{.head = "Note", .kind = ColumnKind::note}.keyed("note"),
              [&](const HeardPartial& row) { return note_cell(row.partial->hz, a4); });
    table.add(rows, Column{.head = "Deviation"}.keyed("deviation_cents"),
              [&](const HeardPartial& row) {
                  return deviation_cell(row.partial->hz, row.partial->half_width_cents, a4);
              });
    table.add(rows, Column{.head = "±"}.keyed("pitch_uncertainty_cents"),
              [](const HeardPartial& row) {
                  return page::margin(half_width_of(row.partial->half_width_cents));
              });
    add_level(table, rows);
    return table;
}

} // namespace

page::Page partials_page(const std::vector<Recording>& recordings, const Pitch& a4) {
    for (const Recording& recording : recordings)
        check_notes(recording);
    page::Page page{.title = "Partials", .kind = "measured-partials", .digits = 2};
    page::Facts facts;
    facts.facts.push_back({"recordings", page::count(recordings.size()), "recordings"});
    facts.facts.push_back({"Reference A4", page::hertz(a4).in("Hz"), "reference_hz"});
    page.blocks.push_back(std::move(facts));
    const std::vector<HeardSound> sounds = sounds_of(recordings);
    page.blocks.push_back(sound_table(sounds, a4));
    page.blocks.push_back(partial_table(sounds, a4));
    page::Paragraphs remarks{.key = "remarks"};
    for (const Recording& recording : recordings) {
        if (recording.unpitched)
            remarks.paragraphs.push_back(
                {page::Role::remark,
                 recording.name
                     + ": the loudest sound has no single pitch; its partials are counted from the "
                       "lowest that is listed."});
        for (const std::string& remark : recording.remarks)
            remarks.paragraphs.push_back({page::Role::remark, recording.name + ": " + remark});
    }
    page.blocks.push_back(std::move(remarks));
    return page;
}

} // namespace sectio::measure
