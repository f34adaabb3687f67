// Any bytes as a scale file: a scale within the limits, whose degrees rise, or an error with a
// text.

#include <sectio/base/limits.hpp>
#include <sectio/scale/scale.hpp>

#include <cstdint>
#include <cstdlib>

namespace {

bool is_sound(const sectio::Scale& scale) {
    // A set without period may reach below its tonic.
    if (scale.degrees.empty() || (scale.period && !scale.degrees.front().interval.is_unison())
        || scale.degrees.size() > sectio::limits::scale_degrees)
        return false;
    for (std::size_t i = 1; i < scale.degrees.size(); ++i)
        if (!(scale.degrees[i - 1].interval < scale.degrees[i].interval))
            return false;
    return !scale.period || scale.degrees.back().interval < *scale.period;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    try {
        if (!is_sound(sectio::read_scale_file(text, "fuzz.toml")))
            std::abort();
    } catch (const sectio::Error& error) {
        if (error.message().empty() || error.advice().empty())
            std::abort();
    }
    return 0;
}
