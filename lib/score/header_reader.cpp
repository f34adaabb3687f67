#include <sectio/base/text_cursor.hpp>
#include <sectio/score/context_readers.hpp>
#include <sectio/score/read_values.hpp>

#include <algorithm>
#include <utility>

namespace sectio::score {

namespace {

/// The length of the page that an element says; null for what is none.
std::optional<QuarterNotes>* length_of(Tag tag, PageMarks& page) {
    switch (tag) {
    case Tag::page_height:
        return &page.height;
    case Tag::page_width:
        return &page.width;
    case Tag::left_margin:
        return &page.left;
    case Tag::right_margin:
        return &page.right;
    case Tag::top_margin:
        return &page.top;
    case Tag::bottom_margin:
        return &page.bottom;
    default:
        return nullptr;
    }
}

} // namespace

void HeaderReader::open(Tag tag, const XmlStart& start, const XmlCursor& /*cursor*/) {
    PageMarks& page = builder_.score.page;
    if (tag == Tag::creator)
        creator_ = attribute(start, "type");
    else if (tag == Tag::part_list && !start.in_entity)
        page.part_list_at = start.offset;
    else if (tag == Tag::score_part)
        open_score_part(start);
    else if (tag == Tag::score_instrument || tag == Tag::midi_instrument)
        keep_instrument(attribute(start, "id"));
    else if (tag == Tag::credit) {
        page.credits = true;
        first_page_ = trimmed(start.attributes.find("page").value_or("1")) == "1";
    } else if (tag == Tag::credit_words && first_page_)
        open_credit_words(start);
}

void HeaderReader::open_credit_words(const XmlStart& start) {
    std::optional<QuarterNotes>& lowest = builder_.score.page.lowest_credit;
    if (const auto height = decimal_number(attribute(start, "default-y")))
        lowest = std::min(lowest.value_or(*height), *height);
}

void HeaderReader::open_score_part(const XmlStart& start) {
    auto& parts = builder_.score.parts;
    parts.push_back({std::string(attribute(start, "id")), "", {}, false, 0, 0});
    has_channel_ = false;
    if (parts.size() > limits::score_variety)
        throw error(message::score_too_varied, "", {}, limits::score_variety, "parts");
    builder_.parts.emplace(parts.back().id, parts.size() - 1);
    builder_.states.emplace_back();
}

void HeaderReader::close(Tag tag, std::size_t /*offset*/, std::string_view text,
                         const XmlCursor& cursor) {
    Score& score = builder_.score;
    if (auto* length = length_of(tag, score.page))
        *length = decimal_number(text);
    else if (tag == Tag::part_name)
        score.parts.back().name = one_line(text);
    else if (tag == Tag::midi_program)
        keep_program(text, cursor);
    else if (tag == Tag::midi_channel)
        keep_channel(trimmed(text) == "10");
    else if (tag == Tag::creator)
        keep_creator(one_line(text));
    else if (tag == Tag::work_title)
        keep_title(score.page.work, text);
    else if (tag == Tag::movement_title)
        keep_title(score.page.movement, text);
    else if (tag == Tag::credit_words)
        builder_.look_for_makam(text);
}

void HeaderReader::keep_title(std::string& place, std::string_view text) {
    place = one_line(text);
    builder_.look_for_makam(text);
}

void HeaderReader::keep_instrument(std::string_view id) {
    std::string& first = builder_.states.back().instrument;
    if (first.empty())
        first = id;
}

/// Of several instruments of a part the first plays it.
void HeaderReader::keep_program(std::string_view text, const XmlCursor& cursor) {
    const int number = midi_program(text, cursor);
    std::optional<int>& program = builder_.score.parts.back().program;
    program = program.value_or(number);
}

void HeaderReader::keep_channel(bool percussion) {
    if (!std::exchange(has_channel_, true))
        builder_.score.parts.back().percussion = percussion;
}

void HeaderReader::keep_creator(std::string name) {
    PageMarks& page = builder_.score.page;
    if (creator_ == "composer" && page.composer.empty())
        page.composer = std::move(name);
    else if ((creator_ == "lyricist" || creator_ == "poet") && page.lyricist.empty())
        page.lyricist = std::move(name);
}

} // namespace sectio::score
