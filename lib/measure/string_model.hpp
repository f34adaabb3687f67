#pragma once
/// @file
/// Private to lib/measure: pitch and inharmonicity that account for the frequencies of partials.

#include <vector>

namespace sectio::measure {

/// The frequency of the partial `number`, as it was found.
struct PartialFrequency {
    int number = 1;
    double hz = 0;
    double variance_hz2 = 0;
    double power = 1; ///< in any one unit
};

/// The lowest partial by the model f(n) = n f √(1 + B n²) of a stiff string. Source: H. Fletcher,
/// "Normal vibration frequencies of a stiff piano string", Journal of the Acoustical Society of
/// America 36, 1964.
struct StringFit {
    double first_partial_hz = 0;
    double variance_cents2 = 0; ///< of first_partial_hz
    double inharmonicity = 0;   ///< B
    double inharmonicity_deviation = 0;
    double scatter_cents = 0; ///< by which partials lie off the model beyond their own errors
    int used = 0;             ///< partials; those far off the model are left out
    int freedom = 0;          ///< degrees of freedom that the scatter was found from
};

/// Weighted least squares in cents. Where the partials lie further off than their variances allow,
/// a scatter is added to these (R. C. Paule, J. Mandel, "Consensus values and weighting
/// factors", Journal of Research of the National Bureau of Standards 87, 1982), so that one partial
/// that the body of the instrument draws aside does not decide alone. It is the larger the weaker
/// the partial, as the root of power, since strong partials are what a listener hears the pitch by.
StringFit fit_string(const std::vector<PartialFrequency>& partials);

} // namespace sectio::measure
