#include <sectio/base/text_cursor.hpp>
#include <sectio/score/read_values.hpp>
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
      transpositions(score.transpositions, "transpositions"), voices(score.voices, "voices"),
      pass_lists(score.pass_lists, "lists of passes") {
    keys({});
    transpositions({});
    voices("");
    pass_lists({});
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

std::uint16_t ScoreBuilder::passes(std::string_view time_only) {
    return time_only.empty() ? std::uint16_t{0} : pass_lists(numbers_of_passes(time_only));
}

void ScoreBuilder::look_for_makam(std::string_view text) {
    for (const std::string_view word : {"makam", "Makam", "MAKAM"})
        score.names_a_makam = score.names_a_makam || text.find(word) != std::string_view::npos;
}

} // namespace sectio::score
