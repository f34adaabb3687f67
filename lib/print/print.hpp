#pragma once
/// @file
/// A page in each of its formats. All return the bytes of a whole file; write_whole() of
/// <sectio/base/file.hpp> puts them on disk.

#include <sectio/page/page.hpp>
#include <sectio/print/paper.hpp>

#include <optional>
#include <string>

namespace sectio::page {

/// Digits after the point where programs read and nothing else is asked.
inline constexpr int data_digits = 3;

struct PrintOptions {
    std::optional<int> digits{}; ///< asked for, in every format
    std::size_t columns = 100;   ///< of a line of text
    Paper paper = a4_paper;      ///< of PDF and SVG
    bool one_line = false;       ///< JSON without line breaks but the one at its end
    bool large = false; ///< type that is read at a metre: tables and rulers of 14 points and more

    Digits for_page(const Page& page) const {
        return {digits.value_or(page.digits), digits.value_or(data_digits), digits.has_value()};
    }
};

/// Readable text, UTF-8. Columns align where letters have the widths of UAX #11; a table wider than
/// the line is cut into blocks, unless its names alone are wider.
std::string print_text(const Page& page, const PrintOptions& options = {});

/// One JSON document (RFC 8259) with members in the order of the page. Figures are decimal strings,
/// correctly rounded; one that rests on a measurement has the digits that it supports, and all that
/// were asked for under the key with `_exact` after it.
std::string print_json(const Page& page, const PrintOptions& options = {});

/// One record a row after a header record (RFC 4180: CRLF, quotes doubled), UTF-8. Numbers are
/// plain ASCII without plus sign, note names ASCII (F#4). A page without table gives its facts, one
/// a record.
std::string print_csv(const Page& page, const PrintOptions& options = {});

/// One HTML file without any other beside it, also well-formed XML, with rules for printing on any
/// paper. What is drawn stands in it as SVG.
/// @throws Error drawing_failed
std::string print_html(const Page& page, const PrintOptions& options = {});

/// Leaves of paper with the fonts embedded. Equal pages with a date give equal bytes.
/// @throws Error drawing_failed, too_fine_for_paper
std::string print_pdf(const Page& page, const PrintOptions& options = {});

/// The same pages as one drawing, below one another. Letters are outlines.
/// @throws Error drawing_failed, too_fine_for_paper
std::string print_svg(const Page& page, const PrintOptions& options = {});

/// A drawing as PNG, 8 dots a millimetre, white ground. @throws std::bad_alloc
std::string print_png(const Drawing& drawing);

} // namespace sectio::page
