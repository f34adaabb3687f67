// What no function can take, handed over by a program: an error, in place of a crash, an endless
// loop or a figure that is none.

#include <sectio/approx/continued_fraction.hpp>
#include <sectio/approx/near_ratios.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/division/val.hpp>
#include <sectio/identify/collection.hpp>
#include <sectio/identify/collection_page.hpp>
#include <sectio/identify/identify_page.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/instrument/fret_template.hpp>
#include <sectio/instrument/measured_frets_page.hpp>
#include <sectio/instrument/stretch.hpp>
#include <sectio/interval/prime_list.hpp>
#include <sectio/measure/hearing_page.hpp>
#include <sectio/measure/picture.hpp>
#include <sectio/measure/pitch_track.hpp>
#include <sectio/measure/readings_page.hpp>
#include <sectio/page/degree_rows.hpp>
#include <sectio/print/print.hpp>
#include <sectio/print/typeset_pages.hpp>
#include <sectio/scale/difference.hpp>
#include <sectio/scale/half_width.hpp>
#include <sectio/scale/lookup.hpp>
#include <sectio/scale/note_spelling.hpp>
#include <sectio/scale/reading.hpp>
#include <sectio/score/annotation_page.hpp>
#include <sectio/score/melody.hpp>
#include <sectio/sheet/interval_page.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sound/tone.hpp>
#include <sectio/tuning/play.hpp>
#include <sectio/tuning/stored_tuning.hpp>
#include <sectio/tuning/tempo_map.hpp>

#include <catch2/catch.hpp>
#include <support/errors.hpp>

#include <climits>
#include <cmath>
#include <limits>

using namespace sectio;

namespace {

constexpr double no_number = std::numeric_limits<double>::quiet_NaN();
constexpr double endless = std::numeric_limits<double>::infinity();

template <typename Call>
std::string told(Call call) {
    return support::name_of(support::error_of(call));
}

template <typename Call>
bool unfit(Call call) {
    return told(call) == "unfit_argument";
}

Scale rast() {
    return Catalogue::installed().scale("rast");
}

} // namespace

