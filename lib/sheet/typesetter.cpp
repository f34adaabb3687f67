#include <sectio/sheet/drawing.hpp>

#include <pango/pangocairo.h>

#include <array>
#include <map>
#include <unordered_map>

namespace sectio {

namespace {

/// All text is set at this size; large enough that Pango's units (1/1024 point) do not show.
constexpr double set_size = 10;
/// Points by which widths that were added up may differ from the one they are to fit.
constexpr double fitting_slack = 0.01;
constexpr const char* font_family = "Noto Sans, Noto Sans Math";

struct Unref {
    void operator()(void* object) const { g_object_unref(object); }
};
struct FreeFont {
    void operator()(PangoFontDescription* font) const { pango_font_description_free(font); }
};
struct FreeAttributes {
    void operator()(PangoAttrList* list) const { pango_attr_list_unref(list); }
};
using Attributes = std::unique_ptr<PangoAttrList, FreeAttributes>;
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

/// How an accidental is set beside letters: the Noto fonts draw ♯ low and ♭ small, as if for a line
/// of mathematics; here they are as tall as on a staff, and their middle is that of a capital.
struct Accidental {
    std::string_view sign;
    const char* family;
    double scale; ///< of the size of type
    double rise;  ///< likewise
};
constexpr std::array accidentals{Accidental{"♭", "Noto Sans Symbols", 1.4, 0.09},
                                 Accidental{"♯", "Noto Sans Symbols", 1.05, 0.16},
                                 Accidental{"♮", "Noto Sans Symbols", 1.05, 0.16},
                                 Accidental{"\U0001D12B", "Noto Music", 1.3, 0.1},
                                 Accidental{"\U0001D12A", "Noto Music", 1.2, 0.13},
                                 Accidental{"\U0001D132", "Noto Music", 1.05, 0.16},
                                 Accidental{"\U0001D133", "Noto Music", 1.4, 0.09}};

void add_accidental(PangoAttrList* list, std::size_t at, const Accidental& a) {
    for (PangoAttribute* attribute :
         {pango_attr_family_new(a.family),
          pango_attr_size_new_absolute(static_cast<int>(a.scale * set_size * PANGO_SCALE)),
          pango_attr_rise_new(static_cast<int>(a.rise * set_size * PANGO_SCALE))}) {
        attribute->start_index = static_cast<guint>(at);
        attribute->end_index = static_cast<guint>(at + a.sign.size());
        pango_attr_list_insert(list, attribute);
    }
}

/// Attributes for `text`: its accidentals, and no hyphen where a name is broken inside a word. None
/// where it needs none.
Attributes attributes_of(std::string_view text, bool broken) {
    Attributes list;
    const auto needed = [&] {
        if (!list)
            list.reset(pango_attr_list_new());
        return list.get();
    };
    if (broken)
        pango_attr_list_insert(needed(), pango_attr_insert_hyphens_new(FALSE));
    // Every accidental begins with one of two bytes, which most texts do not hold.
    if (text.find_first_of("\xE2\xF0") != std::string_view::npos)
        for (const Accidental& a : accidentals)
            for (std::size_t at = text.find(a.sign); at != std::string_view::npos;
                 at = text.find(a.sign, at + 1))
                add_accidental(needed(), at, a);
    return list;
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

/// Text that runs from right to left begins at the left margin all the same, under its neighbours:
/// Pango takes "right" for the end of a line, wherever that is.
void begin_at_left(PangoLayout* layout) {
    if (pango_layout_get_direction(layout, 0) == PANGO_DIRECTION_RTL)
        pango_layout_set_alignment(layout, PANGO_ALIGN_RIGHT);
}

} // namespace

struct Typesetter::State {
    std::unique_ptr<PangoContext, Unref> context{make_context()};
    std::array<Font, 4> fonts;
    std::array<std::unordered_map<std::string, SetText>, 4> lines;

    std::shared_ptr<void> layout(std::string_view text, const TextStyle& style, bool broken) {
        Font& font = fonts[font_index(style)];
        if (!font)
            font = make_font(style.bold, style.italic);
        PangoLayout* layout = pango_layout_new(context.get());
        pango_layout_set_font_description(layout, font.get());
        pango_layout_set_text(layout, text.data(), static_cast<int>(text.size()));
        if (const Attributes attributes = attributes_of(text, broken))
            pango_layout_set_attributes(layout, attributes.get());
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
        auto layout = state_->layout(text, style, false);
        pango_layout_set_single_paragraph_mode(static_cast<PangoLayout*>(layout.get()), TRUE);
        found = known.emplace(text, state_->measured(std::move(layout))).first;
    }
    return found->second.scaled(style.size / set_size);
}

SetText Typesetter::clipped(std::string_view text, const TextStyle& style, double width) {
    const SetText whole = line(text, style);
    return whole.width() <= width + fitting_slack ? whole : wrapped(text, style, width, 1);
}

SetText Typesetter::wrapped(std::string_view text, const TextStyle& style, double width,
                            int most_lines) {
    const double scale = style.size / set_size;
    auto shared = state_->layout(text, style, true);
    auto* layout = static_cast<PangoLayout*>(shared.get());
    begin_at_left(layout);
    pango_layout_set_width(layout, static_cast<int>(width / scale * PANGO_SCALE));
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_height(layout, -most_lines);
    pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    return state_->measured(std::move(shared)).scaled(scale);
}

std::vector<std::string> Typesetter::lines(std::string_view text, const TextStyle& style,
                                           double width) {
    auto shared = state_->layout(text, style, true);
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
