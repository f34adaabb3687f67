#include <sectio/sheet/pages.hpp>
#include <sectio/sheet/print.hpp>

namespace sectio {

std::string print_pdf(const Sheet& sheet, const Paper& paper) {
    return as_pdf(lay_out(sheet, paper));
}

std::string print_svg(const Sheet& sheet, const Paper& paper) {
    return as_svg(lay_out(sheet, paper));
}

} // namespace sectio
