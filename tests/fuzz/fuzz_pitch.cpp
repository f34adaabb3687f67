// Any text read as a pitch, a reference, a note name and a division: an answer or an error with a
// text; a pitch lies within half a step of its nearest key.

#include <sectio/division/division.hpp>
#include <sectio/interval/expression.hpp>

#include <cstdint>
#include <cstdlib>

namespace {

template <typename Read>
void attempt(Read read) {
    try {
        read();
    } catch (const sectio::Error& error) {
        if (error.message().empty() || error.advice().empty())
            std::abort();
    }
}

void check_key(const sectio::Pitch& pitch) {
    const sectio::KeyedPitch keyed = sectio::nearest_key(pitch);
    const sectio::Interval half = sectio::Interval::from_steps(1, 24);
    if (keyed.deviation > half || keyed.deviation <= -half
        || sectio::pitch_of_key(keyed.key) + keyed.deviation != pitch)
        std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    attempt([&] { check_key(sectio::parse_pitch(text)); });
    attempt([&] { sectio::parse_reference(text); });
    attempt([&] { sectio::parse_note_name(text); });
    attempt([&] { sectio::parse_division(text); });
    return 0;
}
