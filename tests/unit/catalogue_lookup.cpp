// Words, kinds and relations in the catalogue.

#include "support/errors.hpp"

#include <sectio/scale/lookup.hpp>
#include <sectio/scale/references.hpp>

#include <catch2/catch.hpp>

#include <algorithm>

using namespace sectio;

namespace {

std::vector<std::string> ids(const Found& found) {
    std::vector<std::string> all;
    for (const Entry* entry : found.all())
        all.push_back(entry->id);
    return all;
}

bool holds(const std::vector<std::string>& all, const std::string& id) {
    return std::find(all.begin(), all.end(), id) != all.end();
}

Found look(const std::vector<std::string>& words, std::optional<EntryKind> kind = std::nullopt) {
    return look_up(Catalogue::installed(), words, kind);
}

std::optional<std::size_t> shift_of(const std::string& from, const std::string& to) {
    for (const Relative& r : relatives(*Catalogue::installed().find(from), Catalogue::installed()))
        if (r.entry->id == to)
            return r.shift;
    return std::nullopt;
}

} // namespace

TEST_CASE("Ids with one or two letters wrong are suggested, three at most") {
    const Catalogue& catalogue = Catalogue::installed();
    CHECK(catalogue.similar("werckmeister-ivi").size() == 3); // of iii, iv and vi; v is third
    CHECK(catalogue.similar("werckmeister-xi").size() == 3);  // of all four, each two letters off
    CHECK(holds(catalogue.similar("huseynixy"), "huseyni"));
    CHECK_FALSE(holds(catalogue.similar("huseynixyz"), "huseyni"));
    CHECK(catalogue.hint("colour").empty());
}

TEST_CASE("A name is found with and without its diacritics, in any case") {
    for (const char* word : {"Hüseynî", "huseyni", "HÜSEYNÎ", "hu\xCC\x88seyni\xCC\x82"}) {
        const Found found = look({word});
        CHECK(holds(ids({found.called, {}}), "huseyni"));
    }
    CHECK(ids({look({"syntonic", "comma"}).called, {}})
          == std::vector<std::string>{"syntonic-comma"});
}

TEST_CASE("All words must match, and each begins a word") {
    const auto found = ids(look({"turkish", "hicaz"}));
    CHECK(holds(found, "zirguleli-hicaz"));
    CHECK(holds(found, "hicazkar"));
    CHECK_FALSE(holds(found, "rast"));
    for (const Entry* entry : look({"comma"}, EntryKind::comma).all())
        CHECK(entry->kind() == EntryKind::comma);
}

TEST_CASE("A size finds what has it, exactly or as its cents are rounded") {
    const auto called = [](const std::string& size) { return ids({look({size}).called, {}}); };
    CHECK(called("3/2").front() == "fifth");
    CHECK(called("81/80").front() == "syntonic-comma");
    CHECK(holds(called("702c"), "fifth")); // 701.955
    CHECK(holds(called("701.96c"), "fifth"));
    CHECK(support::name_of(support::error_of([&] { called("701.9c"); })) == "nothing_found");
    CHECK(support::name_of(support::error_of([&] { called("243/243"); })) == "no error"); // 1/1
}

TEST_CASE("Words are found by their beginnings, with an ending, and not inside others") {
    CHECK(ids(look({"rast", "makamı"})).front() == "rast");
    CHECK(support::name_of(support::error_of([] { look({"ast"}); })) == "nothing_found");
    CHECK(look({"half", "step"}).called.front()->id == "diatonic-semitone");
}

TEST_CASE("Few letters are a word of their own, and several words may come as one argument") {
    CHECK(holds(ids(look({"ud"})), "farabi-ud"));
    CHECK_FALSE(holds(ids(look({"sa"})), "saba"));
    CHECK(ids(look({"rast makamı"})).front() == "rast");
}

