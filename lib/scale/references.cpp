#include <sectio/scale/references.hpp>

namespace sectio {

namespace {

bool in_key(char c) {
    return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

} // namespace

std::string with_references(std::string_view source, const Catalogue& catalogue) {
    std::string text;
    for (std::size_t at = 0; at < source.size();) {
        std::size_t end = at;
        while (end < source.size() && in_key(source[end]))
            ++end;
        const std::string_view word = source.substr(at, end - at);
        const auto reference = word.empty() ? std::nullopt : catalogue.reference(word);
        text += reference ? *reference : std::string(word);
        if (end < source.size())
            text += source[end++];
        at = end;
    }
    return text;
}

} // namespace sectio
