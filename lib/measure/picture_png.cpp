#include <sectio/measure/picture.hpp>

#include <cairo.h>

#include <memory>
#include <new>

namespace sectio::measure {

namespace {

constexpr double dots_per_mm = 8, mm_per_point = 25.4 / 72;

struct Release {
    void operator()(cairo_t* p) const { cairo_destroy(p); }
    void operator()(cairo_surface_t* p) const { cairo_surface_destroy(p); }
};

cairo_status_t append(void* bytes, const unsigned char* data, unsigned length) {
    static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void draw(cairo_t* cairo, const page::Drawing::Stroke& s) {
    cairo_set_source_rgb(cairo, s.grey, s.grey, s.grey);
    cairo_set_line_width(cairo, s.width);
    cairo_set_dash(cairo, &s.dash, s.dash > 0 ? 1 : 0, 0);
    cairo_move_to(cairo, s.x1, s.y1);
    cairo_line_to(cairo, s.x2, s.y2);
    cairo_stroke(cairo);
}

void draw(cairo_t* cairo, const page::Drawing::Label& label) {
    cairo_select_font_face(cairo, "Noto Sans", CAIRO_FONT_SLANT_NORMAL,
                           label.bold ? CAIRO_FONT_WEIGHT_BOLD : CAIRO_FONT_WEIGHT_NORMAL);
    cairo_set_font_size(cairo, label.points * mm_per_point);
    cairo_text_extents_t size;
    cairo_text_extents(cairo, label.text.c_str(), &size);
    const double part = label.anchor == page::Drawing::Anchor::left     ? 0
                        : label.anchor == page::Drawing::Anchor::middle ? 0.5
                                                                        : 1;
    cairo_move_to(cairo, label.x - part * size.x_advance, label.y);
    cairo_show_text(cairo, label.text.c_str());
}

} // namespace

std::string print_png(const page::Drawing& drawing) {
    const std::unique_ptr<cairo_surface_t, Release> surface(cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, static_cast<int>(drawing.width * dots_per_mm),
        static_cast<int>(drawing.height * dots_per_mm)));
    const std::unique_ptr<cairo_t, Release> cairo(cairo_create(surface.get()));
    cairo_set_source_rgb(cairo.get(), 1, 1, 1);
    cairo_paint(cairo.get());
    cairo_scale(cairo.get(), dots_per_mm, dots_per_mm);
    for (const auto& stroke : drawing.strokes)
        draw(cairo.get(), stroke);
    cairo_set_source_rgb(cairo.get(), 0, 0, 0);
    for (const auto& label : drawing.labels)
        draw(cairo.get(), label);
    std::string bytes;
    if (cairo_surface_write_to_png_stream(surface.get(), append, &bytes) != CAIRO_STATUS_SUCCESS)
        throw std::bad_alloc();
    return bytes;
}

} // namespace sectio::measure
