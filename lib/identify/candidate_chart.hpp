#pragma once
/// @file
/// Private to lib/identify: the pitches on the ruler of the candidates, as a drawing.

#include <sectio/identify/identify.hpp>
#include <sectio/page/page.hpp>

#include <optional>

namespace sectio {

/// The pitches as a row of strokes to scale, below it a row of degrees for each of the likeliest
/// candidates; a dashed line leads down from each pitch. Nothing where there is no candidate or
/// all pitches are one.
std::optional<page::Drawing> candidate_chart(const Identification& answer);

} // namespace sectio
