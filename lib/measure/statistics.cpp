#include <sectio/measure/statistics.hpp>

#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

namespace sectio::measure {

double cents_above(double hz, double other_hz) {
    return 1200 * std::log2(hz / other_hz);
}

double median(std::vector<double> values) {
    auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

double robust_deviation(std::vector<double> values, double centre) {
    constexpr double normal_over_median = 1.4826;
    for (double& value : values)
        value = std::abs(value - centre);
    return normal_over_median * median(std::move(values));
}

double moving_half_width(double deviation, double seconds) {
    constexpr double independent_s = 0.25;
    return normal_95 * deviation / std::sqrt(std::max(1.0, seconds / independent_s));
}

double student_95(int freedom) {
    if (freedom <= 0)
        return normal_95;
    return boost::math::quantile(boost::math::students_t(freedom), 0.975);
}

double student_999(int freedom) {
    if (freedom <= 0)
        return std::numeric_limits<double>::infinity();
    return boost::math::quantile(boost::math::students_t(freedom), 0.9995);
}

double chance_chi2(int freedom) {
    return boost::math::quantile(boost::math::chi_squared(freedom), 0.95);
}

double long_run_variance(const std::vector<double>& scores) {
    const std::size_t reach = scores.size() / 4;
    double variance = 0;
    for (std::size_t lag = 0; lag <= reach; ++lag) {
        double product = 0;
        for (std::size_t m = 0; m + lag < scores.size(); ++m)
            product += scores[m] * scores[m + lag];
        const double weight = 1 - static_cast<double>(lag) / static_cast<double>(reach + 1);
        variance += (lag == 0 ? 1.0 : 2.0) * weight * product;
    }
    return variance;
}

double lower_quartile(std::vector<double> values) {
    if (values.size() < 3)
        return 0;
    const auto at = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 4);
    std::nth_element(values.begin(), at, values.end());
    return *at;
}

} // namespace sectio::measure
