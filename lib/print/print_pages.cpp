#include <sectio/print/check_page.hpp>
#include <sectio/print/lay_out.hpp>

namespace sectio::page {

std::string print_pdf(const Page& page, const PrintOptions& options) {
    check(page, options);
    return as_pdf(lay_out(page, options));
}

std::string print_svg(const Page& page, const PrintOptions& options) {
    check(page, options);
    return as_svg(lay_out(page, options));
}

} // namespace sectio::page
