#pragma once
/// @file
/// The answers for many files as a page.

#include <sectio/identify/collection.hpp>
#include <sectio/page/page.hpp>

namespace sectio {

/// A row a file, and what failed; where any file has a label, which names are taken for which, and
/// how often what is said is true. `remarks` are those on the labels.
page::Page collection_page(const std::vector<NamedFile>& files,
                           const std::vector<std::string>& remarks = {});

} // namespace sectio
