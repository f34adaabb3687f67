#pragma once
/// @file
/// Pages as lists of lines and texts, set with Pango and written with cairo as PDF or SVG.
///
/// Lengths are points from the upper left corner of the page; nothing is scaled to fit, so that a
/// drawing at 1:1 (points_of_mm) prints at 1:1.

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace sectio::page {

class Shaped;

struct TextStyle {
    double size = 10; ///< of the font, in points
    bool bold = false;
    bool italic = false;
    bool music = false; ///< signs of Noto Music as the font has them
};

/// A text that is set and measured, on one line or several. Cheap to copy.
class TypesetText {
  public:
    TypesetText() = default;
    double width() const { return width_; }
    double height() const { return height_; }
    /// From the top to the baseline of the first line.
    double baseline() const { return baseline_; }
    /// The same at another size: outlines are scaled, nothing is set again.
    TypesetText scaled(double factor) const;
    /// One glyph left for right, in the same box.
    TypesetText mirrored() const;

  private:
    friend class Typesetter;
    friend class Surface;
    struct Piece {
        std::shared_ptr<const Shaped> shaped;
        double x, y, scale;      ///< of its upper left corner within the text
        double mirror_width = 0; ///< before scaling, of what is drawn left for right
    };
    TypesetText(std::shared_ptr<const Shaped> shaped, double width, double height, double baseline);
    /// Puts `other` after this, on a baseline that lies `rise` above its own.
    void append(const TypesetText& other, double rise = 0);

    std::vector<Piece> pieces_;
    double width_ = 0, height_ = 0, baseline_ = 0;
};

/// Begins to read the system's fonts in the background, so that they are there when a Typesetter
/// asks for them. Worth calling before long work that ends in a drawing; never needed.
void begin_reading_fonts();

/// Sets text in Noto Sans (accidentals in Noto Sans Symbols and Noto Music, other scripts in what
/// the system has), all at one size, of which TypesetText is a scaled view; so each text is shaped
/// once whatever its sizes, and few fonts are looked up.
class Typesetter {
  public:
    Typesetter();
    ~Typesetter();
    /// One line, kept for the next time.
    TypesetText line(std::string_view text, const TextStyle& style);
    /// One line of at most `width`, its end replaced by "…" where it is longer.
    TypesetText clipped(std::string_view text, const TextStyle& style, double width);
    /// Lines of at most `width`, broken between words or, where a word is longer, inside it; after
    /// `most_lines` the rest is replaced by "…".
    TypesetText wrapped(std::string_view text, const TextStyle& style, double width,
                        int most_lines);
    /// The lines that `text` breaks into, one by one.
    std::vector<std::string> lines(std::string_view text, const TextStyle& style, double width);
    /// The width of the widest word.
    double widest_word(std::string_view text, const TextStyle& style);
    /// `style`, made smaller step by step while `text` breaks into more than `most_lines` of at
    /// most `width`, but not below `least` points.
    TextStyle shrunk(std::string_view text, TextStyle style, double width, std::size_t most_lines,
                     double least);

  private:
    TypesetText set_line(std::string_view text, const TextStyle& style);

    struct State;
    std::unique_ptr<State> state_;
};

struct PlacedText {
    double x = 0, y = 0; ///< upper left corner
    TypesetText text;
};

struct Stroke {
    double x1 = 0, y1 = 0, x2 = 0, y2 = 0;
    double width = 0.5;
    double grey = 0; ///< 0 black … 1 white
    double dash = 0; ///< length of dashes and gaps; 0 for none
};

struct Dot {
    double x = 0, y = 0, radius = 1.5;
    bool filled = true;
};

struct TypesetPage {
    std::vector<Stroke> strokes;
    std::vector<Dot> dots;         ///< above the strokes
    std::vector<PlacedText> texts; ///< above them
};

/// A place that a reader may jump to.
struct OutlineEntry {
    std::string text;
    std::size_t page = 1; ///< from 1
    double y = 0;
};

struct TypesetDocument {
    double width = 0, height = 0; ///< of each page
    std::string title;
    std::string date;            ///< of its creation, ISO 8601; the present time where it is none
    std::string language = "en"; ///< BCP 47
    std::vector<TypesetPage> pages;
    std::vector<OutlineEntry> outline;
};

/// @throws Error drawing_failed
std::string as_pdf(const TypesetDocument& document);
/// The pages below one another.
/// @throws Error drawing_failed
std::string as_svg(const TypesetDocument& document);

} // namespace sectio::page
