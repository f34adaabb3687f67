// sectio measure pitches: a tuner's readings to a measured scale.

#include "measure.hpp"

#include <sectio/approx/messages.hpp>
#include <sectio/base/file_access.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/text_file.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/measure/messages.hpp>
#include <sectio/measure/readings_page.hpp>
#include <sectio/measure/tuning_plan.hpp>
#include <sectio/scale/tuned_scale.hpp>
#include <sectio/source/file_kind.hpp>

#include <fmt/format.h>

#include <filesystem>
#include <iostream>

namespace sectio::cli {

namespace {

struct MeasurePitchesRequest {
    CommonOptions common;
    std::vector<std::string> readings;
    std::string apart = "20c", period = "none";
    std::optional<StatedPitch> tonic;
    std::optional<TuningReference> reference;
    std::optional<std::string> target, length, gauge;
    std::string material;
};

std::vector<measure::Reading> readings_of(const MeasurePitchesRequest& request, const Pitch& a4,
                                          std::vector<std::string>& remarks) {
    const std::string& first = request.readings.front();
    if (first == "-")
        return measure::read_reading_table(
            read_text(std::cin, "standard input", limits::table_bytes), "standard input", a4,
            &remarks);
    if (names_a_file(first))
        return measure::read_reading_table(source::table_text(first), first, a4, &remarks);
    return measure::parse_readings(measure::joined_readings(request.readings), a4,
                                   {"readings", 0, 1});
}

/// What the options say of every string that a table says no other of.
measure::PlainString string_option(const MeasurePitchesRequest& request) {
    measure::PlainString string{{}, {}, request.material};
    if (request.length)
        string.length = parse_length(*request.length, {"--length", 0, 1});
    if (request.gauge)
        string.gauge = parse_length(*request.gauge, {"--gauge", 0, 1});
    if (!request.target && !string.unknown())
        throw error(message::string_without_target, "", {});
    return string;
}

/// Puts what is to be done before the readings.
void add_plan(page::Page& page, const MeasurePitchesRequest& request,
              const std::vector<measure::ReadNote>& notes, const Pitch& a4) {
    const TunedScale scale =
        tuned(scale_argument(*request.target), {request.tonic, request.reference});
    auto blocks = measure::tuning_plan_blocks(measure::tuning_plan(notes, scale), a4);
    page.blocks.insert(page.blocks.begin() + 1, std::make_move_iterator(blocks.begin()),
                       std::make_move_iterator(blocks.end()));
    page.title = "Tuning plan: " + scale.scale().name;
    std::get<page::Facts>(page.blocks.front())
        .facts.insert(std::get<page::Facts>(page.blocks.front()).facts.end(),
                      {{"To be tuned to", scale.scale().name, "target"},
                       {"Tonic", scale.tonic().written(), "target_tonic"}});
}

void run(const MeasurePitchesRequest& request, const Command& command) {
    check_out(request.common);
    const Pitch a4 = reference_of(request.reference);
    const Place place{"--apart", 0, 1};
    const Interval apart = parse_size(request.apart, place);
    if (apart < Interval())
        throw error(message::tolerance_negative, request.apart, place);
    std::vector<std::string> remarks;
    auto notes = measure::notes_of(readings_of(request, a4, remarks), apart);
    const measure::PlainString string = string_option(request);
    for (measure::ReadNote& note : notes)
        note.string = note.string.or_as(string);
    PitchList list = measure::read_pitches(notes, request.tonic, a4);
    list.remarks = remarks;
    list.period = period_option(request.period);
    list.same_within = apart;
    list.reference = request.reference;
    page::Page page = measure::readings_page(list, notes, a4);
    if (request.target)
        add_plan(page, request, notes, a4);
    answer_measured(list, page, request.common, command);
}

} // namespace

void add_measure_pitches(Command& measure) {
    const auto request = std::make_shared<MeasurePitchesRequest>();
    Command* command = measure.add_subcommand(
        "pitches", "the pitches that a tuner showed, and how to tune to a scale");
    command
        ->add_option("READINGS", request->readings,
                     "E4-41c, 329.1Hz, 'E4-41c ± 2c', 'fret 1 = E4-41c'; or a table (.csv), or - "
                     "for one on standard input")
        ->required();
    command->add_option("--tonic", request->tonic,
                        "what cents are counted from, such as D4; else the lowest pitch");
    command->add_option("--reference", request->reference,
                        "what the tuner was set to, such as A4=442Hz");
    command->add_option("--target", request->target,
                        "a scale to tune the strings to, as SCALE of sheet: how far each must go "
                        "up or down");
    command->add_option("--length", request->length,
                        "with --target: length of every string, such as 460mm, for its tension");
    command->add_option("--gauge", request->gauge,
                        "with --target: diameter of every string, such as 0.36mm");
    command
        ->add_option("--material", request->material, "with --target: what every string is made of")
        ->one_of(measure::string_materials());
    command->add_option("--apart", request->apart,
                        "readings without a label that lie nearer than this are of one note");
    command->add_option("--period", request->period, period_help);
    add_common_options(*command, request->common, page_kinds({scale_file}));
    command->callback([request, command] { run(*request, *command); });
}

} // namespace sectio::cli
