#pragma once
/// @file
/// The player's page as a value: every line, figure and place of it, before any format prints it.
///
/// A Sheet is built once from a Comparison; text, CSV, HTML, PDF and SVG (print.hpp) show the same
/// one. Its figures are final: correctly rounded, with the true minus sign − and a + where the sign
/// matters.

#include <sectio/scale/comparison.hpp>

#include <optional>
#include <string>
#include <vector>

namespace sectio {

/// Digits after the point of cents where a player reads them, and where a program does.
inline constexpr int paper_digits = 1;
inline constexpr int data_digits = 3;

struct SheetOptions {
    int digits = paper_digits; ///< after the point of cents, 0 to limits::decimal_digits
    std::string date;          ///< of the figures, as it shall be printed; ISO 8601 "2026-03-21" is
                               ///< also the PDF's date of creation
    std::optional<bool> strings; ///< whether to print the caution about strings; where nothing is
                                 ///< said, a measured scale gets it
};

/// A label and what is said under it: "Tonic", "D4 ≈ 293.66 Hz".
struct SheetFact {
    std::string label;
    std::string value;
};

/// One division's step nearest to a degree. Step numbers count from the tonic.
struct SheetStep {
    std::string step;
    std::string size;  ///< of the step, cents above the tonic
    std::string error; ///< step minus degree, cents, signed
};

/// One degree, or the period that closes the scale.
struct SheetRow {
    std::string number; ///< from 1, the tonic
    std::string name;
    std::string written_note; ///< in the author's notation
    std::string interval;     ///< as the author wrote it
    std::string cents;
    std::string uncertainty;      ///< half width in cents, rounded up; empty where not measured
    std::string note;             ///< nearest key of 12 equal steps, "F♯4"
    std::string deviation;        ///< degree minus that key, cents, signed
    std::string next;             ///< cents to the next degree; empty at an open end
    std::vector<SheetStep> steps; ///< in the order of Sheet::divisions
    double place = 0;             ///< on the ruler, 0 the tonic and 1 its end; for drawing
};

struct SheetDivision {
    std::string text;       ///< "53", "13 of 3/1"
    std::string expression; ///< "53", "13(3/1)": as a command takes it
    bool keys = false; ///< its steps are the keys of 12 equal steps themselves, so that note and
                       ///< deviation already say what it makes of a degree
    std::string max_error; ///< cents, without sign
    std::string worst;     ///< number of the first degree that has it
    std::string worst_name;
    std::string rms; ///< cents
};

/// One division's marks on the ruler: step k stands at k * step for k from 0 to count.
struct RulerLine {
    std::string heading;
    double step = 0;
    long count = 0;
    std::vector<std::string> names; ///< of the marks, where they are keys; else they are numbered
};

struct Sheet {
    std::string title;
    std::vector<SheetFact> facts;
    std::vector<SheetDivision> divisions;
    std::vector<SheetRow> rows;   ///< the last one is the period, where there is one
    std::vector<RulerLine> ruler; ///< in the order of divisions; empty where nothing has a size
    std::vector<std::string> cautions;
    std::vector<std::string> remarks;
    std::string source;
    std::vector<std::string> notes; ///< what the signs and columns mean
    std::string date;
    bool measured = false;
    int digits = paper_digits; ///< after the point of cents
};

/// The sheet of a comparison.
/// @throws Error digits_out_of_range, rounding_undecided
Sheet make_sheet(const Comparison& comparison, const SheetOptions& options = {});

} // namespace sectio
