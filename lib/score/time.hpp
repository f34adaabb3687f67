#pragma once
/// @file
/// Exact musical time.

#include <compare>
#include <cstdint>
#include <optional>
#include <string_view>

namespace sectio::score {

/// A time or duration in quarter notes: an exact fraction in lowest terms, denominator above 0.
class Beats {
  public:
    Beats() = default;
    /// `num`/`den`, den > 0.
    Beats(std::int64_t num, std::int64_t den);

    std::int64_t num() const { return num_; }
    std::int64_t den() const { return den_; }

    /// @throws Error score_rhythm_too_fine where the result leaves 64 bits
    friend Beats operator+(Beats a, Beats b);
    friend Beats operator-(Beats a, Beats b) { return a + Beats(-b.num_, b.den_); }
    friend Beats operator*(Beats a, Beats b);
    friend Beats operator/(Beats a, Beats b);
    friend bool operator==(Beats, Beats) = default;
    friend std::strong_ordering operator<=>(Beats a, Beats b);

  private:
    std::int64_t num_ = 0, den_ = 1;
};

/// A number as MusicXML writes it (xs:decimal: white space around, a sign, digits, a point), exact
/// up to 9 digits on each side of the point; empty for anything else.
std::optional<Beats> decimal_number(std::string_view text);

} // namespace sectio::score
