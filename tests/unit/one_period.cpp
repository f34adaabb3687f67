// Pitches of several periods as degrees of one.

#include <sectio/scale/pitch_list.hpp>

#include <support/errors.hpp>
#include <support/intervals.hpp>

using namespace sectio;
using support::interval;

namespace {

struct Heard {
    const char *label, *above, *half_width;
};

PitchList list(std::initializer_list<Heard> pitches, const char* same_within = "20c") {
    PitchList list;
    list.name = "invented";
    list.period = Interval::octave();
    list.same_within = interval(same_within);
    for (const Heard& heard : pitches) {
        ListedPitch pitch;
        pitch.above = {interval(heard.above), interval(heard.half_width), Basis::recording};
        pitch.written = heard.above;
        pitch.label = heard.label;
        list.pitches.push_back(pitch);
    }
    return list;
}

std::string degrees(const Scale& scale) {
    std::string text;
    for (const Degree& degree : scale.degrees)
        text += degree.name + " " + degree.interval.cents(3) + "±" + degree.uncertainty->cents(3)
                + ", ";
    return text;
}

} // namespace

TEST_CASE("The octave of the tonic is the tonic, a hair above it or below") {
    for (const char* octave : {"1200.000007c", "1199.999993c", "1200c", "2400.5c", "-1199c"}) {
        CAPTURE(octave);
        const Scale scale =
            to_scale(list({{"D", "0c", "1c"}, {"A", "702c", "1c"}, {"d", octave, "1c"}}), 0);
        CHECK(degrees(scale) == "D 0.000±1.000, A 702.000±1.414, ");
        CHECK(scale.remarks.empty());
    }
}

TEST_CASE("Of one degree in two octaves the one that is known best stays") {
    const auto made = [](const char* upper) {
        return to_scale(list({{"D", "0c", "0.1c"}, {"G", "500c", "3c"}, {"g", upper, "1c"}}), 0);
    };
    CHECK(degrees(made("1702c")) == "D 0.000±0.100, g 502.000±1.005, ");
    CHECK(made("1702c").remarks.empty());
    // What their errors do not account for counts, and is said.
    CHECK(degrees(made("1708c")) == "D 0.000±0.100, g 508.000±8.001, ");
    REQUIRE(made("1708c").remarks.size() == 1);
    CHECK(made("1708c").remarks[0]
          == "G lies 8.0 cents below g, whole periods taken off: one degree stands for both.");
    CHECK(made("1721c").degrees.size() == 3);
}

TEST_CASE("Octaves of the tonic that are out of tune are no degrees, and a remark says so") {
    const Scale scale = to_scale(list({{"D", "0c", "0.5c"}, {"d", "1203c", "0.5c"}}), 0);
    CHECK(degrees(scale) == "D 0.000±0.500, ");
    REQUIRE(scale.remarks.size() == 1);
    CHECK(scale.remarks[0].starts_with("d lies 3.0 cents above D"));
    CHECK(to_scale(list({{"D", "0c", "0.5c"}, {"d", "1203c", "0.5c"}}, "1c"), 0).degrees.size()
          == 2);
}

TEST_CASE("Pitches of one octave stay apart, however near, and wide errors join what is farther") {
    CHECK(to_scale(list({{"a", "0c", "9c"}, {"b", "5c", "9c"}, {"c", "700c", "9c"}}), 0)
              .degrees.size()
          == 3);
    CHECK(to_scale(list({{"a", "0c", "1c"}, {"b", "700c", "30c"}, {"c", "1940c", "30c"}}), 0)
              .degrees.size()
          == 2);
    PitchList as_it_was = list({{"a", "0c", "1c"}, {"b", "1200.5c", "1c"}});
    as_it_was.same_within.reset();
    CHECK(to_scale(as_it_was, 0).degrees.size() == 2);
}

TEST_CASE("A list with each degree once keeps the tonic, its own periods and its order") {
    PitchList low = list({{"A", "-1203c", "0.5c"}, {"d", "498c", "1c"}, {"a", "0c", "1c"}});
    low.tonic_at = 2;
    const PitchList once = each_degree_once(low);
    REQUIRE(once.pitches.size() == 2);
    CHECK(once.pitches[0].label == "a");
    CHECK(once.pitches[1].label == "d");
    CHECK(once.tonic_at == 0);
    REQUIRE(once.remarks.size() == 1);
    CHECK(once.remarks[0].starts_with("A lies 3.0 cents below a"));
    CHECK(each_degree_once(once).pitches.size() == 2);
    low.in_time = true;
    CHECK(each_degree_once(low).pitches.size() == 3);
}

TEST_CASE("A measured tonic that is not the lowest keeps its place") {
    PitchList low = list({{"a", "-1199c", "1c"}, {"d", "0c", "1c"}, {"g", "498c", "1c"}});
    low.tonic_at = 1;
    CHECK(degrees(to_scale(low)) == "d 0.000±1.000, g 498.000±1.414, ");
    low.period.reset();
    CHECK(to_scale(low).tonic_index() == 1);
}
