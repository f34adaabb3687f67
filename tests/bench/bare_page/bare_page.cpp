#include "bare_page.hpp"

#include <cairo-pdf.h>
#include <pango/pangocairo.h>

namespace bare {

namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void draw(cairo_t* cairo, const std::vector<std::string>& words) {
    constexpr const char* fonts[] = {"Noto Sans 10", "Noto Sans Bold 10", "Noto Sans Italic 10"};
    PangoLayout* layout = pango_cairo_create_layout(cairo);
    for (std::size_t i = 0; i < words.size(); ++i) {
        PangoFontDescription* font = pango_font_description_from_string(fonts[i % 3 == 0   ? 1
                                                                              : i % 5 == 0 ? 2
                                                                                           : 0]);
        pango_layout_set_font_description(layout, font);
        pango_layout_set_text(layout, words[i].c_str(), static_cast<int>(words[i].size()));
        cairo_move_to(cairo, 40 + 65 * static_cast<double>(i % 8),
                      40 + 13 * static_cast<double>(i / 8));
        pango_cairo_show_layout(cairo, layout);
        pango_font_description_free(font);
    }
    g_object_unref(layout);
}

} // namespace

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words(1);
    for (const char c : text)
        if (c != ' ' && c != '\n')
            words.back() += c;
        else if (!words.back().empty())
            words.emplace_back();
    return words;
}

std::string page(const std::vector<std::string>& words) {
    std::string bytes;
    cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append, &bytes, 595, 842);
    cairo_t* cairo = cairo_create(surface);
    draw(cairo, words);
    cairo_show_page(cairo);
    cairo_destroy(cairo);
    cairo_surface_finish(surface);
    cairo_surface_destroy(surface);
    return bytes;
}

} // namespace bare
