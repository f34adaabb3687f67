#include <sectio/base/argument.hpp>
#include <sectio/print/c_objects.hpp>
#include <sectio/print/print.hpp>

#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <memory>
#include <new>

namespace sectio::page {

namespace {

constexpr double dots_per_mm = 8, mm_per_point = 25.4 / 72;
constexpr double widest_picture_mm = 2000;

using Picture = std::unique_ptr<cairo_surface_t, Release<cairo_surface_destroy>>;
using Pen = std::unique_ptr<cairo_t, Release<cairo_destroy>>;
using LabelLayout = std::unique_ptr<PangoLayout, Release<g_object_unref>>;
using LabelFont = std::unique_ptr<PangoFontDescription, Release<pango_font_description_free>>;

void draw(cairo_t* cairo, const Drawing::Stroke& s) {
    cairo_set_source_rgb(cairo, s.grey, s.grey, s.grey);
    cairo_set_line_width(cairo, s.width);
    cairo_set_dash(cairo, &s.dash, s.dash > 0 ? 1 : 0, 0);
    cairo_move_to(cairo, s.x1, s.y1);
    cairo_line_to(cairo, s.x2, s.y2);
    cairo_stroke(cairo);
}

/// By Pango, which takes signs that a font lacks, such as ♯, from another.
void draw(cairo_t* cairo, const Drawing::Label& label) {
    const LabelLayout layout(pango_cairo_create_layout(cairo));
    const LabelFont font(
        pango_font_description_from_string(label.bold ? "Noto Sans Bold" : "Noto Sans"));
    pango_font_description_set_absolute_size(font.get(), label.points * mm_per_point * PANGO_SCALE);
    pango_layout_set_font_description(layout.get(), font.get());
    pango_layout_set_text(layout.get(), label.text.c_str(), -1);
    PangoRectangle extent;
    pango_layout_get_extents(layout.get(), nullptr, &extent);
    const double part = label.anchor == Drawing::Anchor::left     ? 0
                        : label.anchor == Drawing::Anchor::middle ? 0.5
                                                                  : 1;
    const double unit = PANGO_SCALE;
    cairo_move_to(cairo, label.x - part * extent.width / unit,
                  label.y - pango_layout_get_baseline(layout.get()) / unit);
    pango_cairo_show_layout(cairo, layout.get());
}

} // namespace

std::string print_png(const Drawing& drawing) {
    const auto fits = [](double mm) { return mm * dots_per_mm >= 1 && mm <= widest_picture_mm; };
    check_argument(fits(drawing.width) && fits(drawing.height), "a picture",
                   fmt::format("of a dot at least and {} mm at most both ways", widest_picture_mm));
    const Picture surface(cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, static_cast<int>(drawing.width * dots_per_mm),
        static_cast<int>(drawing.height * dots_per_mm)));
    const Pen cairo(cairo_create(surface.get()));
    cairo_set_source_rgb(cairo.get(), 1, 1, 1);
    cairo_paint(cairo.get());
    cairo_scale(cairo.get(), dots_per_mm, dots_per_mm);
    for (const auto& stroke : drawing.strokes)
        draw(cairo.get(), stroke);
    cairo_set_source_rgb(cairo.get(), 0, 0, 0);
    for (const auto& label : drawing.labels)
        draw(cairo.get(), label);
    std::string bytes;
    if (cairo_surface_write_to_png_stream(surface.get(), append_written, &bytes)
        != CAIRO_STATUS_SUCCESS)
        throw std::bad_alloc();
    return bytes;
}

} // namespace sectio::page
