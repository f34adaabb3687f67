#pragma once
/// @file
/// Private to lib/print: the place on the paper where the next thing goes, and what every page of a
/// document carries: its title again, and its number.

#include <sectio/page/page.hpp>
#include <sectio/print/paper.hpp>
#include <sectio/print/typeset_pages.hpp>

#include <string>
#include <vector>

namespace sectio::page {

class PagePen {
  public:
    /// `running` stands beside the title at the head of every page but the first.
    PagePen(const Page& page, const Paper& paper, const std::string& running);

    Typesetter& type() { return type_; }
    TypesetPage& sheet() { return document_.pages.back(); }
    double left() const { return paper_.left + inset_; }
    double width() const { return paper_.text_width() - inset_; }
    /// Keeps `by` points free at the left, where something stands, up to the end of this page.
    void inset(double by) { inset_ = by; }
    bool is_inset() const { return inset_ > 0; }
    double y() const { return y_; }
    double bottom() const;
    double room() const { return bottom() - y_; }
    /// What a page holds that nothing stands on yet.
    double whole_room() const;

    /// True where nothing but the head of the page stands on it yet.
    bool on_new_page() const { return y_ <= top_; }

    /// Number of the page, from 0.
    std::size_t page() const { return document_.pages.size() - 1; }
    /// Of each page, the share of its height that is filled. The last is known after finish().
    const std::vector<double>& filled() const { return filled_; }

    void down(double by) { y_ += by; }
    /// Begins a new page unless `height` fits on this one.
    void need(double height);
    void new_page();
    /// Adds an entry to the document's outline, at this place.
    void outline(const std::string& heading);

    void place(const TypesetText& text, double x, double y) {
        sheet().texts.push_back({x, y, text});
    }
    void rule(double y, double width, double thickness, double grey = 0);

    /// The document with its pages numbered.
    TypesetDocument finish();

  private:
    void close_page() { filled_.push_back((y_ - paper_.top) / (bottom() - paper_.top)); }
    void footer(TypesetPage& on, std::size_t number);

    Paper paper_;
    Typesetter type_;
    TypesetText running_title_, running_;
    double running_height_ = 0;
    TypesetDocument document_;
    std::vector<double> filled_;
    double y_, top_, inset_ = 0;
};

} // namespace sectio::page
