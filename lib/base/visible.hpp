#pragma once
/// @file
/// Text shown as what it is: characters that command terminals or turn lines around are named.

#include <string>
#include <string_view>

namespace sectio {

/// `text` with every control character, and every one that reorders what stands around it, as
/// "<U+202E>". Source of the list: Unicode UAX #9, 2 (embeddings, overrides, isolates and marks),
/// and Unicode Technical Report 36, 3.
std::string visible(std::string_view text);

} // namespace sectio
