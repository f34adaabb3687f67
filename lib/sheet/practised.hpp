#pragma once
/// @file
/// Private to lib/sheet: where performers sound the degrees of a catalogue entry, if not where
/// theory places them.

#include <sectio/page/page.hpp>
#include <sectio/scale/catalogue.hpp>

#include <string>

namespace sectio {

/// For people: "Segâh by −45.3 to −22.6 cents after …, p. 15 (seen)" of each such degree.
page::List practised_line(const Entry& entry, const Catalogue& catalogue);
/// For programs, at `key`.
page::Table practised_table(const Entry& entry, const std::string& key);

} // namespace sectio
