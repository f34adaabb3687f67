// Limits of scores and of what is decided, at their bound and one beyond.

#include <sectio/base/limits.hpp>
#include <sectio/interval/enclosure.hpp>
#include <sectio/score/score.hpp>
#include <sectio/tuning/performance.hpp>
#include <sectio/tuning/play_order.hpp>

#include <support/at_limits.hpp>
#include <support/errors.hpp>
#include <support/scores.hpp>

using namespace sectio;
using support::said;

namespace {

const std::string tune = support::score({support::attributes() + support::note("D", 4)});

std::string replaced(std::string text, const std::string& what, const std::string& by) {
    return text.replace(text.find(what), what.size(), by);
}

score::Score read(const std::string& bytes) {
    return score::read_score(score::document_of(bytes, "t"));
}

} // namespace

TEST_CASE("Limit: bits after which a rounding or an order is given up") {
    // Positive, which shows from `least` bits on; with fewer it lies on both sides of zero.
    const auto decided_at = [](long least) {
        return said([&] {
            certified_sign([&](long bits) {
                const Enclosure three = log2(Enclosure(Integer(3), 64));
                return bits < least ? three - three : three;
            });
        });
    };
    // Precision doubles from try to try, so that the last one may be up to a half below the limit.
    CHECK(decided_at(limits::precision_bits / 2) == "no error");
    CHECK(decided_at(limits::precision_bits + 1) == "order_undecided");
}

TEST_CASE("Limit: entries of a compressed score") {
    const auto archive = [](std::size_t entries) {
        std::vector<std::pair<std::string, std::string>> all{
            {"META-INF/container.xml", support::container("t.xml")}, {"t.xml", tune}};
        while (all.size() < entries)
            all.emplace_back("x" + std::to_string(all.size()), "");
        return said([&] { read(support::stored_zip(all)); });
    };
    CHECK(archive(limits::archive_entries) == "no error");
    CHECK(archive(limits::archive_entries + 1) == "archive_too_large");
}

TEST_CASE("Limit: times by which a compressed score may grow") {
    const auto document = score::document_of(
        support::stored_zip(
            {{"META-INF/container.xml", support::container("t.xml")}, {"t.xml", tune}}),
        "t");
    // Blanks are packed to a thousandth of their number; figures that vary, to a half.
    const auto unpacked = [&](std::size_t bytes, std::size_t varied) {
        std::string text = tune + "<!--";
        std::uint32_t state = 1;
        for (std::size_t i = 0; i < varied; ++i)
            text += static_cast<char>('A' + ((state = state * 1664525 + 1013904223) >> 28));
        text += std::string(bytes - text.size() - 3, ' ') + "-->";
        const std::string packed = score::repack(*document.archive, text, "t");
        return said([&] { score::document_of(packed, "t"); });
    };
    constexpr std::size_t beyond = limits::archive_free_bytes + (1 << 16);
    CHECK(unpacked(limits::archive_free_bytes, 0) == "no error");
    CHECK(unpacked(beyond, 0) == "archive_too_large");
    CHECK(unpacked(beyond, 4 * beyond / limits::archive_ratio) == "no error");
}

TEST_CASE("Limit: times by which entities may lengthen a score") {
    // The part's name is `count` times a thousand letters; `plain` letters stand in a comment.
    const auto expanded = [](std::size_t count, std::size_t plain) {
        std::string names;
        for (std::size_t i = 0; i < count; ++i)
            names += "&z;";
        const std::string type = "<!DOCTYPE score-partwise [<!ENTITY z \"" + std::string(1000, 'z')
                                 + "\">]><!--" + std::string(plain, 'x') + "-->";
        const std::string score = replaced(tune, "<score-partwise", type + "<score-partwise");
        return said([&] { read(replaced(score, "Drone zither", names)); });
    };
    const std::size_t free = limits::xml_free_bytes / 1000;
    CHECK(expanded(free - 4, 0) == "no error");
    CHECK(expanded(free + 1, 0) == "xml_entity_bomb");
    const auto allowed =
        static_cast<std::size_t>(limits::xml_amplification - 1) * 100; // beside 100,000 letters
    CHECK(expanded(allowed, 100'000) == "no error");
    CHECK(expanded(allowed + 20, 100'000) == "xml_entity_bomb");
}

TEST_CASE("Limit: bytes of one text of a score") {
    const auto kept = [](std::size_t letters, const std::string& type) {
        const std::string score = replaced(tune, "<score-partwise", type + "<score-partwise");
        return read(replaced(score, "Drone zither", std::string(letters, 'z')))
            .parts.at(0)
            .name.size();
    };
    // The quick reader, and expat where entities are declared.
    for (const char* type : {"", "<!DOCTYPE score-partwise [<!ENTITY z \"z\">]>"}) {
        CHECK(kept(limits::score_text_bytes, type) == limits::score_text_bytes);
        CHECK(kept(limits::score_text_bytes + 1, type) == limits::score_text_bytes);
    }
}

TEST_CASE("Limit: parts of a score") {
    const auto listed = [](std::size_t parts) {
        std::string more = "<part-list>";
        for (std::size_t i = 1; i < parts; ++i) // beside the one that is there
            more += "<score-part id=\"Q" + std::to_string(i) + "\"/>";
        return said([&] { read(replaced(tune, "<part-list>", more)); });
    };
    CHECK(listed(limits::score_variety) == "no error");
    CHECK(listed(limits::score_variety + 1) == "score_too_varied");
}

TEST_CASE("Limit: notes of a score with its repeats, counted before any is played") {
    score::Score score = read(
        support::score({support::attributes() + support::note("D", 4), support::note("E", 4)}));
    REQUIRE(score.notes.size() == 2);
    constexpr int times = 31;
    score.bars[0].times = times;
    const std::size_t repeated = limits::performed_notes / times,
                      rest = limits::performed_notes % times;
    score.notes.insert(score.notes.begin(), repeated - 1, score.notes.front());
    score.notes.insert(score.notes.end(), rest, score.notes.back());
    const auto tuning = score::tuning_by_division(EqualDivision(12), "D4");
    CHECK(said([&] { tuning::performance_of(score, {}, *tuning, Pitch::concert_a()); })
          == "performance_too_long");
    score.notes.pop_back();
    const auto order = tuning::play_order(tuning::common_bars(score));
    CHECK(order.size() == times + 1);
    CHECK(said([&] { tuning::check_length(score, order); }) == "no error");
    // Bars without notes count too.
    score::Bar empty;
    const auto walked = [&](std::size_t passes) {
        empty.times = static_cast<int>(passes);
        return said([&] { tuning::play_order({empty}); });
    };
    CHECK(walked(limits::performed_notes) == "no error");
    CHECK(walked(limits::performed_notes + 1) == "performance_too_long");
    CHECK(walked(score::Bar::most_times) == "performance_too_long");
}
