#include "support/json.hpp"

#include "support/process.hpp"

namespace support {

nlohmann::json json_of(const std::string& text) {
    return nlohmann::json::parse(text);
}

nlohmann::json sectio_json(std::vector<std::string> arguments) {
    arguments.push_back("--json");
    const auto outcome = run_sectio(arguments);
    CAPTURE(arguments, outcome.err);
    REQUIRE(outcome.exit_code == 0);
    CHECK(outcome.err.empty());
    return json_of(outcome.out);
}

} // namespace support

std::string Catch::StringMaker<nlohmann::json>::convert(const nlohmann::json& json) {
    return json.dump();
}
