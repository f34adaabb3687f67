#pragma once
/// @file
/// Pitches as the MIDI Tuning Standard writes them. Source: MIDI Manufacturers Association, "MIDI
/// Tuning Updated Specification" (with CA-020 and CA-021/RP-020), frequency data format and
/// scale/octave tuning.

#include <sectio/base/argument.hpp>
#include <sectio/interval/pitch.hpp>

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace sectio::tuning {

/// A frequency in units of 100/16384 cents above key 0 of 12 equal steps from A4 = 440 Hz: 21 bits
/// in three bytes `xx yy zz` of seven, of which the first is the key below. One number, so that a
/// fraction rounded up to 100 cents moves on to the next key.
class FrequencyWord {
  public:
    /// `value` 0 … 0x1FFFFF. @throws Error unfit_argument
    explicit constexpr FrequencyWord(std::uint32_t value) : value_(value) {
        check_argument(value <= 0x1FFFFF, "a frequency word", "of 21 bits");
    }

    /// The word nearest to `pitch`, decided exactly; half way the lower one. The reserved word is
    /// avoided: what would round to it gets the word below. Nothing for a pitch that lies more than
    /// half a unit outside the words.
    static std::optional<FrequencyWord> nearest(const Pitch& pitch);

    constexpr std::uint32_t value() const { return value_; }
    /// 7F 7F 7F: the key keeps its pitch.
    constexpr bool is_no_change() const { return value_ == 0x1FFFFF; }
    /// The exact frequency that the word stands for.
    Pitch pitch() const;
    /// The three bytes.
    std::string bytes() const;
    /// Precondition: `three` bytes below 80. @see bytes()
    static FrequencyWord of_bytes(std::string_view three);
    /// "45 00 00", as the standard prints it.
    std::string text() const;

    friend constexpr bool operator==(FrequencyWord, FrequencyWord) = default;

  private:
    std::uint32_t value_;
};

inline constexpr FrequencyWord no_change{0x1FFFFF};

/// Steps of one of the standard's two forms of an offset from 12 equal steps.
struct OffsetForm {
    int steps_to_octave; ///< 1200 steps of a cent, or 98304 of 100/8192 cents
    int lowest, highest; ///< in steps
    int bytes;
};
/// One byte: -64 … +63 cents.
inline constexpr OffsetForm one_byte_offset{1200, -64, 63, 1};
/// Two bytes, most significant first: -100 … +99.988 cents.
inline constexpr OffsetForm two_byte_offset{98'304, -8192, 8191, 2};

/// The step nearest to `offset`, decided exactly; half way the lower one. Nothing for an offset
/// more than half a step outside the form.
std::optional<int> nearest_offset(const Interval& offset, const OffsetForm& form);
/// The exact size of `step` steps.
Interval offset_of(int step, const OffsetForm& form);

} // namespace sectio::tuning
