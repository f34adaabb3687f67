#include <sectio/base/argument.hpp>
#include <sectio/page/numbers.hpp>
#include <sectio/print/accidental.hpp>
#include <sectio/print/c_objects.hpp>
#include <sectio/print/shaped.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <hb.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <unordered_map>

namespace sectio::page {

namespace {

/// All text is set at this size; large enough that Pango's units (1/1024 point) do not show.
constexpr double set_size = 10;
/// Points by which widths that were added up may differ from the one they are to fit.
constexpr double fitting_slack = 0.01;
constexpr const char* font_family = "Noto Sans, Noto Sans Symbols, Noto Sans Math, Noto Music";
constexpr const char* music_family = "Noto Music";
constexpr std::size_t fonts_used = 8; ///< all that font_index() tells apart

using Context = std::unique_ptr<PangoContext, Release<g_object_unref>>;
using Layout = std::unique_ptr<PangoLayout, Release<g_object_unref>>;
using Attributes = std::unique_ptr<PangoAttrList, Release<pango_attr_list_unref>>;
using Font = std::unique_ptr<PangoFontDescription, Release<pango_font_description_free>>;
using Glyphs = std::unique_ptr<PangoGlyphItem, Release<pango_glyph_item_free>>;

Font make_font(bool bold, bool italic, bool music) {
    Font font(pango_font_description_new());
    pango_font_description_set_family_static(font.get(), music ? music_family : font_family);
    pango_font_description_set_absolute_size(font.get(), set_size * PANGO_SCALE);
    if (bold)
        pango_font_description_set_weight(font.get(), PANGO_WEIGHT_BOLD);
    if (italic)
        pango_font_description_set_style(font.get(), PANGO_STYLE_ITALIC);
    return font;
}

/// A context whose metrics are those of the outlines, not of any screen.
PangoContext* make_context() {
    PangoContext* context = pango_font_map_create_context(pango_cairo_font_map_get_default());
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    pango_context_set_round_glyph_positions(context, FALSE);
    // Names of any language are set alike, whatever the locale of who prints.
    pango_context_set_language(context, pango_language_from_string("en"));
    return context;
}

std::size_t font_index(const TextStyle& style) {
    return (style.bold ? 1U : 0U) + (style.italic ? 2U : 0U) + (style.music ? 4U : 0U);
}

/// Text that runs from right to left begins at the left margin all the same, under its neighbours:
/// Pango takes "right" for the end of a line, wherever that is.
void begin_at_left(PangoLayout* layout) {
    if (pango_layout_get_direction(layout, 0) == PANGO_DIRECTION_RTL)
        pango_layout_set_alignment(layout, PANGO_ALIGN_RIGHT);
}

/// A name broken inside a word gets no hyphen that is not in it.
Attributes no_hyphens() {
    Attributes list(pango_attr_list_new());
    pango_attr_list_insert(list.get(), pango_attr_insert_hyphens_new(FALSE));
    return list;
}

double points(int pango_units) {
    return static_cast<double>(pango_units) / PANGO_SCALE;
}

/// Several lines, by Pango's own layout.
class ShapedLines : public Shaped {
  public:
    explicit ShapedLines(Layout layout) : layout_(std::move(layout)) {}
    void show(cairo_t* cairo) const override {
        cairo_move_to(cairo, 0, 0);
        pango_cairo_show_layout(cairo, layout_.get());
    }

  private:
    Layout layout_;
};

/// One line, itemized and shaped without a layout: a layout would ask for the metrics of every font
/// in it, and Pango looks each of those fonts up once more for that, which takes longer than the
/// rest of a page.
class ShapedLine : public Shaped {
  public:
    ShapedLine(PangoContext* context, std::string_view text, PangoAttrList* font)
        : text_(one_line(text)) {
        GList* items =
            pango_itemize(context, text_.c_str(), 0, static_cast<int>(text_.size()), font, nullptr);
        GList* visual = pango_reorder_items(items);
        for (GList* i = visual; i; i = i->next)
            shape(static_cast<PangoItem*>(i->data));
        g_list_free(visual);
        g_list_free(items);
    }
    void show(cairo_t* cairo) const override {
        double x = 0;
        for (const Glyphs& run : runs_) {
            cairo_move_to(cairo, x, ascent_);
            pango_cairo_show_glyph_item(cairo, text_.c_str(), run.get());
            x += points(pango_glyph_string_get_width(run->glyphs));
        }
    }
    double width() const { return width_; }
    double height() const { return ascent_ + descent_; }
    double ascent() const { return ascent_; }

  private:
    /// Takes `item` over.
    void shape(PangoItem* item) {
        Glyphs run(g_slice_new0(PangoGlyphItem));
        run->item = item;
        run->glyphs = pango_glyph_string_new();
        pango_shape_full(text_.c_str() + item->offset, item->length, text_.c_str(),
                         static_cast<int>(text_.size()), &item->analysis, run->glyphs);
        width_ += points(pango_glyph_string_get_width(run->glyphs));
        if (item->analysis.font)
            measure_height(item->analysis.font);
        runs_.push_back(std::move(run));
    }
    void measure_height(PangoFont* font) {
        hb_font_extents_t extents{};
        hb_font_get_h_extents(pango_font_get_hb_font(font), &extents);
        ascent_ = std::max(ascent_, points(extents.ascender));
        descent_ = std::max(descent_, points(-extents.descender));
    }

