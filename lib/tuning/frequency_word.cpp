#include <sectio/division/division.hpp>
#include <sectio/tuning/frequency_word.hpp>

#include <fmt/format.h>

namespace sectio::tuning {

namespace {

constexpr std::uint32_t highest_word = 0x1FFFFE;

/// 12 semitones of 2^14 units.
const EqualDivision& units() {
    static const EqualDivision division(Integer(12 << 14));
    return division;
}

const Pitch& key_zero() {
    static const Pitch pitch = pitch_of_key(0);
    return pitch;
}

} // namespace

std::optional<FrequencyWord> FrequencyWord::nearest(const Pitch& pitch) {
    const Integer value = units().nearest(pitch - key_zero());
    if (value < 0 || value > highest_word + 1)
        return std::nullopt;
    return FrequencyWord(std::min(value.convert_to<std::uint32_t>(), highest_word));
}

Pitch FrequencyWord::pitch() const {
    return key_zero() + units().at(value_);
}

std::string FrequencyWord::bytes() const {
    return {static_cast<char>(value_ >> 14), static_cast<char>(value_ >> 7 & 0x7F),
            static_cast<char>(value_ & 0x7F)};
}

FrequencyWord FrequencyWord::of_bytes(std::string_view three) {
    std::uint32_t value = 0;
    for (const char c : three.substr(0, 3))
        value = value << 7 | static_cast<unsigned char>(c);
    return FrequencyWord(value);
}

std::string FrequencyWord::text() const {
    return fmt::format("{:02X} {:02X} {:02X}", value_ >> 14, value_ >> 7 & 0x7F, value_ & 0x7F);
}

std::optional<int> nearest_offset(const Interval& offset, const OffsetForm& form) {
    const Integer step = EqualDivision(form.steps_to_octave).nearest(offset);
    if (step < form.lowest || step > form.highest)
        return std::nullopt;
    return step.convert_to<int>();
}

Interval offset_of(int step, const OffsetForm& form) {
    return Interval::from_steps(step, form.steps_to_octave);
}

} // namespace sectio::tuning
