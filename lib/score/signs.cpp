#include <sectio/score/signs.hpp>

#include <array>

namespace sectio::score {

namespace {

constexpr std::optional<int> none = std::nullopt;

/// Names: MusicXML 4.0, simple type accidental-value. Quarter tones: its documentation ("Tartini
/// style", arrows are quarter-tone accidentals) and, for sori and koron, the quarter tone that
/// Vaziri's notation wrote with them (common practice, no source; players vary). Commas: Arel, Ezgi
/// and Uzdilek's eight signs of 1, 4, 5 and 8 commas with the names that Turkish scores in MusicXML
/// use (quarter-flat is the koma flat, slash-flat the bakiye flat, sharp the bakiye sharp,
/// slash-quarter-sharp the küçük mücennep sharp); numbered signs carry their commas.
constexpr std::array sign_entries{
    SignEntry{"", "", 0, 0},
    SignEntry{"sharp", "♯", 2, 4},
    SignEntry{"natural", "♮", 0, 0},
    SignEntry{"flat", "♭", -2, -5},
    SignEntry{"double-sharp", "𝄪", 4, none},
    SignEntry{"sharp-sharp", "♯♯", 4, none},
    SignEntry{"flat-flat", "♭♭", -4, none},
    SignEntry{"natural-sharp", "♮♯", 2, 4},
    SignEntry{"natural-flat", "♮♭", -2, -5},
    SignEntry{"quarter-flat", " quarter-flat", -1, -1},
    SignEntry{"quarter-sharp", " quarter-sharp", 1, 1},
    SignEntry{"three-quarters-flat", " three-quarters-flat", -3, none},
    SignEntry{"three-quarters-sharp", " three-quarters-sharp", 3, none},
    SignEntry{"sharp-down", "♯↓", 1, none},
    SignEntry{"sharp-up", "♯↑", 3, none},
    SignEntry{"natural-down", "♮↓", -1, none},
    SignEntry{"natural-up", "♮↑", 1, none},
    SignEntry{"flat-down", "♭↓", -3, none},
    SignEntry{"flat-up", "♭↑", -1, none},
    SignEntry{"double-sharp-down", "𝄪↓", 3, none},
    SignEntry{"double-sharp-up", "𝄪↑", 5, none},
    SignEntry{"flat-flat-down", "♭♭↓", -5, none},
    SignEntry{"flat-flat-up", "♭♭↑", -3, none},
    SignEntry{"arrow-down", "↓", -1, none},
    SignEntry{"arrow-up", "↑", 1, none},
    SignEntry{"triple-sharp", "♯♯♯", 6, none},
    SignEntry{"triple-flat", "♭♭♭", -6, none},
    SignEntry{"slash-quarter-sharp", " slash-quarter-sharp", none, 5},
    SignEntry{"slash-sharp", " slash-sharp", none, 8},
    SignEntry{"slash-flat", " slash-flat", none, -4},
    SignEntry{"double-slash-flat", " double-slash-flat", none, -8},
    SignEntry{"sharp-1", "♯1", none, 1},
    SignEntry{"sharp-2", "♯2", none, 2},
    SignEntry{"sharp-3", "♯3", none, 3},
    SignEntry{"sharp-5", "♯5", none, 5},
    SignEntry{"flat-1", "♭1", none, -1},
    SignEntry{"flat-2", "♭2", none, -2},
    SignEntry{"flat-3", "♭3", none, -3},
    SignEntry{"flat-4", "♭4", none, -4},
    SignEntry{"sori", " sori", 1, none},
    SignEntry{"koron", " koron", -1, none},
    SignEntry{"other", " other", none, none},
    // Glyphs of SMuFL 1.4, by which the value "other" is told apart: Arel, Ezgi and Uzdilek's
    // signs, those of Turkish folk music, Persian and Arabic ones, Stein's and Zimmermann's quarter
    // tones.
    SignEntry{"accidentalBuyukMucennebFlat", " büyük mücenneb flat", none, -8},
    SignEntry{"accidentalKucukMucennebFlat", " küçük mücenneb flat", none, -5},
    SignEntry{"accidentalBakiyeFlat", " bakiye flat", none, -4},
    SignEntry{"accidentalKomaFlat", " koma flat", none, -1},
    SignEntry{"accidentalKomaSharp", " koma sharp", none, 1},
    SignEntry{"accidentalBakiyeSharp", " bakiye sharp", none, 4},
    SignEntry{"accidentalKucukMucennebSharp", " küçük mücenneb sharp", none, 5},
    SignEntry{"accidentalBuyukMucennebSharp", " büyük mücenneb sharp", none, 8},
    SignEntry{"accidental1CommaSharp", "♯1", none, 1},
    SignEntry{"accidental2CommaSharp", "♯2", none, 2},
    SignEntry{"accidental3CommaSharp", "♯3", none, 3},
    SignEntry{"accidental5CommaSharp", "♯5", none, 5},
    SignEntry{"accidental1CommaFlat", "♭1", none, -1},
    SignEntry{"accidental2CommaFlat", "♭2", none, -2},
    SignEntry{"accidental3CommaFlat", "♭3", none, -3},
    SignEntry{"accidental4CommaFlat", "♭4", none, -4},
    SignEntry{"accidentalSori", " sori", 1, none},
    SignEntry{"accidentalKoron", " koron", -1, none},
    SignEntry{"accidentalDoubleFlatArabic", "♭♭", -4, none},
    SignEntry{"accidentalThreeQuarterTonesFlatArabic", " three-quarters-flat", -3, none},
    SignEntry{"accidentalFlatArabic", "♭", -2, none},
    SignEntry{"accidentalQuarterToneFlatArabic", " quarter-flat", -1, none},
    SignEntry{"accidentalNaturalArabic", "♮", 0, none},
    SignEntry{"accidentalQuarterToneSharpArabic", " quarter-sharp", 1, none},
    SignEntry{"accidentalSharpArabic", "♯", 2, none},
    SignEntry{"accidentalThreeQuarterTonesSharpArabic", " three-quarters-sharp", 3, none},
    SignEntry{"accidentalDoubleSharpArabic", "𝄪", 4, none},
    SignEntry{"accidentalQuarterToneFlatStein", " quarter-flat", -1, none},
    SignEntry{"accidentalThreeQuarterTonesFlatZimmermann", " three-quarters-flat", -3, none},
    SignEntry{"accidentalQuarterToneSharpStein", " quarter-sharp", 1, none},
    SignEntry{"accidentalThreeQuarterTonesSharpStein", " three-quarters-sharp", 3, none},
};

constexpr bool is_glyph(std::string_view name) {
    return name.starts_with("accidental");
}

std::optional<Sign> place_of(std::string_view name) {
    for (std::size_t i = 1; i < sign_entries.size(); ++i)
        if (sign_entries[i].name == name)
            return static_cast<Sign>(i);
    return std::nullopt;
}

} // namespace

std::span<const SignEntry> all_signs() {
    return sign_entries;
}

std::optional<Sign> sign_named(std::string_view name) {
    return is_glyph(name) ? std::nullopt : place_of(name);
}

std::optional<Sign> sign_of_glyph(std::string_view glyph) {
    return is_glyph(glyph) ? place_of(glyph) : std::nullopt;
}

std::optional<Alteration> meaning(Sign sign, SignTable table) {
    const SignEntry& entry = sign_entries[sign];
    if (table == SignTable::turkish && entry.commas)
        return Alteration{*entry.commas, AlterationUnit::comma};
    if (table == SignTable::general && entry.quarter_tones)
        return Alteration{Rational(*entry.quarter_tones, 2), AlterationUnit::semitone};
    return std::nullopt;
}

} // namespace sectio::score
