#include <sectio/base/argument.hpp>
#include <sectio/interval/real.hpp>
#include <sectio/scale/half_width.hpp>

#include <algorithm>
#include <iterator>
#include <utility>

namespace sectio {

namespace {

constexpr int margin_digits = 4;

Integer ceiling(const Rational& r) {
    return -floor(-r);
}

/// In cents, rounded up to a millionth where it is no fraction of them.
Rational cents_up(const std::optional<Interval>& width) {
    constexpr int digits = 6;
    if (!width)
        return 0;
    if (const auto exact = width->exact_cents())
        return *exact;
    return size_in_cents(*width).rounded(digits) + Rational(1, power_of_ten(digits));
}

bool statistical(Basis basis) {
    return basis == Basis::recording || basis == Basis::scatter;
}

} // namespace

Rational root_up(const Rational& square) {
    check_argument(square >= 0, "a square", "0 or above");
    const Integer scale = power_of_ten(margin_digits);
    const Integer scaled = ceiling(square * (scale * scale));
    Integer root = boost::multiprecision::sqrt(scaled);
    if (root * root < scaled)
        ++root;
    return {root, scale};
}

std::optional<Interval> combined_half_width(const std::vector<Rational>& causes) {
    Rational sum(0), squares(0);
    for (const Rational& cause : causes) {
        sum += cause;
        squares += cause * cause;
    }
    if (sum.numerator() == 0)
        return std::nullopt;
    const Integer scale = power_of_ten(margin_digits);
    const Rational limit(ceiling(sum * scale), scale);
    return Interval::from_cents(std::min(limit, root_up(squares * Rational(4, 3))));
}

std::optional<Interval> half_width_between(const Measured<Interval>& a,
                                           const Measured<Interval>& b) {
    if (!a.half_width || !b.half_width)
        return a.half_width ? a.half_width : b.half_width;
    const Rational first = cents_up(a.half_width), second = cents_up(b.half_width);
    if (!statistical(a.basis) || !statistical(b.basis))
        return combined_half_width({first, second});
    return Interval::from_cents(root_up(first * first + second * second));
}

Basis basis_of(std::string_view name) {
    for (const Basis basis : {Basis::ruler, Basis::tuner, Basis::recording, Basis::scatter})
        if (text(basis) == name)
            return basis;
    return Basis::stated;
}

Rational cents_of_relative(const Rational& relative) {
    // 1200/ln 2 = 1731.2340490667560888…
    static const Rational per_unit = parse_decimal("1731.234049066757");
    return relative * per_unit;
}

Rational coverage_factor(std::size_t freedom) {
    check_argument(freedom > 0, "the degrees of freedom", "1 or more");
    static const std::vector<std::pair<std::size_t, const char*>> table = {
        {1, "12.71"}, {2, "4.30"},  {3, "3.18"},   {4, "2.78"},  {5, "2.57"},  {6, "2.45"},
        {7, "2.36"},  {8, "2.31"},  {9, "2.26"},   {10, "2.23"}, {11, "2.20"}, {12, "2.18"},
        {13, "2.16"}, {14, "2.14"}, {15, "2.13"},  {16, "2.12"}, {17, "2.11"}, {18, "2.10"},
        {19, "2.09"}, {20, "2.09"}, {25, "2.06"},  {30, "2.04"}, {35, "2.03"}, {40, "2.02"},
        {45, "2.01"}, {50, "2.01"}, {100, "1.984"}};
    const auto above =
        std::upper_bound(table.begin(), table.end(), freedom,
                         [](std::size_t n, const auto& row) { return n < row.first; });
    return parse_decimal(std::prev(above)->second);
}

} // namespace sectio
