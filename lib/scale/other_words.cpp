#include <sectio/scale/other_words.hpp>

#include <algorithm>
#include <array>
#include <iterator>

namespace sectio {

namespace {

using Words = std::array<std::string_view, 3>; ///< empty from the first that is not used

struct OtherWords {
    std::string_view written;
    Words meant;
    Words played{}; ///< by an instrument: words of the traditions
};

constexpr OtherWords other_words[]{
    {"oud", {"ud", "lute"}, {"arab"}},
    {"lavta", {"lute"}, {"makam"}},
    {"qanun", {"kanun"}, {"arab", "makam"}},
    {"kanun", {"qanun"}, {"makam", "arab"}},
    {"ney", {"nay"}, {"makam", "arab", "persian"}},
    {"nay", {"ney"}, {"arab", "persian"}},
    {"saz", {"baglama"}, {"makam"}},
    {"baglama", {"saz"}, {"makam"}},
    {"tanbur", {}, {"makam"}},
    {"kemence", {}, {"makam"}},
    {"santur", {"santoor"}, {"persian"}},
    {"santoor", {"santur"}, {"persian", "hindustani"}},
    {"tar", {}, {"persian"}},
    {"setar", {}, {"persian"}},
    {"sitar", {}, {"hindustani"}},
    {"sarod", {}, {"hindustani"}},
    {"veena", {"vina"}, {"karnatak"}},
    {"vina", {"veena"}, {"karnatak"}},
    {"gamelan", {}, {"javanese", "balinese"}},
    {"harpsichord", {}, {"keyboard"}},
    {"organ", {}, {"keyboard"}},
    {"dastgah", {"persian"}},
    {"raga", {"hindustani", "karnatak"}},
    {"raag", {"hindustani", "karnatak"}},
    {"mela", {"melakarta"}},
    {"thaat", {"that"}},
    {"carnatic", {"karnatak"}},
    {"مقام", {"arab"}},
    {"دستگاه", {"persian"}},
    {"राग", {"hindustani", "karnatak"}},
    {"थाट", {"that"}},
};

std::span<const std::string_view> used(const Words& words) {
    return {words.data(),
            static_cast<std::size_t>(std::find(words.begin(), words.end(), std::string_view())
                                     - words.begin())};
}

/// Of a word that the table has not, nothing.
const OtherWords& row_of(std::string_view word) {
    static constexpr OtherWords none{};
    const auto* row = std::find_if(std::begin(other_words), std::end(other_words),
                                   [&](const OtherWords& r) { return r.written == word; });
    return row == std::end(other_words) ? none : *row;
}

} // namespace

std::span<const std::string_view> words_for(std::string_view word) {
    return used(row_of(word).meant);
}

std::span<const std::string_view> played_on(std::string_view word) {
    return used(row_of(word).played);
}

} // namespace sectio
