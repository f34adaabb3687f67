#pragma once
/// @file
/// Private to lib/sheet: one entry of the catalogue as blocks of a page.

#include <sectio/page/page.hpp>
#include <sectio/scale/catalogue.hpp>

#include <string>
#include <vector>

namespace sectio {

/// The blocks of an entry, for programs at `key` ("entries[0]"). A whole one is shown to people,
/// and has the scales of the same pitches.
/// @throws Error as compare()
std::vector<page::Block> entry_blocks(const Entry& entry, const Catalogue& catalogue,
                                      const std::string& key, bool whole);

} // namespace sectio
