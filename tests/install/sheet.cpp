// The printed sheet of a scale as the bytes of a PDF.
#include <sectio/print/print.hpp>
#include <sectio/scale/catalogue.hpp>
#include <sectio/sheet/sheet.hpp>

#include <iostream>

int main() {
    const auto rast = sectio::compare(sectio::Catalogue::installed().scale("rast"));
    std::cout << sectio::page::print_pdf(sectio::sheet_page(rast));
}
