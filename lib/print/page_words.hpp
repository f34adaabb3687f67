#pragma once
/// @file
/// Private to lib/print: paragraphs on pages.

#include <sectio/print/page_pen.hpp>
#include <sectio/print/styles.hpp>

namespace sectio::page {

/// Height of the paragraphs, without their heading.
double words_height(const Paragraphs& block, PagePen& pen, const Styles& styles);

/// A paragraph stays together where a page holds it.
void draw_words(const Paragraphs& block, PagePen& pen, const Styles& styles);

} // namespace sectio::page
