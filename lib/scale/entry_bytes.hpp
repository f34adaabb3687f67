#pragma once
/// @file
/// Private to lib/scale: an entry of the catalogue as bytes and back.

#include <sectio/scale/bytes.hpp>
#include <sectio/scale/entry.hpp>

namespace sectio {

void write_entry(ByteWriter& bytes, const Entry& entry);
/// What write_entry() wrote. @throws Damaged
Entry read_entry(ByteReader& bytes);

} // namespace sectio
