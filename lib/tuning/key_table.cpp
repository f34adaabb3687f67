#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/division/division.hpp>
#include <sectio/tuning/key_table.hpp>
#include <sectio/tuning/messages.hpp>

#include <cmath>

namespace sectio::tuning {

namespace {

int floor_div(int a, int b) {
    return a >= 0 ? a / b : -((-a + b - 1) / b);
}

} // namespace

KeyMapping key_a_degree(const Scale& scale, int anchor) {
    KeyMapping mapping{anchor, {}};
    for (std::size_t i = 0; i < scale.degrees.size(); ++i)
        mapping.row.emplace_back(static_cast<int>(i));
    return mapping;
}

KeyMapping nearest_keys(const Scale& scale, int anchor) {
    if (scale.period != Interval::octave())
        throw error(message::tuning_keys_without_octave, scale.name, {});
    KeyMapping mapping{anchor, std::vector<std::optional<int>>(12)};
    const EqualDivision keys(12);
    for (std::size_t i = 0; i < scale.degrees.size(); ++i) {
        const auto key = keys.nearest(scale.degrees[i].interval).convert_to<std::size_t>() % 12;
        if (const auto other = mapping.row[key])
            throw error(message::tuning_key_taken, scale.degrees[i].written, {}, *other + 1, i + 1);
        mapping.row[key] = static_cast<int>(i);
    }
    return mapping;
}

KeyMapping parse_mapping(std::string_view text, int anchor, const Place& place) {
    TextCursor in(text, place);
    KeyMapping mapping{anchor, {}};
    do {
        in.skip_spaces();
        const std::size_t start = in.position();
        if (in.accept(U'-')) {
            mapping.row.emplace_back();
            continue;
        }
        const std::string digits = in.digits();
        if (digits.empty() || digits.size() > 5 || std::stoi(digits) < 1)
            throw in.failure(message::tuning_mapping, start);
        mapping.row.emplace_back(std::stoi(digits) - 1);
    } while (in.accept(U','));
    in.skip_spaces();
    if (!in.at_end() || mapping.row.size() > key_count)
        throw in.failure(message::tuning_mapping, in.position());
    return mapping;
}

namespace {

/// How far the tonic of a key lies above the anchor's: `periods` of the scale's own, if it has one.
std::optional<Interval> above_tonic(const Scale& scale, int degree, int periods) {
    const int count = static_cast<int>(scale.degrees.size());
    periods += degree / count;
    const Interval& within = scale.degrees[static_cast<std::size_t>(degree % count)].interval;
    if (periods == 0)
        return within;
    return scale.period ? std::optional(within + Integer(periods) * *scale.period) : std::nullopt;
}

/// Far within what a pitch may be; keys beyond have no word in any message.
bool sounds(const Pitch& tonic, const Interval& above) {
    constexpr double octaves = 20; // from 1 Hz
    return std::abs(tonic.above_hertz().estimate().value + above.estimate().value) < octaves;
}

} // namespace

KeyTable key_table(const Scale& scale, const Pitch& tonic, const KeyMapping& mapping) {
    KeyTable table;
    const int row = static_cast<int>(mapping.row.size());
    for (int key = 0; key < key_count; ++key) {
        const int periods = floor_div(key - mapping.anchor, row);
        const int place = key - mapping.anchor - periods * row;
        const auto degree = mapping.row[static_cast<std::size_t>(place)];
        if (!degree)
            continue;
        const auto above = above_tonic(scale, *degree, periods);
        if (above && sounds(tonic, *above))
            table[static_cast<std::size_t>(key)] = {*degree, tonic + *above};
    }
    return table;
}

} // namespace sectio::tuning
