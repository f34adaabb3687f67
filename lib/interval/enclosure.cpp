#include <sectio/base/argument.hpp>
#include <sectio/base/error.hpp>
#include <sectio/base/limits.hpp>
#include <sectio/base/messages.hpp>
#include <sectio/interval/enclosure.hpp>
#include <sectio/interval/messages.hpp>
#include <sectio/interval/thread_constants.hpp>

#include <mpfi_io.h>

#include <algorithm>
#include <utility>

namespace sectio {

Enclosure::Enclosure(long bits) {
    if (bits < 1 || bits > most_bits) // where MPFR ends the program
        refuse_argument("the precision in bits", fmt::format("from 1 to {}", most_bits),
                        fmt::to_string(bits));
    let_constants_go_with_the_thread();
    mpfi_init2(value_, bits);
    mpfi_set_si(value_, 0);
}

Enclosure::Enclosure(const Integer& value, long bits) : Enclosure(bits) {
    mpfi_set_z(value_, value.backend().data());
}

Enclosure::Enclosure(const Rational& value, long bits) : Enclosure(value.numerator(), bits) {
    mpfi_div_z(value_, value_, value.denominator().backend().data());
}

Enclosure::Enclosure(const Enclosure& other) {
    mpfi_init2(value_, other.bits());
    mpfi_set(value_, other.value_);
}

Enclosure::Enclosure(Enclosure&& other) noexcept {
    mpfi_init2(value_, MPFR_PREC_MIN);
    mpfi_swap(value_, other.value_);
}

Enclosure& Enclosure::operator=(Enclosure other) noexcept {
    mpfi_swap(value_, other.value_);
    return *this;
}

Enclosure::~Enclosure() {
    mpfi_clear(value_);
}

long Enclosure::bits() const {
    return static_cast<long>(mpfi_get_prec(value_));
}

Enclosure operator+(const Enclosure& a, const Enclosure& b) {
    Enclosure sum(std::max(a.bits(), b.bits()));
    mpfi_add(sum.value_, a.value_, b.value_);
    return sum;
}

Enclosure operator-(const Enclosure& a, const Enclosure& b) {
    Enclosure difference(std::max(a.bits(), b.bits()));
    mpfi_sub(difference.value_, a.value_, b.value_);
    return difference;
}

Enclosure operator*(const Enclosure& a, const Enclosure& b) {
    Enclosure product(std::max(a.bits(), b.bits()));
    mpfi_mul(product.value_, a.value_, b.value_);
    return product;
}

Enclosure operator/(const Enclosure& a, const Enclosure& b) {
    Enclosure quotient(std::max(a.bits(), b.bits()));
    mpfi_div(quotient.value_, a.value_, b.value_);
    return quotient;
}

Enclosure sqrt(const Enclosure& a) {
    Enclosure root(a.bits());
    mpfi_sqrt(root.value_, a.value_);
    return root;
}

Enclosure log2(const Enclosure& a) {
    Enclosure result(a.bits());
    if (mpfr_equal_p(&a.value_->left, &a.value_->right)) {
        // Of a single number one logarithm, rounded down, is enough: the true one is that or lies
        // below the next number.
        mpfr_ptr low = &result.value_->left, high = &result.value_->right;
        const int inexact = mpfr_log2(low, &a.value_->left, MPFR_RNDD);
        mpfr_set(high, low, MPFR_RNDU);
        if (inexact != 0)
            mpfr_nextabove(high);
        return result;
    }
    mpfi_log2(result.value_, a.value_);
    return result;
}

Enclosure exp2(const Enclosure& a) {
    Enclosure result(a.bits());
    mpfi_exp2(result.value_, a.value_);
    return result;
}

std::optional<int> Enclosure::sign() const {
    if (mpfi_is_strictly_pos(value_) > 0)
        return 1;
    if (mpfi_is_strictly_neg(value_) > 0)
        return -1;
    if (mpfi_is_zero(value_) > 0)
        return 0;
    return std::nullopt;
}

namespace {

/// The whole number that both bounds go to under `rounding`, if it is the same and finite.
std::optional<Integer> common_integer(const mpfr_t low, const mpfr_t high, mpfr_rnd_t rounding) {
    if (!mpfr_number_p(low) || !mpfr_number_p(high))
        return std::nullopt;
    Integer below, above;
    mpfr_get_z(below.backend().data(), low, rounding);
    mpfr_get_z(above.backend().data(), high, rounding);
    if (below != above)
        return std::nullopt;
    return below;
}

} // namespace

std::optional<Integer> Enclosure::rounded() const {
    // A bound on an exact half would be rounded by a rule that the true value need not share, but
    // then the two bounds differ unless the enclosure is a point, which callers exclude.
    return common_integer(&value_->left, &value_->right, MPFR_RNDN);
}

std::optional<Integer> Enclosure::floored() const {
    return common_integer(&value_->left, &value_->right, MPFR_RNDD);
}

double Enclosure::estimate() const {
    return mpfi_get_d(value_);
}

std::optional<double> Enclosure::narrow() const {
    const double low = mpfr_get_d(&value_->left, MPFR_RNDN);
    const double high = mpfr_get_d(&value_->right, MPFR_RNDN);
    return low == high ? std::optional(high) : std::nullopt;
}

void check_digits(int digits) {
    if (digits < 0 || digits > limits::decimal_digits)
        throw error(message::digits_out_of_range, fmt::to_string(digits), {},
                    limits::decimal_digits);
}

namespace {

constexpr long first_bits = 96;
constexpr std::string_view what_encloses = "what encloses a number";

/// Asks `decide` with growing precision until it answers; Ziv's strategy.
template <typename Decide>
auto decided(long bits, Message otherwise, Decide decide) {
    for (; bits <= limits::precision_bits; bits *= 2)
        if (auto answer = decide(bits))
            return *answer;
    throw error(otherwise, "", {}, limits::precision_bits);
}

} // namespace

std::string certified_decimal(const RealFunction& value, int digits) {
    check_function(value, what_encloses);
    check_digits(digits);
    const Integer scale = power_of_ten(digits);
    // log2(10) < 3.33 bits carry one digit.
    const long bits = first_bits + static_cast<long>(3.33 * digits);
    return decimal_text(decided(bits, message::rounding_undecided,
                                [&](long b) { return (value(b) * Enclosure(scale, b)).rounded(); }),
                        digits);
}

Integer certified_round(const RealFunction& value) {
    check_function(value, what_encloses);
    return decided(first_bits, message::rounding_undecided,
                   [&](long bits) { return value(bits).rounded(); });
}

Integer certified_floor(const RealFunction& value) {
    check_function(value, what_encloses);
    return decided(first_bits, message::rounding_undecided,
                   [&](long bits) { return value(bits).floored(); });
}

double certified_double(const RealFunction& value) {
    check_function(value, what_encloses);
    return decided(first_bits, message::rounding_undecided,
                   [&](long bits) { return value(bits).narrow(); })
           + 0.0; // never -0
}

int certified_sign(const RealFunction& value) {
    check_function(value, what_encloses);
    return decided(first_bits, message::order_undecided, [&](long bits) -> std::optional<int> {
        const auto sign = value(bits).sign();
        return sign == 0 ? std::nullopt : sign;
    });
}

} // namespace sectio
