#include <sectio/base/argument.hpp>
#include <sectio/instrument/stretch.hpp>

#include <cmath>
#include <numbers>

namespace sectio {

namespace {

/// √(a² + h²) − a without the loss of digits of a plain difference.
double lengthening(double a, double h) {
    return h * h / (std::hypot(a, h) + a);
}

/// T'/T − 1.
double tension_rise(const StretchedString& s, double from_nut, double depth) {
    for (const double measure : {s.length, s.gauge, s.modulus, s.tension})
        check_argument(measure > 0 && std::isfinite(measure), "what a string is known by",
                       "a number above 0");
    check_argument(from_nut >= 0 && from_nut < s.length && std::isfinite(depth),
                   "the place where a string is pressed", "one between nut and saddle");
    const double longer = lengthening(from_nut, depth) + lengthening(s.length - from_nut, depth);
    const double area = std::numbers::pi * s.gauge * s.gauge / 4;
    constexpr double newtons_per_square_mm = 1000; // of 1 GPa
    return s.modulus * newtons_per_square_mm * area * longer / (s.length * s.tension);
}

} // namespace

double tension_of(double unit_mass, double length, double hertz) {
    constexpr double kilograms = 1e-3, metres = 1e-3;
    const double speed = 2 * length * metres * hertz;
    return unit_mass * kilograms * speed * speed;
}

double clearance(double action, double length, double from_nut) {
    return 2 * action * from_nut / length;
}

double stretch_cents(const StretchedString& string, double from_nut, double depth) {
    return 600 * std::log1p(tension_rise(string, from_nut, depth)) / std::numbers::ln2;
}

double compensation_for(const StretchedString& string, double from_nut, double depth) {
    const double rise = tension_rise(string, from_nut, depth);
    // ρ − 1 = √(1 + rise) − 1, written without loss of digits.
    const double sharper = rise / (std::sqrt(1 + rise) + 1);
    const double ratio = string.length / (string.length - from_nut);
    check_argument(ratio - 1 > sharper, "the stretch of a string", "less than the place sounds");
    return string.length * sharper / (ratio - 1 - sharper);
}

} // namespace sectio
