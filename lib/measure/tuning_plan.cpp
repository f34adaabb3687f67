#include <sectio/interval/real.hpp>
#include <sectio/measure/tuning_plan.hpp>
#include <sectio/page/cautions.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio::measure {

namespace {

using page::Column, page::ColumnKind, page::HalfWidth;

/// A raise that is called much: a semitone, an eighth more tension (our choice).
constexpr int much_cents = 100;

constexpr const char* much =
    "A string is to be raised by a semitone or more, an eighth more tension or more. Whether it, "
    "and the instrument, can bear that only its maker or a luthier can say: ask first, or tune the "
    "whole to a lower tonic.";
constexpr const char* meaning =
    "Each string goes to the degree nearest to the note that was written for it, or to what it "
    "sounds where that is a frequency. Change: what it is to sound minus "
    "what it sounds. Tension: of the same string at the same length, which goes with the square of "
    "the frequency. Strings pull on the instrument together: read all of them again when the last "
    "is done.";

HalfWidth tension_half_width(const PlannedString& s) {
    return half_width_in_hertz(Pitch::from_hertz(Rational(100)) + 2 * s.change, 2 * s.within);
}

std::string way_to_turn(const PlannedString& s) {
    return s.in_tune() ? "none" : s.is_raised() ? "up" : "down";
}

void add_now(page::Table& table, const std::vector<PlannedString>& plan, const Pitch& a4) {
    const auto keyed = [&](const PlannedString& s) { return nearest_key(s.now.pitch, a4); };
    table.add(plan, Column{"String", ColumnKind::key}.keyed("label"),
              [](const PlannedString& s) { return s.now.label; });
    table.add(plan, Column{"", ColumnKind::note, "Now"}.keyed("note"),
              [&](const PlannedString& s) { return page::Note{usual_note(keyed(s).key)}; });
    table.add(plan, Column{"cents", ColumnKind::figure, "Now"}.keyed("deviation_cents"),
              [&](const PlannedString& s) {
                  return page::cents(keyed(s).deviation)
                      .borne_by(HalfWidth(s.now.uncertainty))
                      .with_sign();
              });
    table.add(plan, Column{}.keyed("hz").hidden(),
              [](const PlannedString& s) { return page::hertz(s.now.pitch, s.now.uncertainty); });
}

void add_target(page::Table& table, const std::vector<PlannedString>& plan, const Pitch& a4) {
    const auto keyed = [&](const PlannedString& s) { return nearest_key(s.target, a4); };
    table.add(plan, Column{"Degree", ColumnKind::key}.keyed("degree"),
              [](const PlannedString& s) { return page::count(s.number); });
    table.add(plan, Column{"Name", ColumnKind::words}.keyed("name"),
              [&](const PlannedString& s) { return s.name; });
    table.add(plan, Column{"", ColumnKind::note, "To be"}.keyed("target_note"),
              [&](const PlannedString& s) { return page::Note{usual_note(keyed(s).key)}; });
    table.add(plan, Column{"cents", ColumnKind::figure, "To be"}.keyed("target_deviation_cents"),
              [&](const PlannedString& s) { return page::cents(keyed(s).deviation).with_sign(); });
    table.add(plan, Column{"Hz", ColumnKind::figure, "To be"}.keyed("target_hz"),
              [&](const PlannedString& s) { return page::hertz(s.target).shown_with(2); });
}

void add_change(page::Table& table, const std::vector<PlannedString>& plan) {
    table.add(plan, Column{"Turn", ColumnKind::note, "Change"}.keyed("turn"),
              [](const PlannedString& s) { return way_to_turn(s); });
    table.add(plan, Column{"cents", ColumnKind::figure, "Change", 0, true}.keyed("change_cents"),
              [](const PlannedString& s) {
                  return page::cents(s.change).borne_by(HalfWidth(s.within)).with_sign();
              });
    table.add(plan, Column{"±", ColumnKind::figure, "Change"}.keyed("uncertainty_cents"),
              [](const PlannedString& s) { return page::margin(HalfWidth(s.within)); });
    table.add(plan, Column{"Tension %"}.keyed("tension_change_percent"),
              [](const PlannedString& s) {
                  return page::Number(tension_change_percent(s.change))
                      .borne_by(tension_half_width(s))
                      .with_sign();
              });
}

bool has_measures(const PlannedString& s) {
    return !s.now.string.unknown();
}

double newtons(const PlannedString& s, const Pitch& pitch) {
    return tension_newtons(s.now.string, pitch, {s.now.label});
}

/// Nothing where no string was measured. @throws Error of tension_newtons()
void add_tension(page::Table& table, const std::vector<PlannedString>& plan) {
    if (std::none_of(plan.begin(), plan.end(), has_measures))
        return;
    const auto cell = [](const PlannedString& s, const Pitch& pitch) {
        return has_measures(s) ? page::Cell(page::computed(newtons(s, pitch), 1).shown_with(0))
                               : page::Cell();
    };
    table.add(plan, Column{"now", ColumnKind::figure, "Tension N"}.keyed("tension_newtons"),
              [&](const PlannedString& s) { return cell(s, s.now.pitch); });
    table.add(plan, Column{"then", ColumnKind::figure, "Tension N"}.keyed("target_tension_newtons"),
              [&](const PlannedString& s) { return cell(s, s.target); });
}

/// What all strings pull together, where every one was measured.
void add_sum(page::Paragraphs& words, const std::vector<PlannedString>& plan) {
    if (!std::all_of(plan.begin(), plan.end(), has_measures))
        return;
    double now = 0, then = 0;
    for (const PlannedString& s : plan)
        now += newtons(s, s.now.pitch), then += newtons(s, s.target);
    words.paragraphs.push_back(
        {page::Role::note, fmt::format("Together these strings pull {:.0f} N now and {:.0f} N "
                                       "then. Newtons are those of plain strings whose material "
                                       "has its usual density; the third digit is uncertain.",
                                       now, then)});
}

} // namespace