TEST_CASE("A precision, a square, a limit of primes that no number has") {
    for (const long bits : {0L, -5L, LONG_MAX})
        CHECK(unfit([&] { Interval::octave().octaves(bits); }));
    CHECK(Interval::octave().octaves(1).estimate() == 1);
    CHECK(unfit([] { Real::root_of(Rational(-1)); }));
    CHECK(unfit([] { root_up(Rational(-1)); }));
    CHECK(unfit([] { coverage_factor(0); }));
    CHECK(primes_up_to(most_sieved).size() == 78'498); // pi(10^6): OEIS A006880, from memory
    CHECK(unfit([] { primes_up_to(most_sieved + 1); }));
    CHECK(unfit([] { Val(EqualDivision(12), UINT_MAX); }));
}

TEST_CASE("A note has a letter and signs") {
    CHECK(NoteName{'C', 4}.text() == "C##");
    for (const int quarter_tones : {-5, 5, INT_MIN, INT_MAX})
        CHECK(unfit([&] { NoteName{'C', quarter_tones}.text(); }));
    CHECK(unfit([] { NoteName{'H', 0}.quarter_tones_from_c(); }));
    CHECK(unfit([] { key_of({{'H', 0}, 4}); }));
    for (const int octave : {INT_MIN, -100'000'001, 100'000'001, INT_MAX})
        CHECK(unfit([&] { key_of({{'C', 0}, octave}); }));
    CHECK(key_of({{'C', 0}, 100'000'000}) == 1'200'000'012);
    CHECK(unfit([] { score::keys_of_letter('H'); }));
    CHECK(unfit([] { score::plain_name('C', INT_MAX, score::NameStyle::ascii); }));
    // -2^31 = 12 * -178956971 + 4, and the octave of key 0 is -1.
    CHECK(usual_note(INT_MIN).text() == "E-178956972");
    CHECK(usual_note(-1).text() == "B-2");
    CHECK(unfit([] { spelled({60, 62}, {}); }));
    CHECK(unfit([] { spelled({60}, std::vector<Degree>(1), NamedTonic{{{'C', 0}, 4}, 1}); }));
}

TEST_CASE("What would be listed without end is refused") {
    const Interval fifth = parse_interval("3/2");
    CHECK(unfit([] { approximants({{0, Integer(1) << 60, 2}, true}, Integer(1) << 62); }));
    CHECK(told([&] { near_ratios(fifth, fifth, {.max_term = Integer(1) << 4096}); })
          == "bound_too_large");
    CHECK(told([&] { near_ratios(fifth, fifth, {.max_term = (Integer(1) << 4096) - 1}); })
          == "no error");
}

TEST_CASE("Targets that are not those of the odd limit they name are a set like another") {
    Targets targets{{parse_interval("5/4")}, 15};
    CHECK(target_sums(targets, Interval::octave()).empty());
    targets.intervals.clear();
    CHECK(target_sums(targets, Interval::octave()).empty());
    CHECK(target_sums(odd_limit_targets(5), Interval::octave()).size() == 1); // 5/3 + 3/1 = 5/1
}

TEST_CASE("Lists and scales without what is asked of them") {
    PitchList list = parse_pitches("440Hz, 500Hz");
    CHECK(unfit([&] { to_scale(list, 2); }));
    list.tonic_at = 2;
    CHECK(unfit([&] { to_scale(list); }));
    CHECK(unfit([&] { half_width_above_tonic(list, list.pitches[0]); }));
    CHECK(told([] { listed_tonic(parse_pitches("204c"), Pitch::concert_a()); })
          == "tonic_not_listed");
    CHECK(told([] { best_difference(rast(), Scale{.period = Interval::octave()}); })
          == "no_tonic_degree");
    CHECK(told([] { difference(Scale{}, rast()); }) == "no_tonic_degree");
    CHECK(!same_pitches(rast(), 99, rast()));
    CHECK(unfit([] { LibraryScale{}.nearest(100); }));
    LibraryScale::Held held;
    CHECK(unfit([&] { LibraryScale{}.above(100, held); }));
    for (const double cents : {no_number, endless})
        CHECK(unfit([&] { ScaleLibrary::installed().scales()[0].nearest(cents); }));
    CHECK(unfit([] { identify_page({.candidates = std::vector<Candidate>(1)}); }));
    CHECK(unfit([] { collection_page({NamedFile{.names = std::vector<NamedFile::Name>(1)}}); }));
    NamedFile nameless{.names = {{.scales = {nullptr}}}};
    CHECK(unfit([&] { collection_page({nameless}); }));
    CHECK(unfit([&] { judge(nameless, "rast"); }));
    const LibraryScale& first = ScaleLibrary::installed().scales()[0];
    CHECK(unfit([&] {
        identify_page({.candidates = {Candidate{.scale = &first, .namesakes = {nullptr}}}});
    }));
}

TEST_CASE("Strings, frets and necks that are none") {
    CHECK(unfit([] { reach_of(Scale{}); }));
    CHECK(told([] { plan_frets(rast(), {PlannedString{}}); }) == "length_not_positive");
    for (const double length : {1e12, endless, no_number})
        CHECK(unfit([&] { template_parts(length); }));
    const Length length = parse_length("620mm");
    CHECK(unfit([&] { interval_at(length, length); }));
    CHECK(unfit([] { template_drawings({}, {}); }));
    CHECK(unfit([] { fret_page({}); }));
    FretSheet sheet = fret_sheet(rast(), {.length = length});
    CHECK(told([&] { fret_page(sheet); }) == "no error");
    CHECK(unfit([&] { sheet.plan.degree_of({.index = 99}); }));
    sheet.plan.strings.clear();
    CHECK(unfit([&] { fret_page(sheet); }));
    for (const double value : {0.0, -60.0, no_number, endless})
        CHECK(unfit([&] { stretch_cents({612, 0.3, 200, value}, 306, 2); }));
    CHECK(unfit([] { stretch_cents({612, 0.3, 200, 60}, 612, 2); }));
    CHECK(unfit([] { compensation_for({612, 0.3, 200, 60}, 0, 2); }));
    CHECK(unfit([] { measured_frets_page({}, {}, Pitch::concert_a()); }));
}

TEST_CASE("Pages that no printer can print") {
    using namespace page;
    const auto refused = [](const Block& block) {
        const Page page{.blocks = {block}};
        return unfit([&] { print_text(page); }) && unfit([&] { print_json(page); })
               && unfit([&] { print_csv(page); }) && unfit([&] { print_html(page); })
               && unfit([&] { print_pdf(page); }) && unfit([&] { print_svg(page); });
    };
    CHECK(refused(Table{.columns = {Column{"a"}}, .later_rows = 1}));
    CHECK(refused(Ruler{.marks = {{no_number}}}));
    CHECK(refused(Ruler{.lines = {{.step = endless, .count = 2}}}));
    for (const double size : {no_number, -1.0, 1e9})
        CHECK(refused(Drawing{.width = 10, .height = size, .true_size = true}));
    CHECK(refused(Drawing{.width = 9, .height = 9, .strokes = {{endless}}}));
    CHECK(refused(Drawing{.width = 9, .height = 9, .dots = {{.radius = no_number}}}));
    CHECK(refused(Drawing{.width = 9, .height = 9, .labels = {{.text = "a", .points = 0}}}));
    CHECK(unfit([] { print_pdf({.largest_type = 0}); }));
    CHECK(unfit([] { print_pdf({}, {.paper = {100, 100}}); }));
    CHECK(told([] { print_text({.digits = -1}); }) == "digits_out_of_range");
    for (const char* key : {"k[", "k[]", "k[9999999]", "k[-1]"})
        CHECK(unfit([&] { print_json({.blocks = {Facts{.facts = {{"a", "b", key}}}}}); }));
    CHECK(unfit([] {
        print_json({.blocks = {Facts{.facts = {{"a", "b", "k"}, {"a", "b", "k[0]"}}}}});
    }));
    for (const double size : {0.0, -1.0, no_number, 2001.0})
        CHECK(unfit([&] { print_png({.width = size, .height = 10}); }));
    CHECK(told([] { print_png({.width = 0.125, .height = 2000}); }) == "no error");
    CHECK(unfit([] { degree_rows({}, 0, 1200); }));
    CHECK(unfit([] { computed(no_number); }));
    CHECK(unfit([] { computed(1, -1); }));
    CHECK(refused(Drawing{.width = 1e6, .height = 1e6, .true_size = true}));
    const auto words = Number([](int) { return std::string("abc"); });
    CHECK(told([&] { for_programs(Cell(words), {}); }) == "no error");
    CHECK(unfit([] { Typesetter().shrunk("a b", {}, 1, 0, 0); }));
}

TEST_CASE("A sheet has the pages that it names, and a comparison is one") {
    CHECK(told([] {
              sheet_page(compare(rast()), {.pages = {"table", "nonsense"}});
          })
          == "unknown_page");
    Comparison comparison = compare(rast());
    comparison.summaries[0].worst = 7;
    CHECK(unfit([&] { sheet_page(comparison); }));
    CHECK(unfit([] { interval_page({IntervalReport{}}, {.divisions = {EqualDivision(12)}}); }));
}

TEST_CASE("Recordings and tracks that nobody heard") {
    using namespace measure;
    const Pitch a4 = Pitch::concert_a();
    for (const auto& [call, name] :
         {std::pair(told([&] { hearing_page({}, a4); }), "hearing_page"),
          std::pair(told([] { heard_list({}); }), "heard_list"),
          std::pair(told([] { scale_of(Hearing{}, std::nullopt); }), "scale_of"),
          std::pair(told([] { melody_of(Hearing{}); }), "melody_of"),
          std::pair(told([&] { picture_page({}, a4); }), "picture_page")}) {
        INFO(name);
        CHECK(call == "nothing_heard");
    }
    Recording recording{.name = "made", .notes = {{.end_s = 1, .pitch = {.hz = 440}}}};
    CHECK(told([&] { partials_page({recording}, a4); }) == "no error");
    for (const double hz : {0.0, -1.0, no_number})
        CHECK(unfit([&] { hear({recording}, hz); }));
    recording.notes[0].pitch.hz = no_number;
    CHECK(told([&] { partials_page({recording}, a4); }) == "note_not_measured");
    CHECK(unfit([&] { read_pitches({}, std::nullopt, a4); }));
    CHECK(unfit([&] { readings_page({}, {ReadNote{}}, a4); }));
    for (const double step : {0.0, -1.0, no_number}) {
        CHECK(unfit([&] { read_pitch_track("440\n440\n", "track", step); }));
        CHECK(unfit([&] { recording_of({{440}, step}, "track"); }));
    }
    for (const float hz : {-440.0F, std::nanf(""), HUGE_VALF})
        CHECK(unfit([&] { recording_of({std::vector<float>(100, hz), 0.01}, "track"); }));
}

TEST_CASE("Scores of notes that lie nowhere") {
    const auto tuning = score::tuning_by_division(EqualDivision(12), "D4");
    score::Score score;
    score.notes.emplace_back();
    CHECK(unfit([&] { score::annotate(score, *tuning, {}); }));
    CHECK(unfit([&] { score::melody_of(score); }));
    CHECK(unfit([&] { tuning::performance_of(score, {}, *tuning, Pitch::concert_a()); }));
    CHECK(unfit([] { score::tuning_with_rest(nullptr, nullptr); }));
    for (const score::PlayingMark& mark : {score::PlayingMark{.part = 1},
                                           {.bar = 1},
                                           {.tempo = score::QuarterNotes(0, 1)},
                                           {.program = 128},
                                           {.passes = 1}}) {
        score::Score marked;
        marked.parts.resize(1);
        marked.measures.resize(1);
        marked.bars.resize(1);
        CHECK(told([&] { score::check(marked); }) == "no error");
        marked.played = {mark};
        CHECK(unfit([&] { score::check(marked); }));
        marked.played.clear();
        marked.bars[0].times = score::Bar::most_times + 1;
        CHECK(unfit([&] { score::check(marked); }));
    }
    score::Insertions insertions;
    CHECK(unfit([&] { insertions.add(0, 0U); }));
    insertions.add(4, "text");
    CHECK(unfit([&] { insertions.applied("abc"); }));
    CHECK(unfit([] { score::unmatched_notes({{}}, {}); }));
    CHECK(unfit([] { score::unmatched_kinds({{}}, {}); }));
    CHECK(unfit([] { score::QuarterNotes(1, 0); }));
    CHECK(unfit([] { score::QuarterNotes(1, 1) / score::QuarterNotes(); }));
}

TEST_CASE("Tones and MIDI hold no number that is none") {
    std::vector<float> samples(10);
    for (const double level : {-1.0, no_number, endless})
        CHECK(unfit([&] { sound::add_drone(samples, {.level = level}); }));
    CHECK(unfit([] { sound::SoundingTone::drone({}).set_hz(no_number); }));
    CHECK(unfit([] { midi::note_on(0, 16, 60, 64); }));
    CHECK(unfit([] { midi::note_on(0, 0, 128, 64); }));
    CHECK(unfit([] { midi::control(0, -1, 7, 100); }));
    CHECK(told([] { midi::pitch_bend(0, 15, 16'383); }) == "no error");
    for (const int bend : {-1, 16'384})
        CHECK(unfit([&] { midi::pitch_bend(0, 0, bend); }));
    CHECK(unfit([] { midi::tempo(0, 0); }));
    CHECK(unfit([] { midi::tempo(0, 1 << 24); }));
    CHECK(unfit([] { midi::system_exclusive(0, ""); }));
    CHECK(unfit([] { midi::file_bytes({.format = 3}); }));
    for (const midi::TimeBase base : {midi::TimeBase{0, 0}, {40'000, 0}, {300, 25}, {10, 99}}) {
        CHECK(unfit([&] { midi::file_bytes({.time_base = base}); }));
        CHECK(unfit([&] { midi::TempoMap({.time_base = base}); }));
    }
    CHECK(unfit([] { midi::TempoMap({}).seconds(-1); }));
    CHECK(unfit([] { tuning::FrequencyWord(1 << 21); }));
    CHECK(told([] {
              tuning::stored_tunings({{.kind = tuning::MessageKind::note_change,
                                       .keys = {{128, tuning::FrequencyWord(0)}}}});
          })
          == "tuning_no_key");
    tuning::Performance music;
    music.pitches = {Pitch::concert_a()};
    music.instruments.resize(1);
    for (const auto& [begin, end] : {std::pair(-1, 5), std::pair(5, 4)}) {
        music.notes = {{.begin = begin, .end = end}};
        CHECK(unfit([&] { tuning::check(music); }));
    }
}
