#include <sectio/base/messages.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/practised_reader.hpp>

#include <algorithm>

namespace sectio {

namespace {

constexpr std::string_view example =
    "practised = [{ degree = 2, moved = [\"-1of53\"], source = \"…\" }]";

/// The number of a degree that may be moved.
int degree_number(const TomlReader& reader, const Scale& scale) {
    const auto number = reader.optional_count("degree");
    if (!number)
        throw error(message::missing_key, "", reader.place(), "degree");
    const auto tonic = static_cast<int>(scale.tonic_index()) + 1;
    const auto last = static_cast<int>(scale.degrees.size());
    if (*number > last || *number == tonic)
        throw error(message::practised_degree, std::to_string(*number), reader.place_of("degree"),
                    last, tonic);
    return *number;
}

bool between_neighbours(const PractisedDegree& moved, const Scale& scale) {
    const std::vector<Degree>& degrees = scale.degrees;
    const auto at = static_cast<std::size_t>(moved.degree) - 1;
    const Interval& place = degrees[at].interval;
    if (at > 0 && !(place + moved.from > degrees[at - 1].interval))
        return false;
    if (at + 1 < degrees.size())
        return place + moved.to < degrees[at + 1].interval;
    return !scale.period || place + moved.to < *scale.period;
}

PractisedDegree read_degree(const TomlReader& reader, const Scale& scale,
                            const ReadInterval& read) {
    reader.allow_only("degree, moved, source");
    const int number = degree_number(reader, scale);
    const std::vector<Interval> moved = intervals(reader, "moved", read);
    const Place place = reader.place_of("moved");
    if (moved.empty() || moved.size() > 2 || moved.back() < moved.front()
        || std::find(moved.begin(), moved.end(), Interval()) != moved.end())
        throw error(message::practised_move, "", place);
    PractisedDegree degree{number, moved.front(), moved.back(), reader.required_text("source")};
    if (!between_neighbours(degree, scale))
        throw error(message::practised_too_far, "", place);
    return degree;
}

} // namespace

std::vector<PractisedDegree> read_practised(const TomlReader& table, const Scale& scale,
                                            const ReadInterval& read) {
    std::vector<PractisedDegree> all;
    for (const TomlReader& reader : table.tables("practised", example)) {
        PractisedDegree degree = read_degree(reader, scale, read);
        if (std::any_of(all.begin(), all.end(), [&](const PractisedDegree& other) {
                return other.degree == degree.degree;
            }))
            throw error(message::practised_twice, "", reader.place_of("degree"));
        all.push_back(std::move(degree));
    }
    return all;
}

} // namespace sectio
