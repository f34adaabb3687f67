#include <sectio/base/argument.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/instrument/fret_plan.hpp>
#include <sectio/instrument/messages.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

/// Adds the degrees of one period that lie above the open string; says whether any still may.
bool add_period(const PlannedString& string, std::size_t index, const Scale& scale,
                const Interval& up_to, const Integer& period, std::size_t most,
                std::vector<Stop>& stops) {
    const Interval base =
        scale.period ? period * *scale.period - string.open : Interval() - string.open;
    if (scale.period && base > up_to)
        return false;
    for (std::size_t d = 0; d < scale.degrees.size(); ++d) {
        const Interval wanted = base + scale.degrees[d].interval;
        if (wanted > up_to || stops.size() == most)
            return false;
        if (wanted <= Interval())
            continue;
        const Integer number = period * Integer(scale.degrees.size()) + Integer(d);
        stops.push_back({index, number.convert_to<long>(), d, wanted, Interval()});
        if (stops.size() > limits::planned_stops)
            throw error(message::too_many_frets, "", {}, limits::planned_stops);
    }
    return scale.period.has_value();
}

/// The fret that serves `stops`, whose first and last are its lowest and highest.
PlannedFret fret_for(std::vector<Stop> stops, const Scale& scale) {
    const Interval &low = stops.front().wanted, &high = stops.back().wanted;
    PlannedFret fret{low == high ? low : (low + high) * Rational(1, 2), {}, std::nullopt};
    for (Stop& stop : stops) {
        stop.error = fret.interval - stop.wanted;
        const auto& uncertainty = scale.degrees[stop.index].uncertainty;
        if (uncertainty && (!fret.uncertainty || *uncertainty > *fret.uncertainty))
            fret.uncertainty = uncertainty;
    }
    fret.stops = std::move(stops);
    return fret;
}

bool holds_string(const std::vector<Stop>& stops, std::size_t string) {
    return std::any_of(stops.begin(), stops.end(),
                       [string](const Stop& s) { return s.string == string; });
}

std::vector<PlannedFret> shared_frets(std::vector<Stop> stops, const Scale& scale,
                                      const Interval& share) {
    std::stable_sort(stops.begin(), stops.end(),
                     [](const Stop& a, const Stop& b) { return a.wanted < b.wanted; });
    std::vector<PlannedFret> frets;
    std::vector<Stop> taken;
    for (Stop& stop : stops) {
        const bool fits = taken.empty()
                          || (stop.wanted - taken.front().wanted <= Integer(2) * share
                              && !holds_string(taken, stop.string));
        if (!fits) {
            frets.push_back(fret_for(std::move(taken), scale));
            taken.clear();
        }
        taken.push_back(std::move(stop));
    }
    if (!taken.empty())
        frets.push_back(fret_for(std::move(taken), scale));
    return frets;
}

/// One board for each different length, with the indices of its strings.
std::vector<Fretboard> boards_of(const std::vector<PlannedString>& strings) {
    std::vector<Fretboard> boards;
    for (std::size_t i = 0; i < strings.size(); ++i) {
        if (!strings[i].fretted)
            continue;
        const auto same = std::find_if(boards.begin(), boards.end(), [&](const Fretboard& b) {
            return b.length == strings[i].length;
        });
        if (same != boards.end())
            same->strings.push_back(i);
        else
            boards.push_back({strings[i].length, {i}, {}});
    }
    return boards;
}

} // namespace

Interval reach_of(const Scale& scale, const FretPlanOptions& options) {
    constexpr int most_octaves = 20; // beyond any string
    if (options.up_to)
        return *options.up_to;
    if (options.frets)
        return Integer(most_octaves) * Interval::octave();
    check_argument(scale.period || !scale.degrees.empty(), "a scale", "one with degrees");
    return scale.period ? *scale.period : scale.degrees.back().interval;
}

std::vector<Interval> FretPlan::errors(std::size_t string) const {
    std::vector<Interval> all;
    for (const Fretboard& board : boards)
        for (const PlannedFret& fret : board.frets)
            for (const Stop& stop : fret.stops)
                if (stop.string == string)
                    all.push_back(stop.error);
    return all;
}

void check(const FretPlan& plan, const Fretboard& board) {
    const auto holds = [&](std::size_t string) { return string < plan.strings.size(); };
    bool whole = board.length > Length() && !board.strings.empty()
                 && std::all_of(board.strings.begin(), board.strings.end(), holds);
    for (const PlannedFret& fret : board.frets) {
        whole = whole && !fret.stops.empty();
        for (const Stop& stop : fret.stops)
            whole = whole && holds(stop.string) && stop.index < plan.scale.degrees.size();
    }
    check_argument(whole, "a board of frets", "one of the plan, as plan_frets() makes it");
}

void check(const FretPlan& plan) {
    check_argument(!plan.boards.empty(), "a plan of frets", "one with a board");
    for (const Fretboard& board : plan.boards)
        check(plan, board);
}

const Degree& FretPlan::degree_of(const Stop& stop) const {
    check_argument(stop.index < scale.degrees.size(), "a stop", "a degree of the plan's scale");
    const bool closes = stop.degree == static_cast<long>(scale.degrees.size());
    return closes && !scale.closing.name.empty() ? scale.closing : scale.degrees[stop.index];
}

std::vector<Stop> stops_on(const PlannedString& string, std::size_t index, const Scale& scale,
                           const Interval& up_to, std::size_t most) {
    std::vector<Stop> stops;
    Integer period = scale.period ? whole_periods(string.open, *scale.period) : Integer(0);
    while (add_period(string, index, scale, up_to, period, most, stops))
        ++period;
    return stops;
}

FretPlan plan_frets(Scale scale, std::vector<PlannedString> strings,
                    const FretPlanOptions& options) {
    check_rules(scale);
    if (options.share < Interval())
        throw error(message::share_negative, to_expression(options.share), {});
    for (const PlannedString& string : strings) {
        if (string.length <= Length())
            throw error(message::length_not_positive, string.length.text(), {});
        check_compensation(string.compensation, string.length);
    }
    const Interval up_to = reach_of(scale, options);
    const std::size_t most = options.frets.value_or(limits::planned_stops + 1);
    FretPlan plan{std::move(scale), std::move(strings), {}};
    plan.boards = boards_of(plan.strings);
    std::size_t count = 0, least = most;
    for (Fretboard& board : plan.boards) {
        std::vector<Stop> stops;
        for (const std::size_t i : board.strings)
            for (Stop& stop : stops_on(plan.strings[i], i, plan.scale, up_to, most))
                stops.push_back(std::move(stop));
        count += stops.size();
        if (count > limits::planned_stops)
            throw error(message::too_many_frets, "", {}, limits::planned_stops);
        board.frets = shared_frets(std::move(stops), plan.scale, options.share);
        if (board.frets.size() > most)
            board.frets.erase(board.frets.begin() + static_cast<std::ptrdiff_t>(most),
                              board.frets.end());
        least = std::min(least, board.frets.size());
    }
    if (count == 0)
        throw error(message::no_frets, "", {});
    if (options.frets && least < most)
        plan.scale.remarks.push_back(
            fmt::format("{} of the {} frets that were asked for lie within reach.", least, most));
    return plan;
}

std::optional<StopDistance> half_width_of(const PlannedFret& fret, const Length& length) {
    if (!fret.uncertainty)
        return std::nullopt;
    return StopDistance::between(length, fret.interval - *fret.uncertainty, fret.interval);
}

} // namespace sectio
