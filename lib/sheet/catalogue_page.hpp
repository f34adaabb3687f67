#pragma once
/// @file
/// Entries of the catalogue as a page: one whole, several as lists, or what there is at all.

#include <sectio/page/page.hpp>
#include <sectio/scale/lookup.hpp>

namespace sectio {

/// Who will read a page of many entries: what programs alone get of them takes longer than the
/// rest.
enum class Readers { people, programs_too };

/// What a search found. Entries called by name stand whole, and so does one found alone; the others
/// are listed. With `overview` people see what there is instead, by tradition. Programs get all.
/// @throws Error as compare()
page::Page catalogue_page(const Found& found, const Catalogue& catalogue, bool overview,
                          Readers readers = Readers::programs_too);

} // namespace sectio
