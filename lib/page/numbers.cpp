#include <sectio/base/visible.hpp>
#include <sectio/page/numbers.hpp>

#include <glib.h>

#include <algorithm>
#include <memory>

namespace sectio {

namespace {

constexpr int hertz_digits = 2;
/// Digits of one whole number, and characters of one expression, that a page shows in full.
constexpr std::size_t shown_digits = 32;
constexpr std::size_t shown_characters = 96;
constexpr std::size_t kept_digits = 10;

bool is_digit_byte(char c) {
    return c >= '0' && c <= '9';
}

std::string long_numbers_cut(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const auto end = std::find_if_not(text.begin() + static_cast<std::ptrdiff_t>(i), text.end(),
                                          is_digit_byte);
        const std::size_t length = static_cast<std::size_t>(end - text.begin()) - i;
        if (length > shown_digits)
            out.append(text.substr(i, kept_digits))
                .append("…")
                .append(text.substr(i + length - kept_digits, kept_digits));
        else
            out.append(text.substr(i, std::max<std::size_t>(length, 1)));
        i += std::max<std::size_t>(length, 1);
    }
    return out;
}

/// Characters `begin` to `end` of UTF-8 text.
std::string characters(const std::string& text, std::size_t begin, std::size_t end) {
    const char* from = g_utf8_offset_to_pointer(text.c_str(), static_cast<glong>(begin));
    const char* to = g_utf8_offset_to_pointer(text.c_str(), static_cast<glong>(end));
    return {from, to};
}

} // namespace

std::string true_minus(std::string_view number) {
    return number.starts_with('-') ? "−" + std::string(number.substr(1)) : std::string(number);
}

std::string cents_text(const Interval& interval, int digits) {
    return true_minus(interval.cents(digits));
}

std::string with_sign(const std::string& number) {
    const bool zero = number.find_first_not_of("0.") == std::string::npos;
    return zero || number.starts_with('-') ? true_minus(number) : "+" + number;
}

std::string signed_cents(const Interval& interval, int digits) {
    return with_sign(interval.cents(digits));
}

int borne_digits(const std::optional<Interval>& uncertainty, int digits) {
    if (!uncertainty)
        return digits;
    for (int places = 0; places < digits; ++places)
        if (*uncertainty >= Interval::from_cents(Rational(1, power_of_ten(places))))
            return places;
    return digits;
}

int borne_digits(const Rational& uncertainty, int digits) {
    for (int places = 0; places < digits; ++places)
        if (uncertainty >= Rational(1, power_of_ten(places)))
            return places;
    return digits;
}

std::string margin_text(const Rational& uncertainty, int digits) {
    return decimal_text(-floor(-(uncertainty * power_of_ten(digits))), digits);
}

std::string margin_cents(const Interval& uncertainty, int digits) {
    const Integer scale = power_of_ten(digits);
    if (const auto exact = uncertainty.exact_cents())
        return margin_text(*exact, digits);
    // Not a rational number of cents, hence never whole: the ceiling is the floor plus one.
    const Integer below = certified_floor([&](long bits) {
        return uncertainty.octaves(bits) * Enclosure(Integer(1200 * scale), bits);
    });
    return decimal_text(below + 1, digits);
}

std::string hertz_text(const Pitch& pitch) {
    if (const auto hertz = pitch.above_hertz().ratio()) {
        const std::string exact = exact_decimal(*hertz);
        const std::size_t point = exact.find('.');
        if (!exact.empty()
            && (point == std::string::npos || exact.size() - point - 1 <= hertz_digits))
            return "= " + exact + " Hz";
    }
    return "≈ " + pitch.hertz(hertz_digits) + " Hz";
}

std::string shortened(std::string_view expression) {
    std::string text = long_numbers_cut(expression);
    const auto length = static_cast<std::size_t>(g_utf8_strlen(text.c_str(), -1));
    if (length <= shown_characters)
        return text;
    const std::size_t half = shown_characters / 2;
    return characters(text, 0, half) + "…" + characters(text, length - half, length);
}

std::string one_line(std::string_view text) {
    const std::unique_ptr<char, decltype(&g_free)> valid(
        g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())), g_free);
    std::string out;
    for (const char* p = valid.get(); *p; p = g_utf8_next_char(p)) {
        const gunichar c = g_utf8_get_char(p);
        const bool breaks = g_unichar_iscntrl(c) || c == 0x2028 || c == 0x2029;
        // Not characters of XML 1.0 (production 2), hence of no HTML or SVG either, nor of a PDF.
        if (breaks || is_noncharacter(c))
            out += ' ';
        else
            out.append(p, static_cast<std::size_t>(g_utf8_next_char(p) - p));
    }
    return visible(out);
}

std::size_t display_width(std::string_view text) {
    std::size_t width = 0;
    for (const char* p = text.data(); p < text.data() + text.size(); p = g_utf8_next_char(p)) {
        const gunichar c = g_utf8_get_char(p);
        const bool narrow = c < 0x80; // most are, and need no table
        width += narrow ? 1 : g_unichar_iszerowidth(c) ? 0 : g_unichar_iswide(c) ? 2 : 1;
    }
    return width;
}

} // namespace sectio
