// What a scale expects of each stage of a progression, beside tests/reference/stage_tables.py,
// which computes it from docs/identification.md.

#include <sectio/identify/stage_table.hpp>

#include <support/intervals.hpp>
#include <support/paths.hpp>
#include <support/process.hpp>

#include <map>
#include <sstream>

using namespace sectio;

namespace {

LibraryScale made_up(const std::string& progression) {
    ScaleFacts facts;
    facts.scale.period = Interval::octave();
    LibraryScale scale;
    for (const int commas : {0, 9, 17, 22, 31, 40, 48}) {
        Degree degree;
        degree.interval = Interval::from_steps(commas, 53);
        facts.scale.degrees.push_back(degree);
        scale.degrees.push_back(commas * 1200 / 53.0);
    }
    if (progression != "unknown") {
        facts.progression.dominant = 5;
        facts.progression.second_dominant = 3;
        facts.progression.mobile = {Interval::from_steps(44, 53)};
        facts.progression.direction = progression == "ascending" ? Direction::ascending
                                      : progression == "descending"
                                          ? Direction::descending
                                          : Direction::ascending_descending;
    }
    scale.entry.facts = facts;
    scale.period = 1200;
    return scale;
}

Stage stage_of(const std::string& name) {
    return name == "whole"         ? Stage::whole
           : name == "beginning"   ? Stage::beginning
           : name == "opening"     ? Stage::opening
           : name == "half closes" ? Stage::half_closes
           : name == "cadence"     ? Stage::cadence
                                   : Stage::close;
}

} // namespace

TEST_CASE("The stages of a course expect what the model's description says") {
    const auto table_text = support::run_reference_script("stage_tables.py");
    if (!table_text)
        SECTIO_SKIP("Python with mpmath is not installed");
    std::istringstream rows(*table_text);
    std::map<std::string, StageTables> tables;
    int count = 0;
    for (std::string line; std::getline(rows, line); ++count) {
        std::istringstream cells(line);
        std::string progression, strengths, stage;
        std::getline(cells, progression, '\t');
        std::getline(cells, strengths, '\t');
        std::getline(cells, stage, '\t');
        int at = 0;
        double expected = 0;
        cells >> at >> expected;
        const auto made = tables.try_emplace(progression + strengths);
        if (made.second)
            made.first->second = stage_tables(
                made_up(progression), strengths == "written" ? written_strengths : heard_strengths);
        const StageTable& table = made.first->second[static_cast<std::size_t>(stage_of(stage))];
        CAPTURE(line);
        CHECK(table.at(at) == Approx(expected).margin(2e-5));
        if (at == 848)
            CHECK(table.at(900) == table.at(848)); // beyond its end what its end says
        if (at == -424)
            CHECK(table.at(-500) == table.at(-424));
    }
    CHECK(count > 1000);
}
