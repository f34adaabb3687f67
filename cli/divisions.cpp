// sectio divisions: how well equal divisions approximate targets.

#include "answer.hpp"
#include "command.hpp"
#include "progress_line.hpp"

#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/division/error_table.hpp>
#include <sectio/division/messages.hpp>
#include <sectio/sheet/division_ranking.hpp>

#include <fmt/format.h>

#include <functional>
#include <numeric>

namespace sectio::cli {

namespace {

struct DivisionsRequest {
    CommonOptions common;
    std::string argument; ///< the targets without their option; empty where none stand there
    std::string targets = "odd:15";
    std::string period; ///< empty: that of the targets' scale, else the octave
    DivisionRange range;
    std::string sort = "number";
    bool records = false;
    std::optional<std::int64_t> show;
};

/// The targets, and the period that they bring along.
struct Wanted {
    Targets targets;
    Interval period = Interval::octave();
};

Wanted wanted(const DivisionsRequest& request) {
    Wanted result;
    if (auto limit = parse_limit_targets(request.targets, {"--targets", 0, 1})) {
        result.targets = std::move(*limit);
    } else {
        PitchList list = each_degree_once(to_list(scale_argument(request.targets)));
        if (list.zero) // sounding pitches are counted from their tonic, which need not be the first
            list = to_list(to_scale(list));
        for (const ListedPitch& pitch : list.pitches)
            result.targets.intervals.push_back(pitch.above.figure);
        if (const auto period = unlisted_period(list)) // one where another is divided
            result.targets.intervals.push_back(*period);
        result.period = list.period.value_or(Interval::octave());
    }
    if (!request.period.empty())
        result.period =
            parse_interval(request.period, {"--period", 0, 1}, Catalogue::installed().names());
    return result;
}

ErrorKind kind_of(const std::string& sort) {
    return sort == "rms"        ? ErrorKind::rms
           : sort == "relative" ? ErrorKind::relative
                                : ErrorKind::max;
}

/// The divisions to show: all in the range or the records, by number or the best first.
std::vector<std::int64_t> chosen(const DivisionsRequest& request, const ErrorTable& table) {
    const ErrorKind kind = kind_of(request.sort);
    const bool by_number = request.sort == "number";
    ProgressLine progress;
    std::vector<std::int64_t> divisions;
    if (request.records) {
        divisions = table.records(kind, request.range, std::ref(progress));
        // Each record is better than the one before.
        if (!by_number)
            std::reverse(divisions.begin(), divisions.end());
    } else {
        check_range(request.range);
        const std::int64_t all = request.range.to - request.range.from + 1;
        const std::int64_t rows = std::min(all, request.show.value_or(all));
        if (!by_number)
            return table.best(kind, request.range, rows, std::ref(progress));
        divisions.resize(static_cast<std::size_t>(std::min(rows, limits::listed_rows + 1)));
        std::iota(divisions.begin(), divisions.end(), request.range.from);
    }
    const auto rows = static_cast<std::int64_t>(divisions.size());
    if (std::min(rows, request.show.value_or(rows)) > limits::listed_rows)
        throw error(message::too_many_rows, "", {}, limits::listed_rows);
    divisions.resize(static_cast<std::size_t>(std::min(rows, request.show.value_or(rows))));
    return divisions;
}

void run(const DivisionsRequest& request, const Command& command) {
    check_out(request.common);
    const Wanted asked = wanted(request);
    const ErrorTable table(asked.targets, asked.period);
    ProgressLine progress;
    DivisionRanking ranking{table, request.targets, chosen(request, table), std::nullopt,
                            std::ref(progress)};
    if (request.records)
        ranking.records = kind_of(request.sort);
    answer(division_ranking_page(ranking), request.common, command);
}

} // namespace

void add_divisions(Command& app) {
    const auto request = std::make_shared<DivisionsRequest>();
    Command* command =
        app.add_subcommand("divisions", "how well equal divisions approximate intervals");
    Option* argument =
        command->add_option("TARGETS", request->argument, "what to approximate, as --targets");
    command
        ->add_option("--targets", request->targets,
                     fmt::format("odd:N, primes:N, or {} (odd:15)", scale_help))
        ->excludes(argument);
    command->add_option("--from", request->range.from, "smallest division (1)");
    command->add_option("--to", request->range.to, "largest division (100)");
    command->add_option("--period", request->period, "what is divided (2/1)");
    command
        ->add_option("--sort", request->sort,
                     "by number, or the smallest error first: max, rms, or relative, which is the "
                     "largest error in steps (number)")
        ->one_of({"number", "max", "rms", "relative"});
    command->add_flag("--records", request->records,
                      "only divisions strictly better than every smaller one, by the maximum error "
                      "or the one of --sort");
    command->add_option("--show", request->show, "how many rows at most")->from_one_up();
    add_common_options(*command, request->common, page_kinds());
    command->callback([request, command] {
        if (!request->argument.empty())
            request->targets = request->argument;
        run(*request, *command);
    });
}

} // namespace sectio::cli
