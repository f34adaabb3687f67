#include <sectio/base/limits.hpp>
#include <sectio/base/text_cursor.hpp>
#include <sectio/division/division.hpp>
#include <sectio/tuning/key_table.hpp>
#include <sectio/tuning/messages.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::tuning {

namespace {

int floor_div(int a, int b) {
    return a >= 0 ? a / b : -((-a + b - 1) / b);
}

} // namespace

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

/// Steps above the tonic of what `key` sounds.
std::optional<Integer> steps_of(int key, const KeyMapping& mapping, const Scale& scale) {
    const int row = static_cast<int>(mapping.row.size()), from_anchor = key - mapping.anchor;
    if (row == 0)
        return from_anchor;
    const int periods = floor_div(from_anchor, row);
    const auto degree = mapping.row[static_cast<std::size_t>(from_anchor - periods * row)];
    if (!degree || (periods != 0 && !scale.period))
        return std::nullopt;
    return *degree + Integer(periods) * scale.degrees.size();
}

/// Far within what a pitch may be, so that none is refused; no message has a word for those beyond.
bool sounds(const TunedScale& scale, const DegreeAt& at) {
    constexpr double octaves = 20; // from 1 Hz
    const auto octaves_of = [](const Interval& size) { return size.estimate().value; };
    const double period = scale.scale().period ? octaves_of(*scale.scale().period) : 0;
    const Interval& degree = scale.scale().degrees[at.degree].interval;
    return std::abs(octaves_of(scale.tonic().pitch.above_hertz()) + octaves_of(degree)
                    + at.period.convert_to<double>() * period)
           < octaves;
}

} // namespace

KeyTable key_table(const TunedScale& scale, const KeyMapping& mapping) {
    if (mapping.anchor < 0 || mapping.anchor >= key_count)
        throw error(message::tuning_no_key, std::to_string(mapping.anchor), {});
    const auto falls = [](const std::optional<int>& degree) { return degree && *degree < 0; };
    if (mapping.row.size() > key_count
        || std::any_of(mapping.row.begin(), mapping.row.end(), falls))
        throw error(message::tuning_mapping, "", {});
    KeyTable table;
    for (int key = 0; key < key_count; ++key)
        if (const auto steps = steps_of(key, mapping, scale.scale()))
            if (const auto at = scale.step(*steps); at && sounds(scale, *at))
                table[static_cast<std::size_t>(key)] = {*at, scale.pitch(*at)};
    return table;
}

} // namespace sectio::tuning
