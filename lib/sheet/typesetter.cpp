#include <sectio/sheet/drawing.hpp>

#include <pango/pangocairo.h>

#include <array>
#include <map>
#include <unordered_map>

namespace sectio {

namespace {

/// All text is set at this size; large enough that Pango's units (1/1024 point) do not show.
constexpr double set_size = 10;
constexpr const char* font_family = "Noto Sans, Noto Music";

struct Unref {
    void operator()(void* object) const { g_object_unref(object); }
};
struct FreeFont {
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
using Font = std::unique_ptr<PangoFontDescription, FreeFont>;

Font make_font(bool bold, bool italic) {
    Font font(pango_font_description_new());
    pango_font_description_set_family_static(font.get(), font_family);
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
    return (style.bold ? 1U : 0U) + (style.italic ? 2U : 0U);
}

/// A text without a strong left-to-right letter begins at the left all the same.
void begin_at_left(PangoLayout* layout, std::string_view text) {
    const auto direction = pango_find_base_dir(text.data(), static_cast<int>(text.size()));
    if (direction == PANGO_DIRECTION_RTL)
        pango_layout_set_alignment(layout, PANGO_ALIGN_RIGHT);
}

} // namespace

struct Typesetter::State {
    std::unique_ptr<PangoContext, Unref> context{make_context()};
    std::array<Font, 4> fonts;
    std::array<std::unordered_map<std::string, SetText>, 4> lines;

    std::shared_ptr<void> layout(std::string_view text, const TextStyle& style) {
        Font& font = fonts[font_index(style)];
        if (!font)
            font = make_font(style.bold, style.italic);
        PangoLayout* layout = pango_layout_new(context.get());
        pango_layout_set_font_description(layout, font.get());
        pango_layout_set_text(layout, text.data(), static_cast<int>(text.size()));
        return {layout, Unref()};
    }
    SetText measured(std::shared_ptr<void> layout) {
        auto* pango = static_cast<PangoLayout*>(layout.get());
        PangoRectangle box;
        pango_layout_get_extents(pango, nullptr, &box);
        SetText text;
        text.width_ = static_cast<double>(box.width) / PANGO_SCALE;
        text.height_ = static_cast<double>(box.height) / PANGO_SCALE;
        text.baseline_ = static_cast<double>(pango_layout_get_baseline(pango)) / PANGO_SCALE;
        text.layout_ = std::move(layout);
        return text;
    }
};

SetText SetText::scaled(double factor) const {
    SetText text = *this;
    text.scale_ *= factor, text.width_ *= factor;
    text.height_ *= factor, text.baseline_ *= factor;
    return text;
}

Typesetter::Typesetter() : state_(std::make_unique<State>()) {}
Typesetter::~Typesetter() = default;

SetText Typesetter::line(std::string_view text, const TextStyle& style) {
    auto& known = state_->lines[font_index(style)];
    auto found = known.find(std::string(text));
    if (found == known.end()) {
        auto layout = state_->layout(text, style);
        pango_layout_set_single_paragraph_mode(static_cast<PangoLayout*>(layout.get()), TRUE);
        found = known.emplace(text, state_->measured(std::move(layout))).first;
    }
    return found->second.scaled(style.size / set_size);
}

SetText Typesetter::clipped(std::string_view text, const TextStyle& style, double width) {
    return wrapped(text, style, width, 1);
}

SetText Typesetter::wrapped(std::string_view text, const TextStyle& style, double width,
                            int most_lines) {
    const double scale = style.size / set_size;
    auto shared = state_->layout(text, style);
    auto* layout = static_cast<PangoLayout*>(shared.get());
    begin_at_left(layout, text);
    pango_layout_set_width(layout, static_cast<int>(width / scale * PANGO_SCALE));
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_height(layout, -most_lines);
    pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    return state_->measured(std::move(shared)).scaled(scale);
}

std::vector<std::string> Typesetter::lines(std::string_view text, const TextStyle& style,
                                           double width) {
    auto shared = state_->layout(text, style);
    auto* layout = static_cast<PangoLayout*>(shared.get());
    pango_layout_set_width(layout, static_cast<int>(width / style.size * set_size * PANGO_SCALE));
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    std::vector<std::string> out;
    for (GSList* l = pango_layout_get_lines_readonly(layout); l; l = l->next) {
        const auto* line = static_cast<const PangoLayoutLine*>(l->data);
        out.emplace_back(text.substr(static_cast<std::size_t>(line->start_index),
                                     static_cast<std::size_t>(line->length)));
    }
    return out;
}

} // namespace sectio
