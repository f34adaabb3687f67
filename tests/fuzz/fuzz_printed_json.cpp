// Any bytes as the JSON of a sheet or a measurement: a list that is a scale within the limits, or
// an error with a text. Bytes that do not begin a document fill the fields of one.

#include <sectio/base/limits.hpp>
#include <sectio/scale/reading.hpp>

#include <nlohmann/json.hpp>

#include <cstdint>
#include <cstdlib>

using namespace sectio;

namespace {

using Json = nlohmann::json;

/// The lines of `text` in the fields that are read, ten a pitch.
std::string document_of(std::string_view text) {
    constexpr const char* fields[]{"interval", "hz",      "cents",    "uncertainty_cents", "name",
                                   "label",    "written", "hz_exact", "cents_exact"};
    constexpr const char* heads[]{"name", "tonic", "reference_hz", "source"};
    Json document, pitch = Json::object(), pitches = Json::array();
    std::size_t number = 0;
    for (std::size_t begin = 0; begin <= text.size(); ++number) {
        const std::size_t end = std::min(text.find('\n', begin), text.size());
        const std::string line(text.substr(begin, end - begin));
        begin = end + 1;
        if (number < std::size(heads))
            document[heads[number]] = line;
        else if (!line.empty() && line[0] < static_cast<char>(std::size(fields)) && line[0] >= 0)
            pitch[fields[static_cast<std::size_t>(line[0])]] = line.substr(1);
        else
            pitches.push_back(std::exchange(pitch, {{"interval", line}}));
    }
    const bool measured = number % 2 == 0;
    document["period"] = {{"interval", "2/1"}};
    document[measured ? "pitches" : "degrees"] = pitches;
    return document.dump(-1, ' ', false, Json::error_handler_t::replace);
}

void check(std::string_view json) {
    try {
        const PitchList list = read_json(json, "fuzz.json");
        if (list.pitches.empty() || list.pitches.size() > limits::table_bytes)
            std::abort();
        const Scale scale = to_scale(list);
        for (std::size_t i = 1; i < scale.degrees.size(); ++i)
            if (!(scale.degrees[i - 1].interval < scale.degrees[i].interval))
                std::abort();
    } catch (const Error& error) {
        if (error.message().empty() || error.advice().empty())
            std::abort();
    }
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    check(text);
    if (!text.starts_with('{'))
        check(document_of(text));
    return 0;
}