TEST_CASE("Instruments and other spellings find what is played on them and meant by them") {
    for (const char* word : {"oud", "qanun", "ney"})
        CHECK(holds(ids(look({word})), "maqam-rast"));
    for (const char* word : {"saz", "bağlama", "tanbur", "qanun"})
        CHECK(holds(ids(look({word})), "rast"));
    CHECK(holds(ids(look({"santur"})), "dastgah-shur"));
    const Found saz = look({"saz"});
    CHECK(saz.matching.front()->kind() == EntryKind::system);
    CHECK(saz.matching.size() < 30); // of 65 makams
    CHECK(std::all_of(saz.matching.begin(), saz.matching.end(), [](const Entry* e) {
        return e->kind() == EntryKind::system || e->common();
    }));
    CHECK(saz.more == std::vector<std::string>{"makam"});
    CHECK(look({"makam"}).more.empty());
    CHECK(look({"oud"}).matching.front()->id == "farabi-ud");
    CHECK(holds(ids(look({"gypsy"})), "hungarian-minor"));
    const auto first = [](const char* word) { return look({word}).called.front()->id; };
    CHECK(first("yaman") == "thaat-kalyan");
    CHECK(first("leading tone") == "major-seventh");
    CHECK(first("Shankarabharanam") == "dheerasankarabharanam");
    CHECK(first("Mechakalyani") == "mechakalyani");
}

TEST_CASE("Names are found in their own scripts") {
    const auto first = [](const char* word) { return look({word}).called.front()->id; };
    CHECK(first("راست") == "maqam-rast");
    CHECK(first("شور") == "dastgah-shur");
    CHECK(first("افشاري") == "avaz-afshari"); // with an Arabic instead of a Persian letter
    CHECK(first("भैरव") == "thaat-bhairav");
    CHECK(first("भैरवी") == "thaat-bhairavi"); // its vowel sign tells it from the other
    CHECK(first("काफी") == "thaat-kafi");     // written without its nukta
    CHECK(first("ΛΥΔΙΟΣ") == "greek-lydian");
}

TEST_CASE("Letters that are wrong in several words still bring what was meant") {
    const auto hint = [](const std::vector<std::string>& words) {
        return support::error_of([&] { look(words); })->message();
    };
    CHECK(hint({"quartr", "coma", "meantne"}).find("quarter-comma-meantone") != std::string::npos);
    CHECK(hint({"sintonic", "coma"}).find("syntonic-comma") != std::string::npos);
    CHECK(hint({"hicza", "maakm"}).find("did you mean hicaz") != std::string::npos);
    CHECK(hint({"rats makma"}).find("did you mean rast") != std::string::npos);
    CHECK(hint({"zzz"}).find("did you mean") == std::string::npos);
}

TEST_CASE("What matches nothing is refused with the nearest ids") {
    const auto error = support::error_of([] { look({"huseynni"}); });
    REQUIRE(support::name_of(error) == "nothing_found");
    CHECK(error->code() == ErrorCode::unusable);
    CHECK(error->message().find("huseyni") != std::string::npos);
}

// Turkish theory: Hüseynî and Nevâ, Hicaz and Uzzâl have the same scale; the scale of Karcığar from
// its seventh degree is that of Sûznâk (the steps 8 5 9 5 12 5 9 turned).
TEST_CASE("Scales of equal pitches and their rotations are related exactly") {
    CHECK(shift_of("huseyni", "neva") == 0);
    CHECK(shift_of("hicaz", "uzzal") == 0);
    CHECK(shift_of("karcigar", "suznak") == 6);
    CHECK_FALSE(shift_of("huseyni", "ussak") == 0);
    CHECK_FALSE(shift_of("rast", "zarlino")); // within two cents, yet not equal
}

TEST_CASE("A work that the catalogue cites is written out for readers") {
    CHECK(sectio::with_references("arel-1968; p. 3 (from memory)")
          == "H. S. Arel, Türk Mûsıkîsi Nazariyatı Dersleri (1968); p. 3 (from memory)");
    CHECK(sectio::with_references("invented, for a well-known-case of none")
          == "invented, for a well-known-case of none");
    CHECK(sectio::with_references("sahaney, Rast (seen)")
          == "Sahaney, Makamlar (undated), Rast (seen)");
    CHECK(sectio::with_references("").empty());
}
