#pragma once
/// @file
/// Private to lib/measure: fewer samples a second, for what only the lower partials are needed of.

#include <cstddef>
#include <span>
#include <vector>

namespace sectio::measure {

/// Keeps one of `factor` samples after a low-pass filter: flat to 0.4 of the new rate, 80 dB down
/// from 0.6 of it on, so that what folds back lies above 0.4. Linear phase: sample i of the output
/// stands for the moment of sample i·factor of the input. Source: J. F. Kaiser, "Nonrecursive
/// digital filter design using the I0-sinh window function", IEEE ISCAS 1974.
class Decimator {
  public:
    explicit Decimator(std::size_t factor);

    /// Appends what can be computed once `input` is known too.
    void feed(std::span<const float> input, std::vector<float>& output);
    /// The rest, as though zeros followed.
    void finish(std::vector<float>& output);

  private:
    std::size_t factor_;
    std::vector<float> taps_;   ///< an odd number, then zeros up to a multiple of the lanes
    std::vector<float> memory_; ///< input not yet used up
    std::size_t half_;
};

/// The factor that leaves at least 14 kHz, where there are so many.
std::size_t decimation_for(int rate);
/// Highest frequency free of what folds back, as a part of the new rate.
double usable_band(std::size_t factor);

} // namespace sectio::measure