bool PlannedString::in_tune() const {
    return abs(change) <= within;
}

bool PlannedString::is_raised() const {
    return change > within;
}

std::vector<PlannedString> tuning_plan(const std::vector<ReadNote>& notes,
                                       const TunedScale& scale) {
    std::vector<PlannedString> plan;
    for (const ReadNote& note : notes) {
        const NearestDegree nearest = scale.nearest(note.note.value_or(note.pitch));
        const Pitch target = scale.pitch(nearest.at);
        const Degree& degree = scale.scale().degrees[nearest.at.degree];
        Interval within = note.uncertainty;
        if (degree.uncertainty)
            within = within + *degree.uncertainty;
        plan.push_back({note, target, scale.number(nearest.at.degree), degree.name,
                        target - note.pitch, within});
    }
    return plan;
}

Real tension_change_percent(const Interval& change) {
    const Real ratio = frequency_ratio(2 * change);
    return Real::scaled_by(
        [ratio](int digits) { return ratio.scaled(digits + 2) - power_of_ten(digits + 2); });
}

std::vector<page::Block> tuning_plan_blocks(const std::vector<PlannedString>& plan,
                                            const Pitch& a4) {
    page::Table table{"plan", "Tuning plan", {}, {}};
    add_now(table, plan, a4);
    add_target(table, plan, a4);
    add_change(table, plan);
    add_tension(table, plan);
    page::Paragraphs words{"cautions", "", {}};
    if (std::any_of(plan.begin(), plan.end(), [](const auto& s) { return s.is_raised(); }))
        words.paragraphs.push_back({page::Role::caution, page::raising_a_string});
    const Interval semitone = Interval::from_cents(Rational(much_cents));
    if (std::any_of(plan.begin(), plan.end(), [&](const auto& s) { return s.change >= semitone; }))
        words.paragraphs.push_back({page::Role::caution, much});
    page::Paragraphs notes{"", "", {{page::Role::note, meaning}}};
    add_sum(notes, plan);
    return {std::move(table), std::move(words), std::move(notes)};
}

} // namespace sectio::measure
