// What people read of an annotated score, and where its legend stands.

#include <sectio/print/print.hpp>
#include <sectio/score/annotation_page.hpp>

#include <catch2/catch.hpp>
#include <fmt/format.h>
#include <support/scores.hpp>

using namespace sectio;
using namespace sectio::score;
using support::note;

namespace {

Annotation annotation_of(const std::string& bytes) {
    Scale scale = parse_degrees("9/8, 5/4, 4/3, 3/2, 5/3, 15/8", "");
    scale.name = "just";
    return annotate(read_score(document_of(bytes, "tune.musicxml")), *tuning_by_scale(scale, "D4"),
                    {});
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

} // namespace

TEST_CASE("Skipped notes are told where there are some, and not otherwise") {
    const auto text = [](const std::string& notes) {
        return print_text(
            annotation_page(annotation_of(support::score({notes})), {"tune", "", {}}));
    };
    CHECK_FALSE(has(text(note("D", 4)), "Skipped"));
    CHECK_FALSE(has(text(note("D", 4)), "Because"));
    const std::string drum = "<note><unpitched/><duration>1</duration></note>";
    const std::string skipped = text(note("D", 4) + drum);
    CHECK(has(skipped, "Skipped"));
    CHECK(has(skipped, "Because"));
}

TEST_CASE("The legend goes above a credit that it would touch, and stays at the foot otherwise") {
    // Three lines of 23 tenths from the margin at 90 reach up to 159, and one more is kept free.
    const auto first_line = [](int credit_at) {
        std::string bytes = support::score({note("D", 4)});
        bytes.insert(
            bytes.find("<part-list>"),
            fmt::format("<defaults><page-layout><page-height>1500</page-height>"
                        "<page-width>1100</page-width><page-margins>"
                        "<left-margin>80</left-margin><right-margin>80</right-margin>"
                        "<top-margin>80</top-margin><bottom-margin>90</bottom-margin>"
                        "</page-margins></page-layout></defaults><credit><credit-words "
                        "default-x=\"500\" default-y=\"{}\">a tune</credit-words></credit>",
                        credit_at));
        const Document document = document_of(bytes, "tune.musicxml");
        const std::string text = annotated_file(document, annotation_of(bytes));
        const std::size_t at = text.find("default-y=\"", text.find("<!--sectio-->"));
        return text.substr(at + 11, text.find('"', at + 11) - at - 11);
    };
    CHECK(first_line(182) == "136");
    CHECK(first_line(181) == "250");
}
