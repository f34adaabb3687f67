#include <sectio/measure/statistics.hpp>
#include <sectio/measure/string_model.hpp>

#include <algorithm>
#include <cmath>

namespace sectio::measure {

namespace {

/// What is thought of B before it is measured: strings lie below a thousandth or near it.
constexpr double usual_inharmonicity = 1e-3;
constexpr double least_inharmonicity = -3e-4;
constexpr int newton_steps = 6;

struct Observation {
    double n2;            ///< n²
    double cents;         ///< of f(n)/n above 1 Hz
    double variance;      ///< cents²
    double scatter_share; ///< of the common scatter; 1 for the strongest partial
};

struct Solution {
    double base = 0; ///< cents of f
    double b = 0;
    double var_base = 0, var_b = 0, covariance = 0;
    double chi2 = 0;

    double residual(const Observation& s) const {
        return s.cents - base - cents_per_e / 2 * std::log1p(b * s.n2);
    }
};

/// Gauss-Newton; the model is nearly linear in B.
Solution solve(const std::vector<Observation>& samples, double scatter2) {
    Solution s;
    for (int step = 0; step < newton_steps; ++step) {
        double aa = 0, ab = 0, bb = 1 / (usual_inharmonicity * usual_inharmonicity);
        double ra = 0, rb = -s.b * bb;
        for (const Observation& x : samples) {
            const double w = 1 / (x.variance + scatter2 * x.scatter_share);
            const double d = cents_per_e / 2 * x.n2 / (1 + s.b * x.n2);
            const double r = s.residual(x);
            aa += w, ab += w * d, bb += w * d * d, ra += w * r, rb += w * d * r;
        }
        const double det = aa * bb - ab * ab;
        s.base += (bb * ra - ab * rb) / det;
        s.b = std::max(least_inharmonicity, s.b + (aa * rb - ab * ra) / det);
        s.var_base = bb / det, s.var_b = aa / det, s.covariance = -ab / det;
    }
    for (const Observation& x : samples)
        s.chi2 += std::pow(s.residual(x), 2) / (x.variance + scatter2 * x.scatter_share);
    return s;
}

/// Degrees of freedom; B counts where there is enough to tell it.
int freedom_of(const std::vector<Observation>& samples) {
    return std::max(0, static_cast<int>(samples.size()) - (samples.size() > 2 ? 2 : 1));
}

/// The scatter with which the errors are as large as they should be (Paule and Mandel), by halving.
double scatter_of(const std::vector<Observation>& samples) {
    const int freedom = freedom_of(samples);
    if (freedom == 0 || solve(samples, 0).chi2 <= chance_chi2(freedom))
        return 0;
    double low = 0, high = 100 * 100;
    for (int i = 0; i < 50; ++i) {
        const double middle = low == 0 ? high / 100 : std::sqrt(low * high);
        (solve(samples, middle).chi2 > freedom ? low : high) = middle;
        if (high < 1e-12)
            break;
    }
    return high;
}

/// Leaves out a partial that alone causes most of the misfit: another sound, or a resonance.
void drop_strays(std::vector<Observation>& samples) {
    constexpr double misfit = 9, share = 0.7;
    while (samples.size() >= 5) {
        const double all = solve(samples, 0).chi2;
        if (all < misfit * freedom_of(samples))
            return;
        std::size_t stray = 0;
        double least = all;
        for (std::size_t i = 0; i < samples.size(); ++i) {
            std::vector<Observation> others = samples;
            others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
            const double chi2 = solve(others, 0).chi2;
            if (chi2 < least)
                least = chi2, stray = i;
        }
        if (least > (1 - share) * all)
            return;
        samples.erase(samples.begin() + static_cast<std::ptrdiff_t>(stray));
    }
}

/// The first partial, in cents.
double first_partial(const Solution& s) {
    return s.base + cents_per_e / 2 * std::log1p(s.b);
}

/// Variance of the first partial by how much it moves when each partial is left out (the jackknife:
/// B. Efron, C. Stein, "The jackknife estimate of variance", Annals of Statistics 9, 1981; from
/// memory): a strong one that lies aside from the others counts for what it moves, whatever was
/// thought of its error.
double jackknife_variance(const std::vector<Observation>& samples, double scatter2) {
    const double count = static_cast<double>(samples.size());
    double sum = 0, squares = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        std::vector<Observation> others = samples;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
        const double without = first_partial(solve(others, scatter2)) - samples[0].cents;
        sum += without, squares += without * without;
    }
    return (count - 1) / count * (squares - sum * sum / count);
}

std::vector<Observation> samples_of(const std::vector<PartialFrequency>& partials) {
    double strongest = 0;
    for (const PartialFrequency& p : partials)
        strongest = std::max(strongest, p.power);
    std::vector<Observation> samples;
    for (const PartialFrequency& p : partials)
        samples.push_back(
            {static_cast<double>(p.number) * p.number, cents_per_e * std::log(p.hz / p.number),
             p.variance_hz2 * std::pow(cents_per_e / p.hz, 2), std::sqrt(strongest / p.power)});
    return samples;
}

} // namespace

StringFit fit_string(const std::vector<PartialFrequency>& partials) {
    std::vector<Observation> samples = samples_of(partials);
    StringFit fit;
    if (samples.empty())
        return fit;
    drop_strays(samples);
    const double scatter2 = scatter_of(samples);
    const Solution s = solve(samples, scatter2);
    const double slope = cents_per_e / 2 / (1 + s.b); // d f(1) / dB in cents
    fit.first_partial_hz = std::exp(first_partial(s) / cents_per_e);
    fit.variance_cents2 = s.var_base + 2 * slope * s.covariance + slope * slope * s.var_b;
    if (scatter2 > 0)
        fit.variance_cents2 = std::max(fit.variance_cents2, jackknife_variance(samples, scatter2));
    fit.inharmonicity = s.b;
    fit.inharmonicity_deviation = std::sqrt(s.var_b);
    fit.scatter_cents = std::sqrt(scatter2);
    fit.used = static_cast<int>(samples.size());
    fit.freedom = scatter2 > 0 ? freedom_of(samples) : 0;
    return fit;
}

} // namespace sectio::measure
