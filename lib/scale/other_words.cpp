#include <sectio/scale/other_words.hpp>

#include <array>

namespace sectio {

namespace {

struct OtherWords {
    std::string_view written;
    std::array<std::string_view, 3> meant; ///< empty from the first that is not used
};

/// Instruments stand for the traditions whose scales are played on them.
constexpr OtherWords other_words[]{
    {"oud", {"ud", "lute", "arab"}},
    {"lavta", {"makam", "lute"}},
    {"qanun", {"kanun", "arab", "makam"}},
    {"kanun", {"makam", "arab"}},
    {"ney", {"makam", "arab", "persian"}},
    {"nay", {"arab", "persian"}},
    {"saz", {"baglama", "makam"}},
    {"baglama", {"saz", "makam"}},
    {"tanbur", {"makam"}},
    {"kemence", {"makam"}},
    {"santur", {"persian"}},
    {"santoor", {"persian", "hindustani"}},
    {"tar", {"persian"}},
    {"setar", {"persian"}},
    {"dastgah", {"persian"}},
    {"sitar", {"hindustani"}},
    {"sarod", {"hindustani"}},
    {"veena", {"karnatak"}},
    {"vina", {"karnatak"}},
    {"raga", {"hindustani", "karnatak"}},
    {"raag", {"hindustani", "karnatak"}},
    {"mela", {"melakarta"}},
    {"thaat", {"that"}},
    {"carnatic", {"karnatak"}},
    {"gamelan", {"javanese", "balinese"}},
    {"harpsichord", {"keyboard"}},
    {"organ", {"keyboard"}},
    {"مقام", {"arab"}},
    {"دستگاه", {"persian"}},
    {"राग", {"hindustani", "karnatak"}},
    {"थाट", {"that"}},
};

} // namespace

std::span<const std::string_view> words_for(std::string_view word) {
    for (const OtherWords& row : other_words)
        if (row.written == word) {
            std::size_t count = 0;
            while (count < row.meant.size() && !row.meant[count].empty())
                ++count;
            return {row.meant.data(), count};
        }
    return {};
}

} // namespace sectio
