#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/instrument/messages.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

/// A string as asked for: where it comes from does not matter any more.
struct AskedString {
    std::string name;
    std::optional<StatedPitch> open; ///< nothing for the tonic
    Length length;
    bool fretted = true;
    Length compensation{};
};

Length asked_length(const FretRequest& request) {
    if (!request.length && request.instrument && !request.opens.empty())
        throw error(message::plan_of_other_strings, "", {"--strings"});
    if (!request.length)
        throw error(message::plan_without_length, "", {"--length"});
    if (*request.length <= Length())
        throw error(message::length_not_positive, request.length->text(), {"--length"});
    return *request.length;
}

bool has_neck(const FretRequest& request) {
    return request.last_length || request.nut_spread || request.bridge_spread;
}

std::vector<AskedString> asked_strings(const FretRequest& request) {
    const Length shared = request.compensation.value_or(
        request.instrument ? request.instrument->compensation : Length());
    std::vector<AskedString> strings;
    for (const StatedPitch& open : request.opens)
        strings.push_back({open.text(), open, asked_length(request), true, shared});
    if (!strings.empty())
        return strings;
    if (!request.instrument && has_neck(request))
        return {{"lowest", {}, asked_length(request), true, shared},
                {"highest", {}, asked_length(request), true, shared}};
    if (!request.instrument)
        return {{"string", {}, asked_length(request), true, shared}};
    for (const InstrumentString& s : request.instrument->strings)
        strings.push_back({s.name, s.open, request.length ? asked_length(request) : s.length.figure,
                           s.fretted,
                           request.compensation ? shared : s.compensation.value_or(shared)});
    return strings;
}

/// The open string above the tonic.
Interval open_interval(const std::optional<StatedPitch>& open, const TunedScale& tuned) {
    if (!open)
        return {};
    const Pitch pitch = open->at(tuned.a4());
    if (!open->is_key())
        return pitch - tuned.tonic().pitch;
    const NearestDegree nearest = tuned.nearest(pitch);
    const bool of_this_key = absolute(nearest.rest) <= Interval::from_cents(50);
    return (of_this_key ? tuned.pitch(nearest.at) : pitch) - tuned.tonic().pitch;
}

Interval highest_fret(const FretPlan& plan) {
    Interval highest;
    for (const Fretboard& board : plan.boards)
        if (!board.frets.empty())
            highest = std::max(highest, board.frets.back().interval);
    return highest;
}

/// The neck that is asked for, under the frets of the one board that there is then.
NeckShape neck_of(const FretRequest& request, const FretPlan& plan) {
    if (!request.nut_spread || !request.bridge_spread)
        throw error(message::neck_without_spread, "", {"--length"});
    const bool told = !request.length && plan.boards.size() == 1; // by an instrument file
    const Length first = told ? plan.boards.front().length : asked_length(request);
    NeckShape neck{first,
                   request.last_length.value_or(first),
                   *request.nut_spread,
                   *request.bridge_spread,
                   request.perpendicular,
                   {}};
    check(neck);
    const Fretboard& board = plan.boards.front();
    if (board.strings.size() < 2)
        throw error(message::neck_of_one_string, "", {"--strings"});
    if (neck.perpendicular > board.frets.size())
        throw error(message::no_such_fret, fmt::to_string(neck.perpendicular), {"--perpendicular"},
                    board.frets.size());
    if (neck.perpendicular > 0)
        neck.perpendicular_interval = board.frets[neck.perpendicular - 1].interval;
    return neck;
}

} // namespace

FretSheet fret_sheet(Scale scale, const FretRequest& request) {
    const TunedScale tuned = sectio::tuned(std::move(scale), {request.tonic, request.reference});
    const FretPlanOptions plan{request.up_to, request.frets, request.share};
    FretSheet sheet;
    std::vector<PlannedString> strings;
    for (const AskedString& asked : asked_strings(request)) {
        if (asked.length.millimetres() > 1000 * limits::string_metres)
            throw error(message::string_too_long, asked.length.text(), {}, limits::string_metres);
        strings.push_back({asked.name, open_interval(asked.open, tuned), asked.length,
                           asked.fretted, asked.compensation});
        sheet.opens.push_back((asked.open ? *asked.open : tuned.tonic().stated).text());
    }
    sheet.plan = plan_frets(tuned.scale(), std::move(strings), plan);
    if (has_neck(request))
        sheet.neck = neck_of(request, sheet.plan);
    sheet.up_to = plan.frets ? highest_fret(sheet.plan) : reach_of(tuned.scale(), plan);
    sheet.tonic = tuned.tonic().written();
    sheet.date = request.date;
    sheet.inches = request.inches;
    return sheet;
}

} // namespace sectio
