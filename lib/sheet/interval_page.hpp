#pragma once
/// @file
/// All that is known of intervals, as a page.

#include <sectio/page/page.hpp>
#include <sectio/scale/interval_report.hpp>

#include <vector>

namespace sectio {

/// Each interval with what `request` asked of it; sources are written out by `catalogue`.
/// @throws Error of IntervalReport's figures when it is printed
page::Page interval_page(const std::vector<IntervalReport>& reports, const ReportRequest& request,
                         const Catalogue& catalogue = Catalogue::installed());

} // namespace sectio
