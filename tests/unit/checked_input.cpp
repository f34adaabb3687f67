// What a program hands to the library wrongly is an error that says so: no crash, no silent figure.

#include <sectio/identify/identify.hpp>
#include <sectio/measure/heard_pitches.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/tuning/retuning.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>
#include <support/paths.hpp>

#include <cmath>

using namespace sectio;
using support::error_of;
using support::name_of;

namespace {

Scale scale_of(const std::vector<const char*>& degrees) {
    Scale scale{.name = "made by a program", .period = Interval::octave()};
    for (const char* degree : degrees)
        scale.degrees.push_back({.interval = parse_interval(degree)});
    return scale;
}

std::string tuned_error(const std::vector<const char*>& degrees) {
    return name_of(error_of([&] { tuned(scale_of(degrees)); }));
}

} // namespace

TEST_CASE("A scale that does not keep its rules is not tuned") {
    CHECK(tuned_error({"1/1", "9/8", "5/4"}) == "no error");
    CHECK(tuned_error({"1/1", "5/4", "9/8"}) == "degrees_not_rising");
    CHECK(tuned_error({"1/1", "5/4", "5/4"}) == "degrees_not_rising");
    CHECK(tuned_error({"1/1", "5/2"}) == "degree_outside_period");
    CHECK(tuned_error({"9/8", "5/4"}) == "no_tonic_degree");
    CHECK(tuned_error({}) == "no_tonic_degree");
}

TEST_CASE("A weight of 0 or below is no weight") {
    Melody melody{.name = "tune"};
    for (const char* degree : {"1/1", "9/8", "5/4", "4/3"})
        melody.notes.push_back({parse_interval(degree), Rational(1), false, std::nullopt});
    const auto asked = [&] { identify(melody, ScaleLibrary::installed()); };
    CHECK(name_of(error_of(asked)) == "no error");
    for (const int weight : {0, -1}) {
        melody.notes.back().weight = weight;
        CHECK(name_of(error_of(asked)) == "weight_not_positive");
    }
    melody.notes.clear();
    CHECK(name_of(error_of(asked)) == "no_pitches");
}

TEST_CASE("A tuning message holds no number beyond its bytes") {
    using namespace sectio::tuning;
    TuningMessage message{.kind = MessageKind::note_change, .keys = {{60, FrequencyWord(0)}}};
    const auto written = [&] { bytes_of(message); };
    CHECK(name_of(error_of(written)) == "no error");
    message.device = 999;
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.device = 0;
    message.program = -1;
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.program = 0;
    message.keys[0].key = 128;
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.keys.clear();
    CHECK(name_of(error_of(written)) == "tuning_field");
    message.kind = MessageKind::octave_1;
    message.offsets[3] = 64; // cents; the form ends at 63
    CHECK(name_of(error_of(written)) == "tuning_field");
}

TEST_CASE("Samples that are no numbers, and a rate that is none, are told as such") {
    std::vector<float> samples(4000, 0.5F);
    const auto heard = [&](int rate) {
        return name_of(error_of([&] { measure::listen(samples, rate, "buffer"); }));
    };
    CHECK(heard(0) == "sound_rate");
    CHECK(heard(-44'100) == "sound_rate");
    samples[2000] = std::nanf("");
    CHECK(heard(44'100) == "sound_not_finite");
    CHECK(name_of(error_of([] { measure::hear({}); })) == "nothing_heard");
    CHECK(name_of(error_of([] { measure::hear({measure::Recording{}}); })) == "nothing_heard");
}

TEST_CASE("Data are taken from where a program says") {
    CHECK(name_of(error_of([] { set_data_directory("/"); })) == "no_data");
    CHECK_NOTHROW(set_data_directory(support::data_dir()));
    CHECK(data_directory() == support::data_dir());
}
