#include <sectio/base/file.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/scale/load.hpp>
#include <sectio/scale/messages.hpp>

#include <filesystem>
#include <iterator>

namespace sectio {

namespace {

bool looks_like_id(std::string_view text) {
    return !text.empty()
           && text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == text.npos
           && text.find_first_of("abcdefghijklmnopqrstuvwxyz") != text.npos;
}

Scale scale_of(const Entry& entry) {
    if (entry.scale)
        return *entry.scale;
    throw error(message::not_a_scale, entry.id, {},
                entry.kind == EntryKind::comma ? "a comma" : "an interval");
}

Error unknown(const std::string& text, const Catalogue& catalogue) {
    return error(message::unknown_scale, text, {"SCALE"}, catalogue.hint(text));
}

} // namespace

Scale load_scale(const std::string& text, const Catalogue& catalogue, std::istream& input,
                 DegreeOrder order) {
    if (text == "-")
        return read_scale_file(read_whole(input, "standard input", limits::scale_file_bytes),
                               "standard input", catalogue.names(), order);
    if (looks_like_id(text))
        if (const auto entry = catalogue.find(text))
            return scale_of(*entry);
    std::error_code ignored;
    if (std::filesystem::is_regular_file(text, ignored))
        return read_scale_file(read_whole(text, limits::scale_file_bytes), text, catalogue.names(),
                               order);
    if (text.ends_with(".toml"))
        read_whole(text, limits::scale_file_bytes); // says why it cannot be read
    for (const Entry& entry : catalogue.named(text))
        if (entry.scale)
            return *entry.scale;
    if (text.find_first_of("0123456789,") == std::string::npos)
        throw unknown(text, catalogue);
    return parse_degrees(text, "SCALE", catalogue.names(), order);
}

Scale as_scale(const EqualDivision& division) {
    if (division.steps() > limits::scale_degrees)
        throw error(message::too_many_degrees, division.text(), {}, limits::scale_degrees);
    Scale scale;
    scale.name = division.text() + " equal steps";
    scale.period = division.period();
    for (Integer step = 1; step < division.steps(); ++step) {
        const Interval size = division.at(step);
        scale.degrees.push_back({size, to_expression(size), "", "", std::nullopt});
    }
    complete(scale, {}, DegreeOrder::rising);
    return scale;
}

} // namespace sectio
