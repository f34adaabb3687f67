#include <sectio/print/pdf_language.hpp>

#include <fmt/format.h>

#include <regex>

namespace sectio::page {

std::string with_language(std::string pdf, const std::string& language) {
    const std::size_t trailer = pdf.rfind("trailer");
    if (trailer == std::string::npos || language.empty())
        return pdf;
    static const std::regex root_form(R"(/Root (\d+) 0 R)"),
        form(R"(trailer\s*<<([^>]*)>>\s*startxref\s*(\d+))");
    const std::string tail = pdf.substr(trailer);
    std::smatch root, whole;
    if (!std::regex_search(tail, root, root_form) || !std::regex_search(tail, whole, form))
        return pdf;
    constexpr std::string_view type = "/Type /Catalog", close = "endobj";
    const std::size_t begin = pdf.rfind(fmt::format("\n{} 0 obj", root[1].str()));
    const std::size_t end = pdf.find(close, begin);
    if (end == std::string::npos) // as it is too where nothing begins
        return pdf;
    std::string catalog = pdf.substr(begin + 1, end + close.size() - begin - 1);
    const std::size_t at = catalog.find(type);
    if (at == std::string::npos)
        return pdf;
    catalog.insert(at + type.size(), fmt::format("\n   /Lang ({})", language));
    const std::size_t object = pdf.size();
    pdf += catalog + "\n";
    // An entry of a cross-reference table has twenty bytes (7.5.4).
    return pdf
           + fmt::format(
               "xref\n{} 1\n{:010} 00000 n \ntrailer\n<<{}   /Prev {}\n>>\nstartxref\n{}\n"
               "%%EOF\n",
               root[1].str(), object, whole[1].str(), whole[2].str(), pdf.size());
}

} // namespace sectio::page
