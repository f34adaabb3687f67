#pragma once
/// @file
/// Private to lib/print: facts set for a page, labels and values one after the other, as many on a
/// line as there is room for.

#include <sectio/page/page.hpp>
#include <sectio/print/page_pen.hpp>
#include <sectio/print/styles.hpp>

#include <string>
#include <vector>

namespace sectio::page {

class PageFacts {
  public:
    /// Sets the facts that people see on lines of at most `width` points.
    PageFacts(const Facts& block, Typesetter& type, const Styles& styles, const Digits& digits,
              double width);

    /// True where people would see nothing of them.
    bool empty() const { return facts_.empty(); }
    /// Of all lines.
    double height() const { return height_; }
    /// Draws them where the pen stands, which does not move.
    void draw(PagePen& pen) const;

  private:
    struct Placed {
        TypesetText label, value;
        double x = 0, line = 0; ///< of the label; of the line's top below the first
    };
    void add(const Fact& fact, const std::string& text, Typesetter& type, const Styles& styles);

    double width_, line_, baseline_;
    double x_ = 0, y_ = 0, height_ = 0;
    std::vector<Placed> facts_;
};

} // namespace sectio::page
