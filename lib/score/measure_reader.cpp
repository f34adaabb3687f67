#include <sectio/score/context_readers.hpp>
#include <sectio/score/read_values.hpp>

namespace sectio::score {

void MeasureReader::open(Tag tag, const XmlStart& start, const XmlCursor& cursor) {
    if (tag == Tag::part)
        open_part(start, cursor);
    else if (tag == Tag::measure)
        open_measure(start);
}

void MeasureReader::open_part(const XmlStart& start, const XmlCursor& cursor) {
    const std::string_view id = attribute(start, "id");
    const auto found = builder_.parts.find(id);
    if (found == builder_.parts.end())
        throw error(message::score_part_unknown, id, cursor.place());
    builder_.part = found->second;
    if (builder_.score.timewise)
        begin_measure_of_part();
    else
        builder_.score.parts[builder_.part].first_bar = builder_.score.measures.size();
}

void MeasureReader::open_measure(const XmlStart& start) {
    builder_.score.measures.emplace_back(attribute(start, "number"));
    builder_.score.bars.emplace_back();
    if (!builder_.score.timewise)
        begin_measure_of_part();
}

void MeasureReader::begin_measure_of_part() {
    PartState& state = builder_.state();
    state.cursor = state.measure_end = state.measure_start;
    state.has_head = false;
    builder_.score.bars.back().start = state.measure_start;
}

void MeasureReader::end_measure_of_part() {
    PartState& state = builder_.state();
    state.measure_start = state.measure_end;
    Score& score = builder_.score;
    score.parts[builder_.part].end_bar = score.bars.size();
    score.bars.back().end = std::max(score.bars.back().end, state.measure_end);
}

void MeasureReader::close(Tag tag, std::size_t /*offset*/, std::string_view text,
                          const XmlCursor& cursor) {
    if (tag == (builder_.score.timewise ? Tag::part : Tag::measure))
        return end_measure_of_part();
    if (tag != Tag::backup_duration && tag != Tag::forward_duration)
        return;
    const QuarterNotes value = number("duration", text, cursor);
    if (value.num() < 0)
        refuse_number("duration", text, cursor);
    const QuarterNotes beats = value / builder_.state().divisions;
    builder_.state().move(tag == Tag::forward_duration ? beats
                                                       : QuarterNotes(-beats.num(), beats.den()));
}

} // namespace sectio::score
