// Drawings written by cairo.

#include <sectio/base/error.hpp>
#include <sectio/base/today.hpp>
#include <sectio/print/c_objects.hpp>
#include <sectio/print/messages.hpp>
#include <sectio/print/pdf_language.hpp>
#include <sectio/print/shaped.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <fmt/format.h>

#include <algorithm>
#include <cctype>

namespace sectio::page {

namespace {

/// "2026-03-21", the form that a PDF date can be made of.
bool is_iso_date(const std::string& date) {
    constexpr std::string_view form = "0000-00-00";
    return date.size() == form.size()
           && std::equal(date.begin(), date.end(), form.begin(), [](char c, char f) {
                  return f == '0' ? std::isdigit(static_cast<unsigned char>(c)) != 0 : c == f;
              });
}

/// cairo numbers the surfaces of a process on, so that the same drawing would be another file each
/// time: every one is surface1, as an SVG file has but one.
std::string with_steady_name(std::string svg) {
    constexpr std::string_view name = "id=\"surface";
    for (std::size_t at = svg.find(name); at != std::string::npos; at = svg.find(name, at)) {
        at += name.size();
        svg.replace(at, std::min(svg.find('"', at), svg.size()) - at, "1");
    }
    return svg;
}

/// Without the first rectangle, which is the ground: all else that is drawn are paths and letters.
std::string without_ground(std::string svg) {
    const std::size_t begin = svg.find("<rect "), end = svg.find('\n', begin);
    return end == std::string::npos ? svg : svg.erase(begin, end + 1 - begin);
}

} // namespace

/// A cairo surface that collects its bytes.
class Surface {
  public:
    using Make = cairo_surface_t* (*)(cairo_write_func_t, void*, double, double);

    Surface(Make make, double width, double height)
        : surface_(make(append_written, &bytes_, width, height)), cairo_(cairo_create(surface_)) {}
    Surface(const Surface&) = delete;
    Surface& operator=(const Surface&) = delete;
    ~Surface() {
        cairo_destroy(cairo_);
        cairo_surface_destroy(surface_);
    }

    cairo_surface_t* surface() const { return surface_; }

    /// Draws a page with its upper left corner at height `y`.
    void draw(const TypesetPage& page, double y) {
        for (const Stroke& s : page.strokes)
            draw(s, y);
        cairo_set_source_rgb(cairo_, 0, 0, 0);
        for (const Dot& s : page.dots)
            draw(s, y);
        for (const PlacedText& t : page.texts)
            draw(t, y);
    }
    /// cairo unites the areas of all marks, in a time that grows with their square, unless one
    /// rectangle holds them.
    void draw_ground() {
        cairo_set_source_rgb(cairo_, 1, 1, 1);
        cairo_paint(cairo_);
    }
    void next_page() { cairo_show_page(cairo_); }

    std::string finish() {
        const cairo_status_t drawn = cairo_status(cairo_);
        cairo_surface_finish(surface_);
        const cairo_status_t written = cairo_surface_status(surface_);
        if (drawn != CAIRO_STATUS_SUCCESS || written != CAIRO_STATUS_SUCCESS)
            throw error(message::drawing_failed, "", {},
                        cairo_status_to_string(drawn != CAIRO_STATUS_SUCCESS ? drawn : written));
        return std::move(bytes_);
    }

  private:
    void draw(const Stroke& s, double y) {
        cairo_set_source_rgb(cairo_, s.grey, s.grey, s.grey);
        cairo_set_line_width(cairo_, s.width);
        cairo_set_dash(cairo_, &s.dash, s.dash > 0 ? 1 : 0, 0);
        cairo_move_to(cairo_, s.x1, s.y1 + y);
        cairo_line_to(cairo_, s.x2, s.y2 + y);
        cairo_stroke(cairo_);
    }
    void draw(const Dot& s, double y) {
        constexpr double whole_turn = 6.283185307179586, outline = 0.6;
        cairo_set_dash(cairo_, nullptr, 0, 0);
        cairo_new_sub_path(cairo_);
        cairo_arc(cairo_, s.x, s.y + y, s.radius, 0, whole_turn);
        cairo_set_line_width(cairo_, outline);
        s.filled ? cairo_fill(cairo_) : cairo_stroke(cairo_);
    }
    void draw(const PlacedText& t, double y) {
        for (const TypesetText::Piece& piece : t.text.pieces_) {
            cairo_save(cairo_);
            cairo_translate(cairo_, t.x + piece.x, t.y + y + piece.y);
            cairo_scale(cairo_, piece.scale, piece.scale);
            if (piece.mirror_width > 0) {
                cairo_translate(cairo_, piece.mirror_width, 0);
                cairo_scale(cairo_, -1, 1);
            }
            piece.shaped->show(cairo_);
            cairo_restore(cairo_);
        }
    }

    std::string bytes_;
    cairo_surface_t* surface_;
    cairo_t* cairo_;
};

std::string as_pdf(const TypesetDocument& document) {
    Surface target(cairo_pdf_surface_create_for_stream, document.width, document.height);
    const auto say = [&](cairo_pdf_metadata_t what, const std::string& value) {
        cairo_pdf_surface_set_metadata(target.surface(), what, value.c_str());
    };
    say(CAIRO_PDF_METADATA_TITLE, document.title);
    say(CAIRO_PDF_METADATA_CREATOR, "Sectio");
    say(CAIRO_PDF_METADATA_CREATE_DATE,
        (is_iso_date(document.date) ? document.date : today()) + "T00:00:00Z");
    for (const TypesetPage& page : document.pages) {
        target.draw(page, 0);
        target.next_page();
    }
    for (const OutlineEntry& entry : document.outline)
        cairo_pdf_surface_add_outline(
            target.surface(), CAIRO_PDF_OUTLINE_ROOT, entry.text.c_str(),
            fmt::format("page={} pos=[0 {:.1f}]", entry.page, entry.y).c_str(),
            CAIRO_PDF_OUTLINE_FLAG_OPEN);
    return with_language(target.finish(), document.language);
}

std::string as_svg(const TypesetDocument& document) {
    const double height = document.height * static_cast<double>(document.pages.size());
    Surface target(cairo_svg_surface_create_for_stream, document.width, height);
    // A point is 1/72 inch; cairo 1.18 would write a pixel of 1/96, and rulers three quarters long.
    cairo_svg_surface_set_document_unit(target.surface(), CAIRO_SVG_UNIT_PT);
    target.draw_ground();
    for (std::size_t i = 0; i < document.pages.size(); ++i)
        target.draw(document.pages[i], document.height * static_cast<double>(i));
    return without_ground(with_steady_name(target.finish()));
}

} // namespace sectio::page
