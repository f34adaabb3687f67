// Functions that are empty, enumerators and numbers that there are none of, handed over by a
// program: an error, in place of a crash, an endless loop or an exception of another kind.

#include <sectio/base/file.hpp>
#include <sectio/base/length.hpp>
#include <sectio/base/toml.hpp>
#include <sectio/desk/desk.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/print/format.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/score/annotation.hpp>
#include <sectio/score/staff_notes.hpp>
#include <sectio/sheet/division_ranking.hpp>
#include <sectio/sound/music_sound.hpp>
#include <sectio/sound/wave_file.hpp>
#include <sectio/tuning/tuning_message.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

#include <climits>
#include <sstream>

using namespace sectio;

namespace {

template <typename Call>
bool unfit(Call call) {
    return support::name_of(support::error_of(call)) == "unfit_argument";
}

template <typename Enum>
constexpr auto unknown = static_cast<Enum>(99);

} // namespace

TEST_CASE("Functions that are not there") {
    CHECK(unfit([] { write_whole("-", std::function<void(const Sink&)>()); }));
    CHECK(unfit([] { certified_decimal(nullptr, 3); }));
    CHECK(unfit([] { certified_sign(nullptr); }));
    CHECK(unfit([] { Real::enclosed(nullptr); }));
    CHECK(unfit([] { Real::scaled_by(nullptr); }));
    CHECK(unfit([] { page::Number(nullptr); }));
    CHECK(unfit([] { entry_called(Catalogue::installed(), "rast", nullptr); }));
    CHECK(unfit([] { suggestion(Catalogue::installed(), "rasst", nullptr); }));
    CHECK(unfit([] { score::Insertions().write("abc", nullptr); }));
    CHECK(unfit([] { sound::write_music({midi::TempoMap({}), {}, {}, {}, {}, {}}, nullptr); }));
    std::istringstream sound(sound::wave_bytes(std::vector<float>(9)));
    const auto wave = measure::read_wave_chunks(sound, "made");
    CHECK(unfit([&] { measure::copy_with_pitch(sound, wave, {}, "made", nullptr); }));
    CHECK(unfit([&] { measure::copy_with_pitch(sound, {}, {}, "made", [](auto) {}); }));
    CHECK(unfit([] { desk::keep_desk({}); }));
    CHECK(unfit([] { desk::keep_desk({.port = -5, .run = [](auto&&...) { return 0; }}); }));
}

TEST_CASE("Enumerators that no enumeration has") {
    CHECK(unfit([] { text(unknown<Basis>); }));
    CHECK(unfit([] { text(unknown<EntryKind>); }));
    CHECK(unfit([] { text(std::optional(unknown<Direction>)); }));
    CHECK(unfit([] { text(unknown<SignStyle>); }));
    CHECK(unfit([] { text(unknown<Verdict>); }));
    CHECK(unfit([] { measure::text(unknown<measure::TonicBasis>); }));
    CHECK(unfit([] { measure::text(unknown<measure::SampleSet>); }));
    measure::Recording recording{.name = "made", .notes = {{.end_s = 1, .pitch = {.hz = 440}}}};
    const TunedScale scale = tuned(Catalogue::installed().scale("rast"));
    const auto sample = measure::sample_of(recording, Pitch::concert_a(), &scale);
    for (const auto set : {unknown<measure::SampleSet>, measure::SampleSet::scale})
        CHECK(unfit([&] { measure::stored_pitch(sample, set, nullptr, Pitch::concert_a()); }));
    CHECK(unfit([] { score::text(unknown<score::Unreadable>); }));
    CHECK(unfit([] { score::name(unknown<score::Encoding>); }));
    CHECK(unfit([] { score::entry_of(unknown<score::Clef>); }));
    CHECK(unfit([] { tuning::row_of(unknown<tuning::MessageKind>); }));
    CHECK(unfit([] { page::print({}, unknown<page::Format>); }));
    const ErrorTable table(odd_limit_targets(5));
    CHECK(unfit([&] { division_ranking_page({table, "odd:5", {1}, unknown<ErrorKind>}); }));
}

TEST_CASE("Numbers and factors that are none") {
    for (const int places : {-1, INT_MIN, INT_MAX}) {
        CHECK(unfit([&] { power_of_ten(places); }));
        CHECK(unfit([&] { decimal(Rational(1, 3), places); }));
        CHECK(unfit([&] { decimal_text(3, places); }));
        CHECK(unfit([&] { rounded(0.5, places); }));
    }
    for (const char* text : {"", "-", ".", "x", "1.2.3", "0x8", " 1"})
        CHECK(unfit([&] { parse_decimal(text); }));
    CHECK(unfit([] { parse_length("3mm") / Length(); }));
    CHECK(unfit([] { TomlReader(TomlValue{}); }));
    for (const Factors& factors : {Factors{{0, 1, true}}, Factors{{1, 1, false}},
                                   Factors{{2, 0, true}}, Factors{{3, 1, true}, {2, 1, true}}})
        CHECK(unfit([&] { Interval::from_factors(factors); }));
    CHECK(Interval::from_factors({{2, -1, true}, {3, 1, true}}) == parse_interval("3/2"));
}
