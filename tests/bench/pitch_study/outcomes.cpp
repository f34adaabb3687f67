#include "outcomes.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

namespace pitch_study {

namespace {

constexpr double octave_error_cents = 100;
const std::string ours = "Sectio", theirs = "aubio fcomb";

Outcome from_line(const std::string& line) {
    std::vector<std::string> fields;
    std::istringstream in(line);
    for (std::string field; std::getline(in, field, '\t');)
        fields.push_back(field);
    return {fields.at(0),
            fields.at(1),
            fields.at(2),
            fields.at(3),
            std::stod(fields.at(4)),
            std::stod(fields.at(5)),
            std::stoi(fields.at(6)),
            std::stod(fields.at(7)),
            std::stod(fields.at(8))};
}

std::vector<Outcome> read(const std::vector<std::string>& files) {
    std::vector<Outcome> outcomes;
    for (const std::string& file : files) {
        std::ifstream in(file);
        for (std::string line; std::getline(in, line);)
            outcomes.push_back(from_line(line));
    }
    return outcomes;
}

/// The outcomes of one condition by one method.
struct Row {
    std::vector<double> errors; ///< cents, without a sign, rising; octave errors left out
    int tones = 0, held = 0, octaves = 0, refused = 0, parted = 0;
    double sounded_s = 0, worked_s = 0;                   ///< of all tones
    double compared_sounded_s = 0, compared_worked_s = 0; ///< of those all methods were given

    void add(const Outcome& outcome, bool compared) {
        ++tones;
        sounded_s += outcome.sounded_s, worked_s += outcome.worked_s;
        if (compared)
            compared_sounded_s += outcome.sounded_s, compared_worked_s += outcome.worked_s;
        const double error = std::abs(outcome.error_cents);
        if (outcome.notes == 0)
            ++refused;
        else if (!(error < octave_error_cents))
            ++octaves;
        else
            errors.push_back(error), held += error <= outcome.half_width_cents;
        parted += outcome.notes > 1;
    }
    double quantile(std::size_t of_hundred) const {
        return errors.empty()
                   ? 0
                   : errors[std::min(errors.size() * of_hundred / 100, errors.size() - 1)];
    }
    std::string text() const {
        const double times = compared_worked_s > 0 ? compared_sounded_s / compared_worked_s : 0;
        return fmt::format("{} | {:.4f} | {:.4f} | {:.4f} | {} | {} | {:.0f}", tones, quantile(50),
                           quantile(95), quantile(100), octaves, refused, times);
    }
};

using Rows = std::map<std::string, std::map<std::string, Row>>;

std::string rows_text(Rows& rows, const std::vector<std::string>& order) {
    std::string out = "| noise | method | tones | median | 95 of 100 | worst | octave errors | "
                      "refused | times real time | against fcomb | held, % |\n"
                      "|---|---|---|---|---|---|---|---|---|---|---|\n";
    for (const std::string& condition : order)
        for (auto& [method, row] : rows[condition]) {
            std::sort(row.errors.begin(), row.errors.end());
            const Row& other = rows[condition][theirs];
            const double speed = row.compared_sounded_s / row.compared_worked_s,
                         other_speed = other.compared_sounded_s / other.compared_worked_s;
            out +=
                fmt::format("| {} | {} | {} | {:.2f} | {} |\n", condition, method, row.text(),
                            speed / other_speed,
                            method == ours ? fmt::format(
                                "{:.1f}", 100.0 * row.held / static_cast<double>(row.errors.size()))
                                           : "");
        }
    return out;
}

/// Those of ours to look into: the largest errors, what was refused, and tones taken for two.
std::string worst_text(std::vector<Outcome> outcomes) {
    std::erase_if(outcomes, [](const Outcome& o) { return o.method != ours; });
    const auto badness = [](const Outcome& o) {
        return o.notes == 1 ? std::abs(o.error_cents) : 1e9;
    };
    std::sort(outcomes.begin(), outcomes.end(),
              [&](const Outcome& a, const Outcome& b) { return badness(a) > badness(b); });
    std::string out = "\nTones to look into\n";
    for (std::size_t i = 0; i < std::min<std::size_t>(outcomes.size(), 40); ++i) {
        const Outcome& o = outcomes[i];
        out += fmt::format("{}: {}: {:.4f} ± {:.4f} c, notes {}\n", o.tone, o.about, o.error_cents,
                           o.half_width_cents, o.notes);
    }
    return out;
}

} // namespace

std::string to_line(const Outcome& o) {
    return fmt::format("{}\t{}\t{}\t{}\t{:.6f}\t{:.6f}\t{}\t{:.4f}\t{:.6f}", o.condition, o.method,
                       o.tone, o.about, o.error_cents, o.half_width_cents, o.notes, o.sounded_s,
                       o.worked_s);
}

std::string table(const std::vector<std::string>& files) {
    const std::vector<Outcome> outcomes = read(files);
    std::set<std::string> compared;
    std::vector<std::string> order;
    for (const Outcome& o : outcomes) {
        if (o.method != ours)
            compared.insert(o.tone);
        if (std::find(order.begin(), order.end(), o.condition) == order.end())
            order.push_back(o.condition);
    }
    Rows rows;
    for (const Outcome& o : outcomes)
        rows[o.condition][o.method].add(o, compared.contains(o.tone));
    return rows_text(rows, order) + worst_text(outcomes);
}

} // namespace pitch_study
