#include <sectio/print/accidental.hpp>

#include <algorithm>
#include <array>

namespace sectio::page {

namespace {

constexpr std::array accidentals{
    Accidental{"♭", 1.4, 0.09},          Accidental{"♯", 1.05, 0.16},
    Accidental{"♮", 1.05, 0.16},         Accidental{"\U0001D12B", 1.3, 0.1},
    Accidental{"\U0001D12A", 1.2, 0.13}, Accidental{"\U0001D132", 1.05, 0.16},
    Accidental{"\U0001D133", 1.4, 0.09}};

} // namespace

FoundAccidental find_accidental(std::string_view text) {
    FoundAccidental first;
    if (text.find_first_of("\xE2\xF0") == std::string_view::npos)
        return first;
    for (const Accidental& a : accidentals)
        if (const std::size_t at = text.find(a.sign); at < first.at)
            first = {at, &a};
    const bool rightwards = std::all_of(text.begin(), text.end(), [](char c) {
        const auto byte = static_cast<unsigned char>(c);
        return byte < 0xD6 || byte == 0xE2 || byte == 0xF0;
    });
    return rightwards ? first : FoundAccidental{};
}

} // namespace sectio::page
