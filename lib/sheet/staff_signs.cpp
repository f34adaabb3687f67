#include <sectio/sheet/staff_signs.hpp>

#include <algorithm>
#include <array>

namespace sectio {

namespace {

using page::Drawing;
using score::Clef;

constexpr double points_a_mm = 72 / 25.4;
/// Of the font: four spaces an em, as its C clef, which spans a staff, has them.
constexpr double em = 4 * staff_space;

/// A glyph of Noto Music in thousandths of an em, measured in NotoMusic-Regular of fonts-noto-core
/// 20201225: ink width, and height of what stands on the line or space above the baseline.
struct Glyph {
    std::string_view text;
    double width;
    double middle;
};
constexpr Glyph whole_note{"\U0001D15D", 414, 134}, flat_glyph{"♭", 245, 115},
    sharp_glyph{"♯", 451, 178}, natural_glyph{"♮", 255, 95}, double_sharp{"\U0001D12A", 260, 131},
    double_flat{"\U0001D12B", 367, 105};

/// Clefs: how far the baseline lies below the third line, in staff spaces.
struct ClefGlyph {
    Clef clef;
    std::string_view text;
    double below;
};
constexpr std::array clefs{
    ClefGlyph{Clef::treble, "\U0001D11E", 2}, ClefGlyph{Clef::octave_treble, "\U0001D120", 2},
    ClefGlyph{Clef::alto, "\U0001D121", 2.02}, ClefGlyph{Clef::bass, "\U0001D122", 1.58}};

constexpr double of_em(double thousandths) {
    return thousandths / 1000 * em;
}

constexpr double stem_width = 0.13 * staff_space, bar_width = 0.32 * staff_space;
constexpr double stem_gap = 0.75 * staff_space, bar_over = 0.6 * staff_space;
constexpr double bar_slope = 0.25; ///< rise of a bar over its length

} // namespace

void StaffPen::line(double x1, double y1, double x2, double y2, double width) {
    drawing_.strokes.push_back({x1, y1, x2, y2, width, 0, 0});
}

void StaffPen::glyph(std::string_view text, double x, double baseline, bool mirrored) {
    Drawing::Label label{x, baseline, std::string(text), em * points_a_mm, Drawing::Anchor::middle};
    label.music = true;
    label.mirrored = mirrored;
    drawing_.labels.push_back(label);
}

void StaffPen::clef(Clef clef, double left, double middle_line) {
    constexpr double half_width = 400; // the widest has 800 thousandths with the room beside it
    const auto& found = *std::find_if(clefs.begin(), clefs.end(),
                                      [&](const ClefGlyph& c) { return c.clef == clef; });
    glyph(found.text, left + of_em(half_width), middle_line + found.below * staff_space);
}

void StaffPen::notehead(double x, double y) {
    glyph(whole_note.text, x, y + of_em(whole_note.middle));
}

/// Upright stems crossed by rising bars: ♯ has two and two.
double StaffPen::sharp(int stems, int bars, double right, double y) {
    const double width = (stems - 1) * stem_gap + 2 * bar_over;
    const double middle = right - width / 2, rise = width * bar_slope;
    constexpr double bar_gap = 0.9 * staff_space, half_stem = 1.45 * staff_space;
    for (int i = 0; i < stems; ++i) {
        const double off = (i - (stems - 1) / 2.0) * stem_gap;
        const double centre = y - off * bar_slope;
        line(middle + off, centre - half_stem, middle + off, centre + half_stem, stem_width);
    }
    for (int i = 0; i < bars; ++i) {
        const double centre = y + (i - (bars - 1) / 2.0) * (bars > 2 ? 0.75 : 1) * bar_gap;
        line(right - width, centre + rise / 2, right, centre - rise / 2, bar_width);
    }
    return width;
}

/// ♭, or the same left for right, its stem crossed by slashes.
double StaffPen::flat(double right, double y, bool mirrored, int slashes) {
    const double width = of_em(flat_glyph.width), overhang = slashes > 0 ? 0.45 * staff_space : 0;
    glyph(flat_glyph.text, right - width / 2, y + of_em(flat_glyph.middle), mirrored);
    const double stem = right - width;
    for (int i = 0; i < slashes; ++i) {
        const double centre = y - (0.95 + 0.45 * i) * staff_space;
        line(stem - overhang, centre + 0.3 * staff_space, stem + 1.5 * overhang,
             centre - 0.35 * staff_space, stem_width);
    }
    return width + overhang;
}

/// A sign with the number of its commas above it on the right.
double StaffPen::numbered(bool up, std::string_view number, double right, double y) {
    constexpr double digit = 1.1 * staff_space, points = 8;
    drawing_.labels.push_back(
        {right, y - 1.1 * staff_space, std::string(number), points, Drawing::Anchor::right, true});
    if (!up)
        return flat(right - digit, y, false, 0) + digit;
    const double width = of_em(sharp_glyph.width);
    glyph(sharp_glyph.text, right - digit - width / 2, y + of_em(sharp_glyph.middle));
    return width + digit;
}

/// A stem with an open triangle at its upper right.
double StaffPen::koron(double right, double y) {
    constexpr double width = 1.1 * staff_space, half = 0.8 * staff_space;
    const double stem = right - width;
    line(stem, y - half, stem, y + 2.2 * staff_space, stem_width);
    line(stem, y - half, right, y, stem_width);
    line(right, y, stem, y + half, stem_width);
    return width;
}

/// Two arms that meet on the right, crossed by two stems.
double StaffPen::sori(double right, double y) {
    constexpr double width = 1.7 * staff_space, half = 0.75 * staff_space;
    for (const double end : {y - half, y + half})
        line(right - width, end, right, y, bar_width / 2);
    for (const double stem : {right - 0.65 * width, right - 0.35 * width})
        line(stem, y - 1.4 * staff_space, stem, y + 1.4 * staff_space, stem_width);
    return width;
}

double StaffPen::sign(score::Sign sign, double right, double y) {
    const std::string_view name = score::all_signs()[sign].name;
    const auto plain = [&](const Glyph& g) {
        glyph(g.text, right - of_em(g.width) / 2, y + of_em(g.middle));
        return of_em(g.width);
    };
    if (name == "sharp")
        return plain(sharp_glyph);
    if (name == "natural")
        return plain(natural_glyph);
    if (name == "double-sharp")
        return plain(double_sharp);
    if (name == "flat-flat")
        return plain(double_flat);
    if (name.starts_with("sharp-") || name.starts_with("flat-"))
        return numbered(name.starts_with('s'), name.substr(name.find('-') + 1), right, y);
    if (name == "three-quarters-flat") {
        const double first = flat(right, y, false, 0);
        return first + flat(right - first, y, true, 0);
    }
    if (name == "koron")
        return koron(right, y);
    if (name == "sori")
        return sori(right, y);
    if (name.ends_with("flat"))
        return flat(right, y, name == "quarter-flat",
                    name == "double-slash-flat" ? 2
                    : name == "slash-flat"      ? 1
                                                : 0);
    return name == "quarter-sharp"          ? sharp(1, 2, right, y)
           : name == "slash-quarter-sharp"  ? sharp(1, 3, right, y)
           : name == "slash-sharp"          ? sharp(2, 3, right, y)
           : name == "three-quarters-sharp" ? sharp(3, 2, right, y)
                                            : 0;
}

} // namespace sectio
