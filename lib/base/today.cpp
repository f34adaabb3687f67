#include <sectio/base/today.hpp>

#include <fmt/chrono.h>

#include <charconv>
#include <cstdlib>
#include <ctime>
#include <string_view>

namespace sectio {

std::string today() {
    const char* const set = std::getenv("SOURCE_DATE_EPOCH");
    const std::string_view text = set != nullptr ? set : "";
    constexpr std::time_t last = 253402300799; // of the year 9999
    std::time_t epoch = 0;
    const auto [end, failed] = std::from_chars(text.data(), text.data() + text.size(), epoch);
    const bool given = failed == std::errc() && end == text.data() + text.size() && !text.empty()
                       && epoch >= 0 && epoch <= last;
    return fmt::format("{:%Y-%m-%d}",
                       given ? fmt::gmtime(epoch) : fmt::localtime(std::time(nullptr)));
}

} // namespace sectio
