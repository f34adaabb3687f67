// sectio measure frets: places of frets to a measured scale.

#include "measure.hpp"

#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/instrument/fret_text.hpp>
#include <sectio/instrument/load_instrument.hpp>
#include <sectio/instrument/measured_frets_page.hpp>
#include <sectio/instrument/messages.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/source/file_kind.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <iostream>

namespace sectio::cli {

namespace {

struct MeasureFretsRequest {
    CommonOptions common;
    std::vector<std::string> places;
    std::string length, uncertainty, string, period = "none";
    std::optional<StatedPitch> open;
    std::optional<TuningReference> reference;
    bool between = false;
};

/// Frets an octave apart that differ by less are one degree.
constexpr int same_degree_cents = 20;

/// The frets and the string that they lie under.
struct Bench {
    MeasuredString string;
    FretNotes notes;
    std::string name = "Measured frets", source;
    std::optional<StatedPitch> open;
    std::optional<TuningReference> reference;
    std::vector<std::string> remarks;
};

FretNotes notes_of(const MeasureFretsRequest& request) {
    const std::string& first = request.places.front();
    if (names_a_file(first))
        return read_fret_table(source::table_text(first), first);
    const std::string all = fmt::format("{}", fmt::join(request.places, ", "));
    return {parse_fret_list(all, {"places", 0, 1}), FretDistances::from_nut, {}};
}

Bench bench_of(const Instrument& instrument, const std::string& string) {
    const InstrumentString& played = instrument.string(string);
    Bench bench;
    bench.string.length = played.length;
    bench.string.compensation = played.compensation.value_or(instrument.compensation);
    bench.string.pressing = pressing_of(instrument, played);
    bench.notes.readings = instrument.frets;
    bench.name = instrument.name + ", " + played.name;
    bench.source = instrument.source;
    bench.open = played.open;
    bench.reference = instrument.reference;
    bench.remarks = instrument.remarks;
    return bench;
}

Bench bench_of(const MeasureFretsRequest& request, const Command& command) {
    if (const auto instrument = load_instrument(request.places.front()))
        return bench_of(*instrument, request.string);
    const bool piped = request.places.front() == "-";
    const std::string text =
        piped ? read_text(std::cin, "standard input", limits::table_bytes) : "";
    if (looks_like_instrument_file(text))
        return bench_of(read_instrument_file(text, "standard input"), request.string);
    command.refuse_idle({"--string"}, "without an instrument file, whose string it names");
    Bench bench;
    bench.notes = piped ? read_fret_table(text, "standard input") : notes_of(request);
    return bench;
}

void apply_options(const MeasureFretsRequest& request, Bench& bench) {
    if (!request.length.empty())
        bench.string.length = parse_positive_length(request.length, {"--length", 0, 1});
    if (!request.uncertainty.empty())
        give_half_width(bench.notes.readings,
                        parse_half_width(request.uncertainty, {"--uncertainty", 0, 1}));
    if (request.between && bench.notes.headed && bench.notes.distances == FretDistances::from_nut)
        throw error(message::fret_places_headed, "", {"--between"});
    if (request.between)
        bench.notes.distances = FretDistances::between;
    if (request.open)
        bench.open = request.open;
}

void run(const MeasureFretsRequest& request, const Command& command) {
    check_out(request.common);
    Bench bench = bench_of(request, command);
    apply_options(request, bench);
    const Pitch a4 = reference_of(request.reference, bench.reference);
    const MeasuredFrets frets =
        measure_frets(bench.string, bench.notes.readings, bench.notes.distances);
    PitchList list = fret_pitches(frets, bench.name, bench.open, a4);
    list.source = bench.source;
    list.reference = request.reference ? request.reference : bench.reference;
    list.remarks = bench.remarks;
    list.remarks.insert(list.remarks.end(), bench.notes.remarks.begin(), bench.notes.remarks.end());
    list.period = period_option(request.period);
    list.same_within = Interval::from_cents(same_degree_cents);
    answer_measured(list, measured_frets_page(list, frets, a4), request.common, command);
}

} // namespace

void add_measure_frets(Command& measure) {
    const auto request = std::make_shared<MeasureFretsRequest>();
    Command* command = measure.add_subcommand("frets", "the pitches that the places of frets give");
    command
        ->add_option("PLACES", request->places,
                     "from the nut: 57.4mm, '112mm ± 0.5mm', '47mm : 377mm' (to the bridge too); "
                     "or a table (.csv), an instrument file, - for either on standard input")
        ->required();
    command->add_option("--length", request->length, "of the string, nut to bridge: 620mm, 24.5in");
    command->add_flag("--between", request->between, "each place is from the fret before");
    command->add_option("--uncertainty", request->uncertainty,
                        "half width of each distance that states none, such as 0.5mm");
    command->add_option("--open", request->open, "pitch of the open string, such as D4");
    command->add_option("--string", request->string,
                        "which string of an instrument file, by its name");
    command->add_option("--reference", request->reference, "reference pitch, such as A4=442Hz");
    command->add_option("--period", request->period, period_help);
    add_common_options(*command, request->common, page_kinds({scale_file}));
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
