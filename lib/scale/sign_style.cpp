#include <sectio/base/argument.hpp>
#include <sectio/scale/messages.hpp>
#include <sectio/scale/sign_style.hpp>

#include <algorithm>
#include <array>

namespace sectio {

namespace {

constexpr std::array<std::string_view, 4> style_names{"plain", "quarter", "comma", "persian"};

} // namespace

std::string_view text(SignStyle style) {
    return row_for(style_names, style);
}

std::optional<SignStyle> parse_sign_style(std::string_view text, const Place& place) {
    if (text == "auto")
        return std::nullopt;
    const auto found = std::find(style_names.begin(), style_names.end(), text);
    if (found == style_names.end())
        throw error(message::unknown_sign_style, text, place);
    return static_cast<SignStyle>(found - style_names.begin());
}

} // namespace sectio
