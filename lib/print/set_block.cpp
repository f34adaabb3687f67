#include <sectio/print/draw.hpp>
#include <sectio/print/lay_out.hpp>
#include <sectio/print/ruler.hpp>

namespace sectio::page {

TypesetDocument set_ruler(const Ruler& ruler, double width) {
    Typesetter type;
    TypesetDocument document{width, 1, "", "", "en", {{}}, {}};
    document.height = draw_ruler(ruler, type, document.pages.front(), 0, 0, width) + 1;
    return document;
}

TypesetDocument set_drawing(const Drawing& drawing, double width) {
    Typesetter type;
    const double scale = drawing_scale(drawing, width);
    TypesetDocument document{points_of_mm(drawing.width) * scale,
                             points_of_mm(drawing.height) * scale,
                             "",
                             "",
                             "en",
                             {{}},
                             {}};
    draw_at(drawing, type, document.pages.front(), 0, 0, scale);
    return document;
}

} // namespace sectio::page
