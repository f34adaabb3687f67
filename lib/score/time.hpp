#pragma once
/// @file
/// Exact musical time.

#include <compare>
#include <cstdint>
#include <optional>
#include <string_view>

namespace sectio::score {

/// A time or duration in quarter notes: an exact fraction in lowest terms, denominator above 0.
class QuarterNotes {
  public:
    QuarterNotes() = default;
    /// `num`/`den`, den > 0.
    QuarterNotes(std::int64_t num, std::int64_t den);

    std::int64_t num() const { return num_; }
    std::int64_t den() const { return den_; }

    /// @throws Error score_rhythm_too_fine where the result leaves 64 bits
    friend QuarterNotes operator+(QuarterNotes a, QuarterNotes b);
    friend QuarterNotes operator-(QuarterNotes a, QuarterNotes b) {
        return a + QuarterNotes(-b.num_, b.den_);
    }
    friend QuarterNotes operator*(QuarterNotes a, QuarterNotes b);
    friend QuarterNotes operator/(QuarterNotes a, QuarterNotes b);
    friend bool operator==(QuarterNotes, QuarterNotes) = default;
    friend std::strong_ordering operator<=>(QuarterNotes a, QuarterNotes b);

  private:
    std::int64_t num_ = 0, den_ = 1;
};

/// A number as MusicXML writes it (xs:decimal: white space around, a sign, digits, a point), exact
/// up to 9 digits on each side of the point; empty for anything else.
std::optional<QuarterNotes> decimal_number(std::string_view text);

} // namespace sectio::score
