#include <sectio/base/text_cursor.hpp>
#include <sectio/score/score_builder.hpp>

#include <algorithm>

namespace sectio::score {

std::uint16_t OfStaff::at(int staff) const {
    for (const int wanted : {std::max(staff, 1), 0})
        if (const auto found = values_.find(wanted); found != values_.end())
            return found->second;
    return 0;
}

void OfStaff::set(int staff, std::uint16_t value) {
    if (staff == 0)
        values_.clear();
    values_[staff] = value;
}

void PartState::move(QuarterNotes by) {
    cursor = std::max(cursor + by, measure_start);
    measure_end = std::max(measure_end, cursor);
}

ScoreBuilder::ScoreBuilder()
    : spellings(score.spellings, "spellings"), keys(score.keys, "keys"),
      transpositions(score.transpositions, "transpositions"), voices(score.voices, "voices") {
    keys({});
    transpositions({});
    voices("");
}

Sign ScoreBuilder::sign(std::string_view text, std::optional<Sign> glyph) {
    const std::string_view name = trimmed(text);
    if (glyph && name == "other")
        return *glyph;
    if (const std::optional<Sign> found = sign_named(name))
        return *found;
    if (name.empty())
        return no_sign;
    ++score.unknown_signs[std::string(name)];
    return *sign_named("other");
}

void ScoreBuilder::look_for_makam(std::string_view text) {
    for (const std::string_view word : {"makam", "Makam", "MAKAM"})
        score.names_a_makam = score.names_a_makam || text.find(word) != std::string_view::npos;
}

} // namespace sectio::score
