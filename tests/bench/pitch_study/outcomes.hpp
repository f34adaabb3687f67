#pragma once
/// @file
/// What the methods made of each tone, and the table of it.

#include <string>
#include <vector>

namespace pitch_study {

/// One tone by one method.
struct Outcome {
    std::string condition{}, method{}, tone{}, about{};
    double error_cents = 0, half_width_cents = 0;
    int notes = 0; ///< found; 0 where the method gave no pitch
    double sounded_s = 0, worked_s = 0;
};

/// As a line of tab-separated fields, in the order above.
std::string to_line(const Outcome& outcome);

/// A Markdown table of all outcomes in these files, then the worst tones. Speeds stand beside
/// those of the first method of aubio, over the tones that both were given.
std::string table(const std::vector<std::string>& files);

} // namespace pitch_study
