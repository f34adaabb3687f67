#include "performed.hpp"

#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>

#include <iostream>

namespace sectio::cli {

tuning::Performance performance_of(const ScoreOptions& options, const ChosenTuning& chosen) {
    const bool piped = options.score == "-";
    const std::string name = piped ? "standard input" : options.score;
    std::string bytes = piped ? read_whole(std::cin, name, limits::score_bytes)
                              : read_whole(options.score, limits::score_bytes);
    if (bytes.starts_with("MThd"))
        return tuning::performance_of(midi::read_file(bytes, name), *chosen.tuning, chosen.a4);
    const score::Document document = score::document_of(std::move(bytes), name);
    return tuning::performance_of(score::read_score(document), reading_of(options), *chosen.tuning,
                                  chosen.a4);
}

} // namespace sectio::cli
