#pragma once
/// @file
/// What a cell of a page holds: a value, never its digits. Each printer rounds for its own readers,
/// by one rule: a figure that rests on a measurement has no more digits than its half width
/// supports.

#include <sectio/interval/interval.hpp>
#include <sectio/interval/pitch.hpp>

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace sectio::page {

/// Digits after the point: where people read, and where programs do.
struct Digits {
    int people = 1;
    int programs = 3;
    bool asked = false; ///< by the reader, who then gets them everywhere
};

/// Half width of a measured figure, in the figure's own unit: an interval where that is cents.
using HalfWidth = std::variant<Interval, Rational>;

/// A number that can be rounded correctly to any number of digits.
class Number {
  public:
    /// The number with `digits` after the point, "-13.7", as sectio::decimal() writes it.
    using Rounding = std::function<std::string(int digits)>;

    explicit Number(Rounding rounding);
    // Defined in number.cpp: here every source that makes a page would compile them again.
    Number(const Number&);
    Number(Number&&) noexcept;
    Number& operator=(const Number&);
    Number& operator=(Number&&) noexcept;
    ~Number();

    /// The figure rests on a measurement of this half width; of several the widest counts.
    Number borne_by(const std::optional<HalfWidth>& half_width) &&;
    /// People see a plus sign before what is above zero after rounding.
    Number with_sign() &&;
    /// People see so many digits, whatever the page says, unless they ask for others.
    Number shown_with(int digits) &&;
    /// Nobody sees more digits than the value has.
    Number with_at_most(int digits) &&;
    /// So many digits beyond those asked for, where they are not 0: another figure beside it is
    /// worth as much only with them.
    Number with_more(int digits) &&;
    /// What stands after it for people: "cents", "Hz". Columns say it in their heading instead.
    Number in(std::string unit) &&;

    bool measured() const { return half_width_.has_value(); }

    /// "−13.7 cents", with the true minus sign. @throws Error digits_out_of_range,
    /// rounding_undecided
    std::string for_people(const Digits& digits) const;
    /// "-13.7", as many digits as are borne.
    std::string for_programs(const Digits& digits) const;
    /// All digits asked for, measured or not; those up to the ninth too where they are not 0.
    std::string unborne(const Digits& digits) const;

  private:
    int borne(int digits) const;
    std::string with_all_but_zeros(int least, int most) const;

    Rounding rounding_;
    std::optional<HalfWidth> half_width_;
    std::optional<int> shown_;
    std::optional<int> most_;
    int more_ = 0;
    bool sign_ = false;
    std::string unit_;
};

/// Size in cents.
Number cents(const Interval& interval);
/// Sounding frequency in hertz, of which the last digit for programs is worth no more than that of
/// a size in cents. `half_width` is an interval too.
Number hertz(const Pitch& pitch, const std::optional<Interval>& half_width = std::nullopt);
Number number(const Rational& value);
/// The square root of `square` >= 0.
Number root(const Rational& square);
/// A figure of the statistics, of which a double holds at most `most_digits` after the point.
Number computed(double value, int most_digits = 9);
/// A half width itself: rounded up, never down, to the digits that it supports.
Number margin(const HalfWidth& half_width);

/// Text that is not a value.
struct Words {
    std::string text;
};

/// A key of 12 equal steps: "F♯4" for people, "F#4" for programs.
struct Note {
    NoteInOctave note;
};

/// The name of a note as its author wrote it: with the signs that people read, "C♯" for "C#".
struct WrittenNote {
    std::string written; ///< one that parse_note_name() reads, or nothing
};

/// An interval: as its author wrote it for people and in CSV, as Sectio reads it back in JSON.
struct Expression {
    Interval interval;
    std::string written; ///< to_expression() where empty
};

struct Count {
    Integer number;
};

struct YesNo {
    bool yes = false;
};

struct File {
    std::string path;
};

class Cell;

struct List {
    std::vector<Cell> items;
    std::string between = ", "; ///< for people
};

/// Names that are not known beforehand, each with its value.
struct Map {
    std::vector<std::pair<std::string, Cell>> items;
};

/// Values after one another for people; programs get them as one text.
struct Phrase {
    std::vector<Cell> parts;
};

/// One value, or nothing: null for programs.
class Cell {
  public:
    using Value = std::variant<std::monostate, Number, Words, Note, WrittenNote, Expression, Count,
                               YesNo, File, List, Map, Phrase>;

    // All defined in cell.cpp: here every source that makes a page would compile them again.
    Cell();
    Cell(const Cell&);
    Cell(Cell&&) noexcept;
    Cell& operator=(const Cell&);
    Cell& operator=(Cell&&) noexcept;
    ~Cell();
    Cell(std::string words);
    Cell(const char* words);
    Cell(Number v);
    Cell(Words v);
    Cell(Note v);
    Cell(WrittenNote v);
    Cell(Expression v);
    Cell(Interval v);
    Cell(Count v);
    Cell(YesNo v);
    Cell(File v);
    Cell(List v);
    Cell(Map v);
    Cell(Phrase v);
    template <typename T>
    Cell(const std::optional<T>& v) {
        if (v)
            *this = Cell(*v);
    }
    Cell(bool) = delete; ///< say YesNo

    const Value& value() const { return value_; }
    /// True for nothing and for what people would see as an empty cell.
    bool empty() const;
    /// True where the cell is a figure that rests on a measurement.
    bool measured() const;

  private:
    Value value_;
};

/// A whole number as a cell.
template <std::integral T>
Cell count(T n) {
    return Count{Integer(n)};
}

/// The cell in print, on one line.
std::string for_people(const Cell& cell, const Digits& digits);
/// The cell as one field of a table for programs: plain ASCII numbers and note names.
std::string for_programs(const Cell& cell, const Digits& digits);

} // namespace sectio::page
