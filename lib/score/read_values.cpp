#include <sectio/base/text_cursor.hpp>
#include <sectio/score/messages.hpp>
#include <sectio/score/read_values.hpp>
#include <sectio/score/score.hpp>

#include <algorithm>

namespace sectio::score {

std::string one_line(std::string_view text) {
    std::string out;
    for (const char c : trimmed(text)) {
        const bool space = c == ' ' || c == '\t' || c == '\r' || c == '\n';
        if (!space)
            out += c;
        else if (out.back() != ' ')
            out += ' ';
    }
    return out;
}

void refuse_number(std::string_view element, std::string_view text, const XmlCursor& cursor) {
    throw error(message::score_number, text, cursor.place(), element);
}

QuarterNotes number(std::string_view element, std::string_view text, const XmlCursor& cursor) {
    const std::optional<QuarterNotes> value = decimal_number(text);
    if (!value)
        refuse_number(element, text, cursor);
    return *value;
}

QuarterNotes within(std::string_view element, std::string_view text, int limit,
                    const XmlCursor& cursor) {
    const QuarterNotes value = number(element, text, cursor);
    if (value < QuarterNotes(-limit, 1) || value > QuarterNotes(limit, 1))
        refuse_number(element, text, cursor);
    return value;
}

int whole(std::string_view element, std::string_view text, int limit, const XmlCursor& cursor) {
    const QuarterNotes value = within(element, text, limit, cursor);
    if (value.den() != 1)
        refuse_number(element, text, cursor);
    return static_cast<int>(value.num());
}

int midi_program(std::string_view text, const XmlCursor& cursor) {
    constexpr int programs = 128;
    const int number = whole("midi-program", text, programs, cursor);
    if (number < 1)
        refuse_number("midi-program", text, cursor);
    return number - 1;
}

char letter(std::string_view text, const XmlCursor& cursor) {
    const std::string_view step = trimmed(text);
    if (step.size() != 1 || step[0] < 'A' || step[0] > 'G')
        throw error(message::score_step, text, cursor.place());
    return step[0];
}

std::uint8_t velocity_of(QuarterNotes percent) {
    constexpr int most = 127;
    const QuarterNotes wanted = std::min(percent, QuarterNotes(2 * 100, 1)) * QuarterNotes(9, 10);
    const std::int64_t nearest = (2 * wanted.num() + wanted.den()) / (2 * wanted.den());
    return static_cast<std::uint8_t>(std::clamp<std::int64_t>(nearest, 1, most));
}

std::string_view attribute(const XmlStart& start, std::string_view name) {
    return start.attributes.find(name).value_or("");
}

int counting_attribute(const XmlStart& start, std::string_view name, int most, int otherwise) {
    const std::optional<QuarterNotes> value = decimal_number(attribute(start, name));
    const bool usable = value && value->den() == 1 && value->num() > 0 && value->num() <= most;
    return usable ? static_cast<int>(value->num()) : otherwise;
}

std::vector<int> numbers_of_passes(std::string_view text) {
    std::vector<int> passes;
    while (!text.empty()) {
        const std::size_t comma = std::min(text.find(','), text.size());
        const std::optional<QuarterNotes> number = decimal_number(text.substr(0, comma));
        if (number && number->den() == 1 && number->num() >= 1)
            passes.push_back(static_cast<int>(number->num()));
        text.remove_prefix(std::min(comma + 1, text.size()));
    }
    std::sort(passes.begin(), passes.end());
    passes.erase(std::unique(passes.begin(), passes.end()), passes.end());
    return passes;
}

} // namespace sectio::score
