#include <sectio/page/numbers.hpp>
#include <sectio/sheet/staff_drawing.hpp>
#include <sectio/sheet/staff_signs.hpp>

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sectio {

namespace {

using page::Drawing;
using score::StaffNote;
using score::StaffScale;

// Millimetres.
constexpr double first_note = 16, line_width = 0.18;
constexpr double half_space = staff_space / 2;
constexpr double figure_points = 9.5, number_points = 9, name_points = 8, octave_points = 8;
constexpr double figure_height = 4, degree_number_height = 3.6, name_line = 3.9, slot_gap = 1.2;
constexpr double octave_height = 4.7;
/// Half spaces between the outermost ink and the words: a sign is higher than its note.
constexpr int clear = 6;
/// Up to so many half spaces from the third line a note keeps its ledger lines; beyond it is
/// written in another octave.
constexpr int furthest = 14;

/// How much a drawing holds.
struct Measures {
    double width;                        ///< in millimetres
    std::size_t notes_named, notes_bare; ///< at most on a staff: names need room
    double most_name_lines;
    std::size_t signs; ///< of the legend in a row
};
constexpr Measures usual{170, 8, 10, 5, 10};
/// A page makes it larger by 170/97 and no more, so that a name of 8 points has 14.
constexpr Measures enlarged{97, 4, 6, 14, 6};

/// Notes of a staff, evenly spread.
std::size_t notes_a_staff(const StaffScale& staff, const Measures& m) {
    const bool named = std::any_of(staff.notes.begin(), staff.notes.end(),
                                   [](const StaffNote& n) { return !n.name.empty(); });
    const std::size_t most = named ? m.notes_named : m.notes_bare;
    const std::size_t staves = (staff.notes.size() + most - 1) / most;
    return (staff.notes.size() + staves - 1) / staves;
}

/// Where a note stands, and by how many octaves that is lower than it sounds.
struct Placed {
    int height;
    int octaves;
};

Placed placed(const StaffNote& note, score::Clef clef) {
    Placed p{score::height_on_staff(note.pitch, clef), 0};
    while (p.height > furthest)
        p.height -= 7, ++p.octaves;
    while (p.height < -furthest)
        p.height += 7, --p.octaves;
    return p;
}

/// As scores write it: "8va", "15mb"; beyond two octaves in words.
std::string octave_text(int octaves) {
    const int size = std::abs(octaves);
    return size > 2 ? fmt::format("{} oct. {}", size, octaves > 0 ? "up" : "down")
                    : fmt::format("{}{}", size == 2 ? "15m" : "8v", octaves > 0 ? "a" : "b");
}

/// One staff with some of the notes.
class Staff {
  public:
    Staff(const StaffScale& staff, std::size_t begin, std::size_t end, std::size_t slots,
          const Measures& m)
        : staff_(staff), begin_(begin), end_(end), m_(m),
          slot_((m.width - first_note) / static_cast<double>(slots)) {
        measure();
    }

    Drawing draw() {
        const double right = first_note + slot_ * static_cast<double>(end_ - begin_);
        for (int line = -4; line <= 4; line += 2)
            pen_.line(0, y(line), right, y(line), line_width);
        pen_.line(right, y(4), right, y(-4), line_width);
        pen_.clef(staff_.clef, 0.8, y(0));
        for (std::size_t i = begin_; i < end_; ++i)
            draw(staff_.notes[i], first_note + slot_ * (static_cast<double>(i - begin_) + 0.55));
        drawing_.width = m_.width;
        drawing_.height = names_top_ + name_lines_ * name_line;
        drawing_.description = fmt::format("Degrees {} to {} on a staff with {} clef", begin_ + 1,
                                           end_, score::entry_of(staff_.clef).name);
        return std::move(drawing_);
    }

  private:
    double y(int height) const { return middle_ - height * half_space; }

    void measure() {
        int high = 4, low = -4;
        bool octaves = false;
        double letters = 0;
        for (std::size_t i = begin_; i < end_; ++i) {
            const Placed p = placed(staff_.notes[i], staff_.clef);
            high = std::max(high, p.height), low = std::min(low, p.height);
            octaves = octaves || p.octaves != 0;
            letters = std::max(letters, static_cast<double>(display_width(staff_.notes[i].name)));
        }
        constexpr double letter = 1.5; // of a name, on average, in millimetres
        name_lines_ = std::clamp(std::ceil(letters * letter / (slot_ - slot_gap) * 1.2), 0.0,
                                 m_.most_name_lines);
        figures_ = figure_height + (octaves ? octave_height : 0);
        middle_ = figures_ + (high + clear) * half_space;
        numbers_ = y(low - clear) + degree_number_height;
        names_top_ = numbers_ + 1.5;
    }

    void draw(const StaffNote& note, double x) {
        const Placed p = placed(note, staff_.clef);
        ledger_lines(p.height, x);
        pen_.notehead(x, y(p.height));
        if (note.sign != score::no_sign)
            pen_.sign(note.sign, x - 1.4 * staff_space, y(p.height));
        Drawing::Label figure = boxed(x, figure_height - 0.8, "", figure_points, figure_height);
        figure.value =
            page::cents(note.deviation)
                .borne_by(note.uncertainty ? std::optional<page::HalfWidth>(*note.uncertainty)
                                           : std::nullopt)
                .with_sign();
        figure.bold = true;
        drawing_.labels.push_back(figure);
        if (p.octaves != 0)
            drawing_.labels.push_back(boxed(x, figures_ - 1.2, octave_text(p.octaves),
                                            octave_points, degree_number_height));
        drawing_.labels.push_back(
            boxed(x, numbers_, std::to_string(note.number), number_points, degree_number_height));
        if (!note.name.empty())
            drawing_.labels.push_back(boxed(x, names_top_ + 0.75 * name_line, one_line(note.name),
                                            name_points, name_lines_ * name_line));
    }

    void ledger_lines(int height, double x) {
        constexpr double half = 1.35 * staff_space;
        for (int line = 6; line <= height; line += 2)
            pen_.line(x - half, y(line), x + half, y(line), line_width);
        for (int line = -6; line >= height; line -= 2)
            pen_.line(x - half, y(line), x + half, y(line), line_width);
    }

    Drawing::Label boxed(double x, double at, std::string text, double points, double height) {
        Drawing::Label label{x, at, std::move(text), points, Drawing::Anchor::middle};
        label.most_width = slot_ - slot_gap;
        label.most_height = height;
        return label;
    }

    const StaffScale& staff_;
    std::size_t begin_, end_;
    Measures m_;
    double slot_;
    Drawing drawing_;
    StaffPen pen_{drawing_};
    double middle_ = 0, figures_ = 0, numbers_ = 0, names_top_ = 0, name_lines_ = 0;
};

} // namespace

std::vector<Drawing> staff_drawings(const StaffScale& staff, bool large) {
    const Measures& measures = large ? enlarged : usual;
    std::vector<Drawing> drawings;
    const std::size_t slots = notes_a_staff(staff, measures), notes = staff.notes.size();
    const std::size_t staves = (notes + slots - 1) / slots;
    for (std::size_t i = 0; i < staves; ++i)
        drawings.push_back(
            Staff(staff, i * notes / staves, (i + 1) * notes / staves, slots, measures).draw());
    return drawings;
}

std::optional<Drawing> sign_legend(const StaffScale& staff, bool large) {
    const Measures& measures = large ? enlarged : usual;
    std::vector<std::pair<Rational, score::Sign>> signs;
    for (const StaffNote& n : staff.notes)
        if (n.sign != score::no_sign)
            signs.emplace_back(n.pitch.alteration.amount, n.sign);
    std::sort(signs.begin(), signs.end());
    signs.erase(std::unique(signs.begin(), signs.end()), signs.end());
    if (staff.style == SignStyle::plain || signs.empty())
        return std::nullopt;
    Drawing legend;
    StaffPen pen(legend);
    constexpr double row = 9;
    const double column = measures.width / static_cast<double>(measures.signs);
    for (std::size_t i = 0; i < signs.size(); ++i) {
        const double x = column * static_cast<double>(i % measures.signs);
        const double y = row * static_cast<double>(i / measures.signs) + row / 2 + 2;
        pen.sign(signs[i].second, x + 5.5, y);
        Drawing::Label meaning{x + 7, y + 1, "", name_points};
        meaning.value = page::number(staff.style == SignStyle::comma ? signs[i].first
                                                                     : Rational(signs[i].first * 2))
                            .shown_with(0)
                            .with_sign();
        legend.labels.push_back(meaning);
        legend.height = std::max(legend.height, y + row / 2);
    }
    legend.width = measures.width;
    legend.heading = staff.style == SignStyle::comma
                         ? "The signs, in commas of which the octave has 53"
                         : "The signs, in quarter tones";
    legend.description = "The signs with what they mean";
    return legend;
}

} // namespace sectio
