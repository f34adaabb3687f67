#include "performed.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/interval/expression.hpp>
#include <sectio/source/file_kind.hpp>

#include <iostream>

namespace sectio::cli {

void add_transpose(Command& command, ScoreOptions& options) {
    command.add_option(
        "--transpose", options.transpose,
        "the interval by which all sounds higher, or lower with a minus: 4/3, -100c");
}

Interval transposition_of(const ScoreOptions& options) {
    if (options.transpose.empty())
        return {};
    return parse_size(options.transpose, {"--transpose"}, Catalogue::installed().names());
}

namespace {

tuning::Performance as_written(const ScoreOptions& options, const ChosenTuning& chosen) {
    const bool piped = options.score == "-";
    const std::string name = piped ? "standard input" : options.score;
    std::string bytes = piped ? read_whole(std::cin, name, limits::score_bytes)
                              : read_whole(options.score, limits::score_bytes);
    if (source::file_kind(bytes, name) == source::FileKind::midi)
        return tuning::performance_of(midi::read_file(bytes, name), *chosen.tuning, chosen.a4);
    source::check_score(bytes, name);
    const score::Document document = score::document_of(std::move(bytes), name);
    return tuning::performance_of(score::read_score(document), reading_of(options), *chosen.tuning,
                                  chosen.a4);
}

} // namespace

tuning::Performance performance_of(const ScoreOptions& options, const ChosenTuning& chosen) {
    const Interval by = transposition_of(options); // refused before the work
    tuning::Performance performance = as_written(options, chosen);
    transpose(performance, by);
    return performance;
}

} // namespace sectio::cli
