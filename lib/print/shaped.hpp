#pragma once
/// @file
/// Private to lib/print: glyphs ready to be drawn: what a TypesetText is made of.

typedef struct _cairo cairo_t;

namespace sectio::page {

class Shaped {
  public:
    Shaped() = default;
    Shaped(const Shaped&) = delete;
    Shaped& operator=(const Shaped&) = delete;
    virtual ~Shaped() = default;
    /// Draws the glyphs with the upper left corner of the text at (0, 0).
    virtual void show(cairo_t* cairo) const = 0;
};

} // namespace sectio::page
