// A scale as a scale file, which reads back as the same scale.

#include <sectio/scale/catalogue.hpp>
#include <sectio/scale/scale_file_text.hpp>

#include <catch2/catch.hpp>

using namespace sectio;

namespace {

bool same(const Degree& a, const Degree& b) {
    return a.interval == b.interval && a.name == b.name && a.note == b.note
           && a.uncertainty == b.uncertainty;
}

bool same(const Scale& a, const Scale& b) {
    bool all = a.name == b.name && a.source == b.source && a.tonic == b.tonic
               && a.reference == b.reference && a.period == b.period && a.signs == b.signs
               && a.remarks == b.remarks && a.degrees.size() == b.degrees.size()
               && same(a.closing, b.closing);
    for (std::size_t i = 0; all && i < a.degrees.size(); ++i)
        all = same(a.degrees[i], b.degrees[i]);
    return all;
}

} // namespace

TEST_CASE("A scale file that was printed reads back as the same scale") {
    const Scale scale = read_scale_file(
        "name = 'A \"quoted\" \\ name'\nsource = 'invented'\ntonic = 'D4-3c'\n"
        "reference = 'A4 = 415 Hz'\nremarks = ['one', \"two\\n\\u0007lines\"]\ndegrees = [ '9/8',\n"
        "{ interval = '13of53', name = 'third', note = 'F', uncertainty = '3c' },\n"
        "{ interval = '2/1', name = 'octave' } ]",
        "a.toml");
    const std::string text = scale_file_text(scale);
    CHECK(same(read_scale_file(text, "b.toml"), scale));
    CHECK(text.find("\"13of53\"") != std::string::npos);
    const Scale set = read_scale_file(
        "name = 'set'\nperiod = 'none'\ndegrees = ['-200c', '3^53/2^84', '5/2']", "c.toml");
    CHECK(same(read_scale_file(scale_file_text(set), "d.toml"), set));
}

TEST_CASE("Every scale of the catalogue can be kept as a file") {
    for (const Entry& entry : Catalogue::installed().all())
        if (entry.scale()) {
            INFO(entry.id);
            CHECK(same(read_scale_file(scale_file_text(*entry.scale()), "x.toml"), *entry.scale()));
        }
}

TEST_CASE("A name that is no UTF-8, as a file may have, is still a scale file") {
    Scale scale = read_scale_file("name = 'x'\ndegrees = ['9/8']", "a.toml");
    scale.name = "lat\xE9";
    scale.remarks = {"\xFF \xE2\x80", "\x7F\t"};
    const Scale read = read_scale_file(scale_file_text(scale), "b.toml");
    CHECK(read.name == "lat\uFFFD");
    CHECK(read.remarks == std::vector<std::string>{"\uFFFD \uFFFD\uFFFD", "\x7F\t"});
}
