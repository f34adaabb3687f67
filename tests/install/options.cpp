// Options are given by name, as many as are wanted, without a warning of missing ones.
#include <sectio/approx/near_ratios.hpp>
#include <sectio/comma/commas.hpp>
#include <sectio/identify/identify.hpp>
#include <sectio/instrument/fret_request.hpp>
#include <sectio/measure/recording.hpp>
#include <sectio/print/print.hpp>
#include <sectio/scale/interval_report.hpp>
#include <sectio/score/annotation.hpp>
#include <sectio/score/annotation_page.hpp>
#include <sectio/sheet/sheet.hpp>
#include <sectio/sound/listening.hpp>
#include <sectio/tuning/perform.hpp>

#include <tuple>

int main() {
    std::ignore = sectio::TuningOptions{.tonic = "D4"};
    std::ignore = sectio::ComparisonOptions{.tonic = "D4"};
    std::ignore = sectio::ComparisonOptions{.divisions = {sectio::EqualDivision(31)}};
    std::ignore = sectio::SheetOptions{.date = "2026-03-21"};
    std::ignore = sectio::SheetOptions{.clef = sectio::score::Clef::alto, .frequencies = true};
    std::ignore = sectio::StaffOptions{.large = true};
    std::ignore = sectio::FretRequest{.tonic = "D4", .length = sectio::parse_length("620mm")};
    std::ignore = sectio::FretPlanOptions{.frets = 12};
    std::ignore = sectio::NearBounds{.most = 3};
    std::ignore = sectio::CommaBounds{.prime_limit = 7};
    std::ignore = sectio::ReportRequest{.quotients = 5};
    std::ignore = sectio::IdentifyOptions{.show = 3};
    std::ignore = sectio::page::PrintOptions{.columns = 80};
    std::ignore = sectio::score::AnnotationOptions{.places = 1};
    std::ignore = sectio::score::AnnotationPageOptions{.file = "tune.musicxml"};
    std::ignore = sectio::score::ReadingChoice{.source = sectio::score::Source::sign};
    std::ignore = sectio::measure::ListenOptions{.find_drone = false};
    std::ignore = sectio::sound::ListeningOptions{.note_seconds = 1};
    std::ignore = sectio::tuning::PerformOptions{.bend_range = 12};
}
