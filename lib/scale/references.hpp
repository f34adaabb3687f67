#pragma once
/// @file
/// The works that the catalogue cites, as references that a reader can find.

#include <sectio/scale/catalogue.hpp>

#include <string>
#include <string_view>

namespace sectio {

/// `source` with each key of the catalogue's sources.toml that stands in it written out:
/// "arel-1968" as "H. S. Arel, Türk Mûsıkîsi Nazariyatı Dersleri (1968)". What is no key stays as
/// it is.
std::string with_references(std::string_view source,
                            const Catalogue& catalogue = Catalogue::installed());

} // namespace sectio
