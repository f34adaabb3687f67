#pragma once
/// @file
/// Private to lib/print: the language of a PDF, which cairo cannot say.

#include <string>

namespace sectio::page {

/// `pdf` with /Lang in its catalog, added as an incremental update (ISO 32000-1:2008, 7.5.6 and
/// 14.9.2), so that readers aloud know how to speak it. A file without the classic trailer is
/// returned as it is.
std::string with_language(std::string pdf, const std::string& language);

} // namespace sectio::page
