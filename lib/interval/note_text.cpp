// Names of notes as people write them.

#include <sectio/base/text_cursor.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/note_text.hpp>

#include <cstdlib>
#include <string_view>
#include <utility>

namespace sectio {

namespace {

bool is_note_letter(char32_t c) {
    return (c >= U'A' && c <= U'G') || (c >= U'a' && c <= U'g');
}

/// One accidental in quarter tones, 0 where none stands here. `x` is the engraver's double sharp.
int accidental(TextCursor& in) {
    switch (in.peek()) {
    case U'#':
        return 2;
    case U'b':
        return -2;
    case U'x':
        return 4;
    case U'\U0001D132':
        return 1;
    case U'\U0001D133':
        return -1;
    default:
        return 0;
    }
}

/// Names of notes in other languages: the syllables, and the German ones that differ. Longer ones
/// stand before their beginnings.
constexpr std::pair<std::string_view, std::string_view> other_names[]{
    {"do", "C"},   {"ut", "C"},   {"re", "D"},   {"mi", "E"},  {"fa", "F"},   {"sol", "G"},
    {"so", "G"},   {"la", "A"},   {"si", "B"},   {"ti", "B"},  {"cis", "C#"}, {"ces", "Cb"},
    {"dis", "D#"}, {"des", "Db"}, {"eis", "E#"}, {"es", "Eb"}, {"fis", "F#"}, {"fes", "Fb"},
    {"gis", "G#"}, {"ges", "Gb"}, {"ais", "A#"}, {"as", "Ab"}, {"his", "B#"}, {"h", "B"},
};

/// True where `name` stands here, in letters of either case, and no word goes on after it.
bool name_here(const TextCursor& in, std::string_view name) {
    for (std::size_t i = 0; i < name.size(); ++i)
        if ((in.peek(i) | 0x20U) != static_cast<unsigned char>(name[i]))
            return false;
    const char32_t next = in.peek(name.size());
    return !is_letter(next) || next == U'b' || next == U'x';
}

void refuse_other_names(TextCursor& in) {
    for (const auto& [name, letter] : other_names)
        if (name_here(in, name)) {
            const std::size_t start = in.position();
            in.skip(name.size());
            throw in.failure(message::note_of_another_language, start, in.written(start), letter);
        }
}

} // namespace

NoteName note_name(TextCursor& in) {
    in.skip_spaces();
    refuse_other_names(in);
    const std::size_t start = in.position();
    if (!is_note_letter(in.peek()))
        throw in.failure(message::expected_pitch, start);
    NoteName name{static_cast<char>(in.peek() & ~0x20U), 0};
    in.skip();
    if (in.peek() == U'♮')
        in.skip();
    while (const int quarter_tones = accidental(in)) {
        name.quarter_tones += quarter_tones;
        in.skip();
    }
    if (std::abs(name.quarter_tones) > 4)
        throw in.failure(message::expected_pitch, start);
    return name;
}

void refuse_decimal_comma(TextCursor& in, std::size_t start, std::string_view number,
                          std::string_view unit) {
    if (in.peek() != U',' || !is_digit(in.peek(1)))
        return;
    in.skip();
    throw in.failure(message::decimal_comma, start, number, in.digits(), unit);
}

NoteName parse_note_name(std::string_view text, const Place& place) {
    TextCursor in(text, place);
    const NoteName name = note_name(in);
    in.skip_spaces();
    if (!in.at_end())
        throw in.failure(message::text_after_note, in.position());
    return name;
}

bool is_note_name(std::string_view text) {
    try {
        parse_note_name(text);
        return true;
    } catch (const Error&) {
        return false;
    }
}

} // namespace sectio
