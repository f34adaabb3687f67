#include <sectio/base/argument.hpp>
#include <sectio/instrument/measured_frets_page.hpp>

#include <fmt/format.h>

#include <algorithm>

namespace sectio {

namespace {

using page::Column;

constexpr int stretch_digits = 9; ///< as measure_frets() takes it

/// The frets, with nothing for the open string before them.
std::vector<const MeasuredFret*> rows_of(const MeasuredFrets& frets) {
    std::vector<const MeasuredFret*> rows{nullptr};
    for (const MeasuredFret& fret : frets.frets)
        rows.push_back(&fret);
    return rows;
}

page::Cell place(const MeasuredFret* fret) {
    if (!fret)
        return {};
    const auto& width = fret->from_nut.half_width;
    return page::number(fret->from_nut.figure.millimetres())
        .borne_by(width ? std::optional(page::HalfWidth(width->millimetres())) : std::nullopt)
        .shown_with(bench_digits);
}

/// What nut to fret and fret to bridge add up to, where both were measured.
void remark_on_sums(page::Page& page, const MeasuredFrets& frets) {
    if (!frets.least_sum)
        return;
    const std::string least = frets.least_sum->decimal(bench_digits);
    const std::string most = frets.most_sum->decimal(bench_digits);
    page::Paragraphs remark;
    remark.paragraphs.push_back(
        {page::Role::remark, fmt::format("Nut to fret and fret to bridge add up to {} mm.",
                                         least == most ? least : least + " … " + most)});
    page.blocks.push_back(remark);
}

void remark_on_stretch(page::Page& page, bool known) {
    page::Paragraphs remark;
    remark.paragraphs.push_back(
        {page::Role::note,
         known ? "The stretch of the pressed string is computed from gauge, modulus, tension and "
                 "action, and is taken to be right to within half of it."
               : "Pressing a string down sharpens it by some cents, which is not in these figures: "
                 "the saddle's compensation is taken to make good for it."});
    page.blocks.push_back(remark);
}

} // namespace

page::Page measured_frets_page(const PitchList& list, const MeasuredFrets& frets, const Pitch& a4) {
    page::Table table = pitch_table(list, a4);
    const auto rows = rows_of(frets);
    check_argument(rows.size() == list.pitches.size(), "a list of frets' pitches",
                   "what fret_pitches() made of the frets");
    table.add(rows, Column{"from nut, mm"}.keyed("from_nut_mm"), place);
    const bool stretched = std::any_of(frets.frets.begin(), frets.frets.end(),
                                       [](const MeasuredFret& f) { return f.stretch.has_value(); });
    if (stretched)
        table.add(rows, Column{"stretch"}.keyed("stretch_cents"),
                  [](const MeasuredFret* f) -> page::Cell {
                      if (!f || !f->stretch)
                          return {};
                      const page::HalfWidth half = *f->stretch * Rational(1, 2);
                      return page::cents(*f->stretch).with_at_most(stretch_digits).borne_by(half);
                  });
    page::Page page = measured_page(list, a4, "measured-frets", std::move(table));
    remark_on_sums(page, frets);
    remark_on_stretch(page, stretched);
    return page;
}

} // namespace sectio
