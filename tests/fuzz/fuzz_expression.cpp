// Any text: reading it ends in an interval or an error with a text, and what is read is printed
// as an expression that reads back as the same interval.

#include <sectio/interval/expression.hpp>

#include <cstdint>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    std::optional<sectio::Interval> read;
    try {
        read = sectio::parse_interval(text, {"fuzz", 1, 1});
    } catch (const sectio::Error& error) {
        if (error.message().empty() || error.advice().empty() || error.place().column == 0)
            std::abort();
        return 0;
    }
    if (sectio::parse_interval(sectio::to_expression(*read)) != *read)
        std::abort();
    return 0;
}
