#include <sectio/page/numbers.hpp>
#include <sectio/print/page_words.hpp>

namespace sectio::page {

namespace {

constexpr double note_gap = 1.5;

std::string text_of(const Paragraph& p) {
    return one_line((p.role == Role::caution  ? "Caution: "
                     : p.role == Role::source ? "Source: "
                                              : "")
                    + p.text);
}

struct TypesetParagraph {
    TextStyle style;
    std::vector<std::string> lines;
    double height; ///< without the gap below it
};

TypesetParagraph set(const Paragraph& p, PagePen& pen, const Styles& styles) {
    const TextStyle style = styles.of(p.role);
    auto lines = pen.type().lines(text_of(p), style, pen.width());
    const double height = pen.type().line("0", style).height() * static_cast<double>(lines.size());
    return {style, std::move(lines), height};
}

void draw(const TypesetParagraph& p, PagePen& pen) {
    const double line = p.height / static_cast<double>(p.lines.size());
    pen.need(p.height <= pen.whole_room() ? p.height : line);
    for (const std::string& words : p.lines) {
        const TypesetText text = pen.type().clipped(words, p.style, pen.width() + 1);
        pen.need(text.height());
        pen.place(text, pen.left(), pen.y());
        pen.down(text.height());
    }
    pen.down(note_gap);
}

} // namespace

double words_height(const Paragraphs& block, PagePen& pen, const Styles& styles) {
    double sum = 0;
    for (const Paragraph& p : block.paragraphs)
        sum += set(p, pen, styles).height + note_gap;
    return sum;
}

void draw_words(const Paragraphs& block, PagePen& pen, const Styles& styles) {
    for (const Paragraph& p : block.paragraphs)
        draw(set(p, pen, styles), pen);
}

} // namespace sectio::page
