#include "errors.hpp"

#include <sectio/base/visible.hpp>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <cstdio>

namespace sectio::cli {

namespace {

using Json = nlohmann::ordered_json;

bool always_json = false;

/// Never an error itself, also where standard error takes nothing.
void print_line(const std::string& line) {
    std::fputs((line + "\n").c_str(), stderr);
}

void tell(const Json& error) {
    print_line(Json{{"error", error}}.dump(-1, ' ', false, Json::error_handler_t::replace));
}

/// Null where it is not known.
Json number(std::size_t of) {
    return of == 0 ? Json() : Json(of);
}

Json json_of(const Error& error) {
    return {{"exit_code", static_cast<int>(exit_code(error.code()))},
            {"id", error.id()->name},
            {"what", error.message()},
            {"piece", error.piece()},
            {"where",
             {{"source", error.place().source},
              {"line", number(error.place().line)},
              {"column", number(error.place().column)}}},
            {"cure", error.advice()}};
}

} // namespace

ExitCode exit_code(ErrorCode code) {
    switch (code) {
    case ErrorCode::unusable:
        return ExitCode::unusable;
    case ErrorCode::undecided:
        return ExitCode::undecided;
    case ErrorCode::unreadable:
    case ErrorCode::unwritable:
        return ExitCode::file_trouble;
    }
    return ExitCode::unusable;
}

void tell(const Error& error, bool json) {
    if (json || always_json)
        return tell(json_of(error));
    print_line(fmt::format("sectio: {}", error.what()));
}

void tell(ExitCode code, const std::string& what, const std::string& cure, bool json) {
    if (json || always_json)
        return tell(Json{{"exit_code", static_cast<int>(code)},
                         {"id", nullptr},
                         {"what", what},
                         {"piece", ""},
                         {"where", {{"source", ""}, {"line", nullptr}, {"column", nullptr}}},
                         {"cure", cure}});
    print_line(fmt::format("sectio: {}{}{}", visible(what), cure.empty() ? "" : "; ", cure));
}

void tell_errors_as_json() {
    always_json = true;
}

void end_with(const std::vector<Error>& failed, bool json) {
    for (std::size_t i = 0; i < failed.size(); ++i) {
        if (i + 1 == failed.size())
            throw failed[i];
        tell(failed[i], json);
    }
}

} // namespace sectio::cli