    std::string text_;
    std::vector<Glyphs> runs_;
    double width_ = 0, ascent_ = 0, descent_ = 0;
};

} // namespace

struct Typesetter::State {
    Context context{make_context()};
    Attributes unhyphenated = no_hyphens();
    std::array<Font, fonts_used> fonts;
    std::array<Attributes, fonts_used> attributes;
    std::array<std::unordered_map<std::string, TypesetText>, fonts_used> lines;

    const PangoFontDescription* font(const TextStyle& style) {
        Font& known = fonts[font_index(style)];
        if (!known)
            known = make_font(style.bold, style.italic, style.music);
        return known.get();
    }
    PangoAttrList* font_attributes(const TextStyle& style) {
        Attributes& known = attributes[font_index(style)];
        if (!known) {
            known.reset(pango_attr_list_new());
            pango_attr_list_insert(known.get(), pango_attr_font_desc_new(font(style)));
        }
        return known.get();
    }
    Layout broken(std::string_view text, const TextStyle& style, double width) {
        Layout layout(pango_layout_new(context.get()));
        pango_layout_set_font_description(layout.get(), font(style));
        pango_layout_set_text(layout.get(), one_line(text).c_str(), -1);
        pango_layout_set_attributes(layout.get(), unhyphenated.get());
        pango_layout_set_width(layout.get(),
                               static_cast<int>(width / style.size * set_size * PANGO_SCALE));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
        return layout;
    }
};

Typesetter::Typesetter() : state_(std::make_unique<State>()) {}
Typesetter::~Typesetter() = default;

TypesetText Typesetter::line(std::string_view text, const TextStyle& style) {
    auto& known = state_->lines[font_index(style)];
    auto found = known.find(std::string(text));
    if (found == known.end())
        found =
            known.emplace(text, set_line(text, {set_size, style.bold, style.italic, style.music}))
                .first;
    return found->second.scaled(style.size / set_size);
}

TypesetText Typesetter::set_line(std::string_view text, const TextStyle& style) {
    const auto [at, accidental] = find_accidental(text);
    if (accidental && text.size() > accidental->sign.size()) {
        TypesetText whole = line(text.substr(0, at), style);
        whole.append(line(accidental->sign, style).scaled(accidental->scale),
                     accidental->rise * set_size);
        whole.append(line(text.substr(at + accidental->sign.size()), style));
        return whole;
    }
    const auto shaped =
        std::make_shared<ShapedLine>(state_->context.get(), text, state_->font_attributes(style));
    return TypesetText(shaped, shaped->width(), shaped->height(), shaped->ascent());
}

TypesetText Typesetter::clipped(std::string_view text, const TextStyle& style, double width) {
    return wrapped(text, style, width, 1);
}

TypesetText Typesetter::wrapped(std::string_view text, const TextStyle& style, double width,
                                int most_lines) {
    const TypesetText whole = line(text, style);
    if (whole.width() <= width + fitting_slack)
        return whole;
    Layout layout = state_->broken(text, style, width);
    begin_at_left(layout.get());
    pango_layout_set_height(layout.get(), -most_lines);
    pango_layout_set_ellipsize(layout.get(), PANGO_ELLIPSIZE_END);
    PangoRectangle box;
    pango_layout_get_extents(layout.get(), nullptr, &box);
    const double baseline = points(pango_layout_get_baseline(layout.get()));
    const auto shaped = std::make_shared<ShapedLines>(std::move(layout));
    return TypesetText(shaped, points(box.width), points(box.height), baseline)
        .scaled(style.size / set_size);
}

std::vector<std::string> Typesetter::lines(std::string_view text, const TextStyle& style,
                                           double width) {
    const Layout layout = state_->broken(text, style, width);
    const std::string_view set = pango_layout_get_text(layout.get());
    std::vector<std::string> out;
    for (GSList* l = pango_layout_get_lines_readonly(layout.get()); l; l = l->next) {
        const auto* line = static_cast<const PangoLayoutLine*>(l->data);
        out.emplace_back(set.substr(static_cast<std::size_t>(line->start_index),
                                    static_cast<std::size_t>(line->length)));
    }
    return out;
}

double Typesetter::widest_word(std::string_view text, const TextStyle& style) {
    double widest = 0;
    for (std::size_t begin = 0; begin < text.size();) {
        const std::size_t end = std::min(text.find(' ', begin), text.size());
        widest = std::max(widest, line(text.substr(begin, end - begin), style).width());
        begin = end + 1;
    }
    return widest;
}

TextStyle Typesetter::shrunk(std::string_view text, TextStyle style, double width,
                             std::size_t most_lines, double least) {
    check_argument(least > 0, "the least type", "above 0 points");
    constexpr double step = 0.95;
    // What is too long at any size is not broken into lines at each.
    const bool hopeless =
        line(text, style).width() * least / style.size > width * static_cast<double>(most_lines);
    while (style.size * step >= least
           && (hopeless || lines(text, style, width).size() > most_lines))
        style.size *= step;
    return style;
}

void begin_reading_fonts() {
    pango_cairo_font_map_get_default();
}

} // namespace sectio::page
