// The language of a PDF, added as an incremental update: ISO 32000-1:2008, 7.5.4 (cross-reference
// table), 7.5.5 (trailer), 7.5.6 (incremental updates), 14.9.2 (language).

#include <sectio/print/pdf_language.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include <string>

using sectio::page::with_language;

namespace {

std::string file(const std::string& catalog, const std::string& trailer) {
    return "%PDF-1.5\n" + catalog + "2 0 obj\n<< /Type /Pages /Count 0 >>\nendobj\n" + trailer;
}

const std::string catalog = "1 0 obj\n<< /Type /Catalog\n   /Pages 2 0 R\n>>\nendobj\n";
const std::string trailer = "trailer\n<< /Size 3\n   /Root 1 0 R\n>>\nstartxref\n217\n%%EOF\n";

void check_unchanged(const std::string& pdf, const std::string& language = "en") {
    CHECK(with_language(pdf, language) == pdf);
}

} // namespace

TEST_CASE("The catalog is written once more with the language, and found by its place") {
    const std::string before = file(catalog, trailer);
    const std::string after = with_language(before, "tr");
    REQUIRE(after.starts_with(before));
    const std::string added = after.substr(before.size());
    CHECK(added.starts_with(
        "1 0 obj\n<< /Type /Catalog\n   /Lang (tr)\n   /Pages 2 0 R\n>>\nendobj\n"));
    // "xref", one section of one object, its entry of exactly twenty bytes.
    const std::size_t xref = added.find("xref\n1 1\n");
    REQUIRE(xref != std::string::npos);
    CHECK(added.substr(xref + 9, 20) == fmt::format("{:010} 00000 n \n", before.size()));
    CHECK(added.find("/Size 3", xref) != std::string::npos);
    CHECK(added.find("/Root 1 0 R", xref) != std::string::npos);
    CHECK(added.find("/Prev 217\n", xref) != std::string::npos);
    CHECK(added.ends_with(fmt::format("startxref\n{}\n%%EOF\n", before.size() + xref)));
}

TEST_CASE("The last trailer and the last writing of the catalog count") {
    const std::string once = with_language(file(catalog, trailer), "tr");
    const std::string twice = with_language(once, "en");
    REQUIRE(twice.starts_with(once));
    const std::string added = twice.substr(once.size());
    CHECK(added.find("/Lang (en)") < added.find("/Lang (tr)"));
    CHECK(added.find(fmt::format("{:010} 00000 n \n", once.size())) != std::string::npos);
}

TEST_CASE("A file that is not written in that form stays as it is") {
    check_unchanged(file(catalog, trailer), "");
    check_unchanged(file(catalog, "startxref\n217\n%%EOF\n"));
    check_unchanged(file(catalog, "trailer\n<< /Size 3 >>\nstartxref\n217\n%%EOF\n"));
    check_unchanged(file(catalog, "trailer\n<< /Root 1 0 R >>\n%%EOF\n"));
    check_unchanged(file(catalog, "trailer\n<< /Root 7 0 R >>\nstartxref\n217\n%%EOF\n"));
    check_unchanged(file("1 0 obj\n<< /Pages 2 0 R >>\nendobj\n", trailer));
    check_unchanged("%PDF-1.5\n1 0 obj\n<< /Type /Catalog >>\n" + trailer);
}
