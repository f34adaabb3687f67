#pragma once
/// @file
/// The works that the catalogue cites, as references that a reader can find.

#include <string>
#include <string_view>

namespace sectio {

/// `source` with each key of data/sources.toml that stands in it written out: "arel-1968" as
/// "H. S. Arel, Türk Mûsıkîsi Nazariyatı Dersleri (1968)". What is no key stays as it is.
/// @throws Error as Catalogue::installed()
std::string with_references(std::string_view source);

} // namespace sectio
